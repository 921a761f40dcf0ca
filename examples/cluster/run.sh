#!/usr/bin/env bash
# `npm run cluster`: both examples, where what they need is there or can be had with apt-get; else it says what is absent.
cd "$(dirname "$0")" || exit 1
failed=0

# example NAME PROGRAM PACKAGE...
example() {
  local name=$1 program=$2
  shift 2
  echo "== $name"
  if ! command -v "$program" > /dev/null && [ "$(id -u)" = 0 ] && command -v apt-get > /dev/null; then
    { apt-get update && DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@"; } > /dev/null 2>&1
  fi
  if ! command -v "$program" > /dev/null; then
    echo "absent: $program; install it (Debian: $*) and run this again"
    return
  fi
  bash "$name.sh" || { echo "FAILED $name"; failed=1; }
}

example with-parallel parallel parallel
example with-slurm sbatch slurmctld slurmd slurm-client munge
exit $failed
