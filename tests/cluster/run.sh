#!/usr/bin/env bash
# A sweep on a real Slurm of one node, on the loopback interface only: its slurmd and the tasks in flight are killed in
# mid-run and the node comes back; the merged table must equal that of an undisturbed sweep to the last byte.
#
#   bash tests/cluster/run.sh          needs root and Debian's slurm-wlm and munge (--install: installs them)
#
# HOOFLOAD names the program (build/hoofload), RUNS the number of runs (240).
set -euo pipefail
cd "$(dirname "$0")/../.."
if [ "${1:-}" = --install ]; then bash scenarios/install.sh --cluster; fi
for tool in slurmctld slurmd munged sbatch; do
  [ -n "$(PATH="$PATH:/usr/sbin" command -v "$tool")" ] || { echo "cluster: $tool is not installed" >&2; exit 5; }
done
[ "$(id -u)" -eq 0 ] || { echo "cluster: starting slurmd takes root" >&2; exit 5; }
export PATH="$PATH:/usr/sbin"
hoofload="$(realpath "${HOOFLOAD:-build/hoofload}")"
runs="${RUNS:-240}"
folder="$(mktemp -d)"
chmod 755 "$folder"
mkdir -p "$folder"/{run,log,state,spool,sweep}
host="$(hostname -s)"
cp tests/sweep/packing.toml "$folder/sweep/packing.toml"
sed "s/^samples = .*/samples = $runs/" tests/sweep/plan.toml > "$folder/sweep/plan.toml"

stop() {
  local name
  for name in slurmd slurmctld munged; do
    if [ -s "$folder/run/$name.pid" ]; then kill "$(cat "$folder/run/$name.pid")" 2>/dev/null || true; fi
  done
}
trap stop EXIT
fail() { echo "cluster: $1" >&2; tail -n 20 "$folder"/log/*.log "$folder"/sweep/*.parts-*/log/* >&2 || true; exit 1; }
# Waits until a command succeeds, at most so many seconds.
wait_for() { local left=$(($1 * 5)); shift; until "$@" > /dev/null 2>&1; do ((left-- > 0)) || return 1; sleep 0.2; done; }

dd if=/dev/urandom of="$folder/munge.key" bs=1024 count=1 status=none
chmod 600 "$folder/munge.key"
cat > "$folder/slurm.conf" <<CONF
ClusterName=loopback
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
AuthInfo=socket=$folder/run/munge.socket
CredType=cred/munge
CommunicationParameters=NoInAddrAny,NoCtldInAddrAny
MpiDefault=none
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SwitchType=switch/none
ReturnToService=2
SlurmdTimeout=10
StateSaveLocation=$folder/state
SlurmdSpoolDir=$folder/spool
SlurmctldPidFile=$folder/run/slurmctld.pid
SlurmdPidFile=$folder/run/slurmd.pid
SlurmctldLogFile=$folder/log/slurmctld.log
SlurmdLogFile=$folder/log/slurmd.log
SlurmctldPort=26817
SlurmdPort=26818
MaxArraySize=1001
SchedulerParameters=sched_interval=1,batch_sched_delay=0
NodeName=$host NodeAddr=127.0.0.1 CPUs=2 State=UNKNOWN
PartitionName=main Nodes=ALL Default=YES MaxTime=INFINITE State=UP
CONF
export SLURM_CONF="$folder/slurm.conf"
munged --force --socket="$folder/run/munge.socket" --key-file="$folder/munge.key" --log-file="$folder/log/munged.log" \
  --pid-file="$folder/run/munged.pid" --seed-file="$folder/run/munge.seed"
slurmctld -f "$SLURM_CONF"
slurmd -f "$SLURM_CONF"
wait_for 30 sh -c 'sinfo -h -o %t | grep -qE "idle|mix"' || fail "the node did not come up"

cd "$folder/sweep"
parts=12
"$hoofload" sweep plan.toml --out r.sqlite --slurm submit.sh --parts "$parts" --at-once 2 --time 0:20:00 --quiet
bash submit.sh
done_parts() { find . -path '*.parts-*' -name '*.done' | wc -l; }
some_done() { [ "$(done_parts)" -ge 3 ]; }
wait_for 300 some_done || fail "no part was done"

# The node dies: its daemon and everything it had started. The tasks are those that name our folder.
kill -KILL "$(cat "$folder/run/slurmd.pid")"
mapfile -t tasks < <(pgrep -f "$folder/sweep/r.sqlite.parts" || true)
for pid in "${tasks[@]}"; do kill -KILL "$pid" 2>/dev/null || true; done
before="$(done_parts)"
echo "killed: slurmd and ${#tasks[@]} processes; $before of $parts parts were done"
[ "$before" -lt "$parts" ] || fail "it was over before it could be killed"
sleep 2
slurmd -f "$SLURM_CONF"
merged() { [ -e r.sqlite ] && grep -q "$runs of $runs runs" r.sqlite.parts-*/log/merge.txt; }
wait_for 600 merged || fail "it was not merged"
grep -h "submitted again" r.sqlite.parts-*/log/merge.txt || true

undisturbed=0
"$hoofload" sweep plan.toml --out undisturbed.sqlite --threads 2 --quiet 2>/dev/null || undisturbed=$?
[ "$undisturbed" -eq 0 ] || [ "$undisturbed" -eq 4 ] || fail "the undisturbed sweep ended with $undisturbed"
for name in undisturbed r; do "$hoofload" export "$name.sqlite" --csv "$name.csv"; done
cmp undisturbed.csv r.csv || fail "the tables differ"
echo "equal to the last byte: $(wc -l < r.csv) lines, sha256 $(sha256sum r.csv | cut -c1-16)"
stop
trap - EXIT
rm -rf "$folder"
