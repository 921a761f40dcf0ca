# shellcheck shell=bash
# What both examples begin with: a study, a list of its files, and what a single run makes of it. To be sourced.
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
mkdir "$work/parts"
ls "$work"/study/*.jsonl > "$work/files"
tasks=$((($(wc -l < "$work/files") + 7) / 8)) # of eight files, the last one of fewer
echo "$(wc -l < "$work/files") simulated evenings of an invented club, nobody's real movements, for $tasks tasks"

"${command[@]}" "$work/study" --form tally --out "$work/single.jsonl" --quiet

# same FILE FILE: ends the script unless the bytes are the same
same() {
  cmp "$1" "$2" || exit 1
  echo "the same bytes: $(basename "$1") and $(basename "$2"), $(wc -l < "$1") tallies, $(wc -c < "$1") bytes"
}
