#!/usr/bin/env bash
# A study over the processors of a machine with GNU Parallel: killed in its midst, gone on with, merged, and held against a single run.
# Run: npm run build && bash examples/cluster/with-parallel.sh
source "$(dirname "${BASH_SOURCE[0]}")/prepare.sh"

# one task for each share; its output is named after the share, so that a task that is run again writes the same file
tasks=(parallel --will-cite --jobs 2 --joblog "$work/joblog" --resume
  xargs --arg-file="$work/shares/{}" "${command[@]}" --form tally --quiet --resume --out "$work/parts/{}.jsonl" ::: $(ls "$work/shares"))
ended() { [ -f "$work/joblog" ] && tail --lines=+2 "$work/joblog" | wc -l || echo 0; }

# the whole session of processes is killed, as with the machine, once three tasks have ended
setsid "${tasks[@]}" &
session=$!
cleaning+=("kill_session")
kill_session() {
  local alive
  alive=$(ps -o pid= -s "$session") && kill -KILL $alive 2> /dev/null
}
while kill -0 "$session" 2> /dev/null && [ "$(ended)" -lt 3 ]; do sleep 0.02; done
kill_session
wait "$session" 2> /dev/null || true
echo "killed after $(ended) of $(ls "$work/shares" | wc -l) tasks; left of others: $(ls "$work/parts" | grep -v 'jsonl$' | tr '\n' ' ')"

# the same line again: tasks in the log of jobs are passed over, those in work at the kill go on from their journals
"${tasks[@]}"
echo "gone on with: $(ended) tasks have ended"

"${command[@]}" "$work/parts" --form tally --out "$work/merged.jsonl" --quiet
same "$work/merged.jsonl" "$work/single.jsonl"

# a task that is run twice writes the file it wrote
cp "$work/parts/03.jsonl" "$work/before.jsonl"
xargs --arg-file="$work/shares/03" "${command[@]}" --form tally --quiet --out "$work/parts/03.jsonl"
same "$work/parts/03.jsonl" "$work/before.jsonl"

echo
node "$repository/examples/cluster/figures.mjs" "$work/merged.jsonl"
