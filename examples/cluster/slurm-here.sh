# shellcheck shell=bash disable=SC2154 # "work" is of prepare.sh
# A Slurm cluster of one node, this machine, with all its files in "$work/slurm": for the example alone. To be sourced after prepare.sh.
cluster=$work/slurm
export SLURM_CONF=$cluster/slurm.conf
mkdir -p "$cluster/state" "$cluster/spool"

stop_cluster() {
  scontrol shutdown > /dev/null 2>&1
  for name in slurmd slurmctld munged; do
    local id
    id=$(cat "$cluster/$name.pid" 2> /dev/null) || continue
    for _ in $(seq 50); do kill -0 "$id" 2> /dev/null || break; [ "$name" = munged ] && kill "$id"; sleep 0.1; done
    kill -KILL "$id" 2> /dev/null
  done
  return 0
}
cleaning+=("stop_cluster")

free_port() { node -e 'const s = require("node:net").createServer().listen(0, () => { console.log(s.address().port); s.close(); })'; }

(umask 077 && head --bytes=128 /dev/urandom > "$cluster/munge.key")
munged --force --key-file="$cluster/munge.key" --socket="$cluster/munge.socket" --pid-file="$cluster/munged.pid" \
  --log-file="$cluster/munged.log" --seed-file="$cluster/munged.seed"

cat > "$SLURM_CONF" << END
ClusterName=example
SlurmctldHost=$(hostname -s)(127.0.0.1)
SlurmctldPort=$(free_port)
SlurmdPort=$(free_port)
SlurmUser=$(id -un)
SlurmdUser=$(id -un)
AuthType=auth/munge
AuthInfo=socket=$cluster/munge.socket,cred_expire=5
StateSaveLocation=$cluster/state
SlurmdSpoolDir=$cluster/spool
SlurmctldPidFile=$cluster/slurmctld.pid
SlurmdPidFile=$cluster/slurmd.pid
SlurmctldLogFile=$cluster/slurmctld.log
SlurmdLogFile=$cluster/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SchedulerParameters=batch_sched_delay=0,sched_interval=1,bf_interval=1
MailProg=/bin/true
KillWait=1
NodeName=$(hostname -s) NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=ALL Default=YES State=UP
END
slurmctld
slurmd
for _ in $(seq 100); do sinfo --noheader --format=%t 2> /dev/null | grep -q idle && break; sleep 0.1; done
sinfo --noheader --format=%t | grep -q idle || { echo "the cluster does not start:"; tail --lines=5 "$cluster/slurmctld.log" "$cluster/slurmd.log"; exit 1; }
