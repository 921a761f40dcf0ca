#!/usr/bin/env bash
# A study over the processors of a machine with GNU Parallel: killed in its midst, gone on with, merged, and held against a single run.
# Run: npm run build && bash examples/cluster/with-parallel.sh
source "$(dirname "${BASH_SOURCE[0]}")/prepare.sh"

# the output of a task is named after its number, so that a task that is run again writes the same file
tally=("${command[@]}" --form tally --quiet --resume --out)
line=(parallel --will-cite --jobs 2 --joblog "$work/joblog" --resume -N 8 "${tally[@]}" "$work/parts/{#}.jsonl" {} :::: "$work/files")
ended() { tail --lines=+2 "$work/joblog" 2> /dev/null | wc -l; }

# the whole session of processes is killed, as with the machine, once three tasks have ended
setsid "${line[@]}" &
session=$!
cleaning+=("kill_session")
kill_session() {
  # again until there is none: one may have begun another in between
  while alive=$(ps -o pid= -s "$session"); do
    xargs kill -KILL <<< "$alive" 2> /dev/null || true
    sleep 0.05
  done
}
while kill -0 "$session" 2> /dev/null && [ "$(ended)" -lt 3 ]; do sleep 0.02; done
kill_session
wait "$session" 2> /dev/null || true
echo "killed after $(ended) tasks; left of others: $(cd "$work/parts" && echo *.jsonl.*)"

# the same line again: tasks in the log of jobs are passed over, those in work at the kill go on from their journals
"${line[@]}"
echo "gone on with: $(ended) tasks have ended"

"${command[@]}" "$work/parts" --form tally --out "$work/merged.jsonl" --quiet
same "$work/merged.jsonl" "$work/single.jsonl"

# a task that is run twice writes the file it wrote
cp "$work/parts/3.jsonl" "$work/before.jsonl"
mapfile -t third < <(sed --quiet 17,24p "$work/files")
"${tally[@]}" "$work/parts/3.jsonl" "${third[@]}"
same "$work/parts/3.jsonl" "$work/before.jsonl"

echo
node "$repository/examples/cluster/figures.mjs" "$work/merged.jsonl"
