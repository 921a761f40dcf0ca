#!/usr/bin/env bash
#SBATCH --job-name=merge
# The job after the array: merges parts/ into merged.jsonl.
# Run: sbatch --dependency=afterok:ARRAY merge.sh COMMAND...      in the folder with the parts
"$@" parts --form tally --out merged.jsonl --quiet
