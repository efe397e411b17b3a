#include "scenarios/slurm_script.hpp"

namespace hoofload::scenarios {

namespace {

/// In single quotes for the shell.
std::string quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

constexpr const char* kBody = R"sh(
missing() {
  local i list=''
  for ((i = 1; i <= parts; ++i)); do [ -e "$folder/$i.done" ] || list+="$i,"; done
  echo "${list%,}"
}

# One task: its part of the runs, or what of them an earlier try has left.
part() {
  local i="$SLURM_ARRAY_TASK_ID" code=0
  "$program" sweep "$plan" --out "$folder/$i.sqlite" --shard "$i/$parts" --threads "$threads" || code=$?
  # 4: some runs have reasons instead of values; those are rows as well.
  if [ "$code" -ne 0 ] && [ "$code" -ne 4 ]; then exit "$code"; fi
  touch "$folder/$i.done"
}

# The parts that are not done, and behind them the merge.
submit() {
  local try="$1" list limit array after=()
  list="$(missing)"
  mkdir -p "$folder/log"
  limit="$(scontrol show config | sed -n 's/^MaxArraySize *= *//p')"
  if [ -n "$limit" ] && [ "$parts" -ge "$limit" ]; then
    echo "$self: $parts parts, but this cluster takes fewer than $limit in an array: write it again with --parts" >&2
    exit 2
  fi
  if [ -n "$list" ]; then
    array="$(sbatch --parsable --array="$list${at_once:+%$at_once}" --requeue --cpus-per-task="$threads" \
      --time="$time" --job-name=hoofload-part --open-mode=append --output="$folder/log/part-%a.txt" "$self" part)"
    after=(--dependency="afterany:${array%%;*}" --kill-on-invalid-dep=yes)
    echo "parts ${list:0:60} submitted as job ${array%%;*}"
  fi
  sbatch --parsable "${after[@]}" --requeue --time="$time" --job-name=hoofload-merge --open-mode=append \
    --output="$folder/log/merge.txt" "$self" merge "$try" > /dev/null
}

merge() {
  local try="$1" list
  list="$(missing)"
  if [ -z "$list" ]; then
    "$program" merge "$folder"/*.sqlite --out "$out"
  elif [ "$try" -lt "$most_tries" ]; then
    echo "parts $list are not done: submitted again"
    submit $((try + 1))
  else
    echo "parts $list are not done after $try tries; see $folder/log" >&2
    exit 1
  fi
}

case "${1:-submit}" in
  submit) submit 1 ;;
  part) part ;;
  merge) merge "${2:-1}" ;;
  *) echo "usage: bash $self" >&2; exit 2 ;;
esac
)sh";

}  // namespace

std::string slurm_script(const SlurmJob& job) {
  const std::string parts = std::to_string(job.parts);
  return "#!/usr/bin/env bash\n# Written by hoofload sweep --slurm: " + std::to_string(job.runs) + " runs in " + parts +
         " parts. Submits itself as a job array:\n#\n#   bash " + job.script.filename().string() +
         "    submits the parts that are not done; again, after a breakdown, the rest\n#\n" +
         "# The parts lie beside the result in a folder named after the plan; the last job puts them together.\n" +
         "set -euo pipefail\nself=" + quoted(job.script.string()) + "\nprogram=" + quoted(job.program.string()) +
         "\nplan=" + quoted(job.plan.string()) + "\nout=" + quoted(job.out.string()) + "\nfolder=\"$out.parts-" +
         job.plan_sha256.substr(0, 12) + "\"\nparts=" + parts +
         "\nat_once=" + (job.at_once > 0 ? std::to_string(job.at_once) : "") +
         "\nthreads=" + std::to_string(job.threads) + "\ntime=" + quoted(job.time) + "\nmost_tries=3\n" + kBody;
}

}  // namespace hoofload::scenarios
