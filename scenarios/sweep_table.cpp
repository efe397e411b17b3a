#include "scenarios/sweep_table.hpp"

#include "scenarios/units.hpp"

#include <nlohmann/json.hpp>
#include <ostream>

namespace hoofload::scenarios {

namespace {

constexpr std::size_t kDigits = 12;  ///< of a fingerprint

std::string number_field(const std::optional<double>& value) { return value ? number_text(*value) : ""; }

bool same_rows(const SweepRun& a, const SweepRun& b) {
  const auto same = [](const SweepRow& x, const SweepRow& y) {
    return x.option == y.option && x.model == y.model && x.phase == y.phase && x.quantity == y.quantity &&
           x.value == y.value && x.mesh_bar == y.mesh_bar && x.outcome == y.outcome && x.reason == y.reason;
  };
  return a.case_sha256 == b.case_sha256 && std::equal(a.rows.begin(), a.rows.end(), b.rows.begin(), b.rows.end(), same);
}

void write_run(const SweepRun& run, const std::string& tail, std::ostream& out) {
  std::string head = std::to_string(run.run);
  for (const InputValue& s : run.settings) head += "," + csv_field(s.value);
  for (const SweepRow& row : run.rows) {
    out << head;
    for (const std::string* text : {&row.option, &row.model, &row.phase, &row.quantity, &row.unit})
      out << ',' << csv_field(*text);
    out << ',' << number_field(row.value) << ',' << number_field(row.mesh_bar) << ',' << csv_field(row.outcome) << ','
        << csv_field(row.reason) << ',' << run.case_sha256.substr(0, kDigits) << tail << '\n';
  }
}

}  // namespace

std::string csv_field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + '"';
}

void write_sweep_csv(const SweepFile& file, std::ostream& out) {
  const SweepIdentity& identity = file.identity();
  out << "run";
  for (const auto& input : nlohmann::json::parse(identity.inputs)) {
    const std::string unit = input.at(1);
    out << ',' << csv_field(input.at(0).get<std::string>() + (unit.empty() ? "" : " [" + unit + "]"));
  }
  out << ",option,model,phase,quantity,unit,value,mesh_bar,outcome,reason,case,plan,program\n";
  const std::string tail = "," + identity.plan_sha256.substr(0, kDigits) + "," + csv_field(identity.program);
  for (const std::size_t run : file.finished()) write_run(file.read(run), tail, out);
}

void merge_sweeps(const std::vector<std::filesystem::path>& parts, const std::filesystem::path& whole) {
  if (parts.empty()) throw SweepFileError("nothing to merge");
  SweepIdentity identity = SweepFile(parts.front()).identity();
  SweepFile target(whole, identity);
  std::set<std::size_t> have = target.finished();
  for (const auto& path : parts) {
    if (std::error_code e; std::filesystem::equivalent(path, whole, e)) continue;
    const SweepFile part(path);
    if (part.identity() != identity)
      throw SweepFileError(path.string() + ": belongs to another plan or program than " + parts.front().string());
    for (const std::size_t run : part.finished()) {
      const SweepRun solved = part.read(run);
      if (have.insert(run).second)
        target.add(solved);
      else if (!same_rows(solved, target.read(run)))
        throw SweepFileError(path.string() + ": run " + std::to_string(run) + " has other values than in " +
                             whole.string());
    }
  }
}

std::string missing_runs(const SweepFile& file) {
  const std::set<std::size_t> have = file.finished();
  std::string text;
  const std::size_t runs = file.identity().runs;
  for (std::size_t run = 0; run < runs; ++run) {
    if (have.count(run) > 0) continue;
    std::size_t last = run;
    while (last + 1 < runs && have.count(last + 1) == 0) ++last;
    text += (text.empty() ? "" : ", ") + std::to_string(run) + (last > run ? "-" + std::to_string(last) : "");
    run = last;
  }
  return text;
}

}  // namespace hoofload::scenarios
