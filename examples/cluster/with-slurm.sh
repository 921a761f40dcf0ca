#!/usr/bin/env bash
# A study as an array of Slurm tasks, on a cluster of one node that this script starts and ends: one task is killed and repeated, a job that waits for the array
# merges, and the result is held against a single run. Run: npm run build && bash examples/cluster/with-slurm.sh
source "$(dirname "${BASH_SOURCE[0]}")/prepare.sh"
source "$repository/examples/cluster/slurm-here.sh"
cd "$work"
mkdir log shares
split --lines=8 --numeric-suffixes=1 --suffix-length=2 files shares/

killed=4
array=$(sbatch --parsable --array="1-$tasks" --output=log/%a --export="ALL,HANGS=$killed" "$repository/examples/cluster/task.sh" "${command[@]}")
merge=$(sbatch --parsable --dependency="afterok:$array" --output=log/merge "$repository/examples/cluster/merge.sh" "${command[@]}")
echo "array $array of $tasks tasks, and job $merge to merge when all have ended well"

state() { scontrol show job "$1" --oneliner 2> /dev/null | grep -o 'JobState=[A-Z_]*' | sort | uniq --count | tr '\n' ' '; }
# until WHAT COMMAND...: waits five minutes at most
until_true() {
  local what=$1
  shift
  for _ in $(seq 3000); do "$@" && return; sleep 0.1; done
  echo "after five minutes there is no $what; array: $(state "$array"); merge: $(state "$merge")"
  tail --lines=5 log/* "$cluster"/*.log
  exit 1
}

until_true "task that hangs" test -e "hangs-0$killed"
echo "task $killed hangs with $(($(wc -l < "parts/0$killed.jsonl.journal") - 1)) of $(wc -l < "shares/0$killed") sessions in its journal; Slurm kills it and runs it again"
scontrol requeue "${array}_$killed"

merged() { scontrol show job "$merge" --oneliner | grep -q 'JobState=COMPLETED'; }
until_true "merged result" merged
echo "array: $(state "$array"); merge: $(state "$merge")"
scontrol show job "${array}_$killed" --oneliner | grep -o 'Restarts=[0-9]*'
same merged.jsonl single.jsonl
