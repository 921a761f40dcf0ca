#!/usr/bin/env bash
#SBATCH --job-name=tally --cpus-per-task=1 --requeue --open-mode=append
# One task of a Slurm array: tallies the files in shares/<number of the task> into parts/<number of the task>.jsonl.
# Run: sbatch --array=1-10 task.sh COMMAND...      in the folder with the shares, which all nodes share
set -euo pipefail
name=$(printf '%02d' "$SLURM_ARRAY_TASK_ID")
out=parts/$name.jsonl

# Slurm runs a task in one place at a time: a lock that is there is that of an attempt that has ended, if need be on a node that is down
rm -f "$out.lock"
mapfile -t files < "shares/$name"
run() { "$@" "${files[@]}" --form tally --quiet --workers 1 --resume --out "$out"; }

# for the example alone: the first attempt of one task stops in its midst, as on a disk that no longer answers
if [ "$SLURM_ARRAY_TASK_ID" = "${HANGS:-}" ] && [ -z "${SLURM_RESTART_COUNT:-}" ]; then
  run "$@" &
  until [ "$(cat "$out.journal" 2> /dev/null | wc -l)" -gt 3 ] || [ -f "$out" ]; do sleep 0.01; done
  kill -STOP $! $(pgrep --parent $!) 2> /dev/null || true
  touch "hangs-$name"
  wait
fi
run "$@"
