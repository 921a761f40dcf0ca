# What both examples begin with: a study, the shares of its tasks, and what a single run makes of it. To be sourced.
set -euo pipefail
repository=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
command=(node "$repository/dist/cli.js")
work=$(mktemp -d)

# everything that was begun is ended and removed, however the script ends
cleaning=()
clean() {
  for ((i = ${#cleaning[@]} - 1; i >= 0; i--)); do ${cleaning[i]} || true; done
  rm -rf "$work"
}
trap clean EXIT
trap 'exit 1' INT TERM HUP

node "$repository/examples/club.mjs" "$work/study" > /dev/null
mkdir "$work/shares" "$work/parts"
# a share is a list of files, eight to a task; the last one is smaller
ls "$work"/study/*.jsonl | split --lines=8 --numeric-suffixes=1 --suffix-length=2 - "$work/shares/"
echo "$(ls "$work/study" | wc -l) simulated evenings of an invented club, nobody's real movements, in $(ls "$work/shares" | wc -l) shares"

"${command[@]}" "$work/study" --form tally --out "$work/single.jsonl" --quiet

# same FILE FILE: ends the script unless the bytes are the same
same() {
  cmp "$1" "$2" || exit 1
  echo "the same bytes: $(basename "$1") and $(basename "$2"), $(wc -l < "$1") tallies, $(wc -c < "$1") bytes"
}
