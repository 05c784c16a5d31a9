#!/usr/bin/env bash
# The whole way on the demo job: check, survey, audit, a scheme of proven remedies, plans, the bound book.
set -euo pipefail
cd "$(dirname "$0")/.."
out=out/demo
rm -rf "$out" && mkdir -p "$out"
cp examples/quince.yaml "$out/quince.yaml"
job=$out/quince.yaml

say() { printf '\n\033[1m%s\033[0m\n' "$*"; }
say "halfdrop check"
halfdrop check "$job"
say "halfdrop survey --room bedroom (one of its measures is a blunder)"
halfdrop survey "$job" --room bedroom | tee "$out/survey-bedroom.txt"
say "halfdrop audit"
halfdrop audit "$job" --fail-on never > "$out/audit.txt"
tail -n 1 "$out/audit.txt"
halfdrop audit "$job" --no-remedies --fail-on never --json > "$out/audit.json"
say "halfdrop scheme accept --all"
halfdrop scheme accept "$job" first --all --title "As little as possible" | tee "$out/scheme.txt"
halfdrop scheme compare "$job"
say "halfdrop plan"
for room in living dining bedroom hall bath; do
  halfdrop plan "$job" --room "$room" --view survey -o "$out/$room-survey.svg"
  halfdrop plan "$job" --room "$room" -o "$out/$room-found.svg"
  halfdrop plan "$job" --room "$room" --scheme first -o "$out/$room-proposed.svg"
  halfdrop plan "$job" --room "$room" --scheme first --view before-after -o "$out/$room-before-after.svg"
  halfdrop plan "$job" --room "$room" --scheme first -o "$out/$room-proposed.dxf"
done
say "halfdrop book"
halfdrop book "$job" --scheme first -o "$out/quince.pdf"

say "The results are in $out:"
echo "  quince.pdf                 the book: hand it to the client"
echo "  quince.yaml                the job with its scheme"
echo "  audit.txt, audit.json      what was found, with proven remedies"
echo "  ROOM-*.svg, ROOM-*.dxf     the sheets"
