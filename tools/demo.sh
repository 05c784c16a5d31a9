#!/usr/bin/env bash
# The whole way on the demo job: check, survey, audit, two schemes of proven remedies, sheets, shopping list, the bound book.
set -euo pipefail
cd "$(dirname "$0")/.."
out=out/demo
rm -rf "$out" && mkdir -p "$out"
cp examples/quince.yaml "$out/quince.yaml"
job=$out/quince.yaml

say() { printf '\n== %s\n' "$*"; }
say "halfdrop check"
halfdrop check "$job"
say "halfdrop survey --room bedroom (one of its measures was misread)"
halfdrop survey "$job" --room bedroom | tee "$out/survey-bedroom.txt"
say "halfdrop audit"
halfdrop audit "$job" --fail-on never > "$out/audit.txt"
halfdrop audit "$job" --fail-on never --json > "$out/audit.json"
tail -n 1 "$out/audit.txt"
say "halfdrop scheme accept: the seating laid anew, then a remedy for all that is left"
halfdrop scheme accept "$job" round-the-fire 'living/seating.off-wall/armchair-east+armchair-west+sofa+void#arrange' \
  --title "Round the fire"
halfdrop scheme accept "$job" round-the-fire 'living/drapery.short/west-pair#make-anew' | tail -n 1
halfdrop scheme accept "$job" round-the-fire --all > "$out/round-the-fire.txt"
tail -n 1 "$out/round-the-fire.txt"
say "halfdrop scheme accept --all: a second scheme, the grandmother's rug layered, the west window dressed anew in the print"
halfdrop scheme accept "$job" layered 'living/drapery.short/west-pair#make-anew' --title "On a larger rug" | tail -n 1
halfdrop scheme accept "$job" layered --all > "$out/layered.txt"
tail -n 1 "$out/layered.txt"
halfdrop scheme compare "$job"
say "halfdrop shopping --scheme layered"
halfdrop shopping "$job" --scheme layered | tee "$out/shopping-layered.txt"
say "halfdrop takeoff --scheme layered"
halfdrop takeoff "$job" --scheme layered | tee "$out/takeoff-layered.txt"
halfdrop takeoff "$job" --scheme layered --json > "$out/takeoff-layered.json"
say "halfdrop plan"
for room in living dining bedroom hall bath study; do
  halfdrop plan "$job" --room "$room" --view survey -o "$out/$room-survey.svg"
  halfdrop plan "$job" --room "$room" -o "$out/$room-found.svg"
  for scheme in round-the-fire layered; do
    halfdrop plan "$job" --room "$room" --scheme "$scheme" --view before-after -o "$out/$room-$scheme.svg"
  done
  halfdrop plan "$job" --room "$room" --scheme layered -o "$out/$room-layered.dxf"
done
halfdrop plan "$job" --room living --scheme layered --view before-after -o "$out/living-layered.png"
say "halfdrop plan --view elevation: the walls with windows, and the bay as one"
for wall in living:CD dining:CD bedroom:EF bath:CD study:DEFG; do
  room=${wall%%:*} wall=${wall##*:}
  halfdrop plan "$job" --room "$room" --view elevation --wall "$wall" -o "$out/$room-$wall.svg"
  halfdrop plan "$job" --room "$room" --view elevation --wall "$wall" --scheme layered -o "$out/$room-$wall-layered.svg"
done
say "halfdrop install --scheme layered"
halfdrop install "$job" --scheme layered -o "$out/install-sheets.pdf"
say "halfdrop hang"
halfdrop hang "$job" --room living --art gull,tern,heron --form cluster --on CD > "$out/three-birds.txt"
for room in living bedroom hall; do
  halfdrop hang "$job" --room "$room" --scheme round-the-fire -o "$out/$room-hanging.pdf"
done
say "halfdrop color: the living room by day and of an evening"
halfdrop color "$job" --room living | tee "$out/living-color.txt"
halfdrop color "$job" --room living -o "$out/living-color.pdf"
halfdrop color "$job" --room living --scheme layered -o "$out/living-color-layered.png"
say "halfdrop scheme from-art: three schemes that start from the harbor, on a copy, so that the book keeps its two"
cp "$job" "$out/quince-from-art.yaml"
halfdrop scheme from-art "$out/quince-from-art.yaml" --room living --art harbor --keep harbor | tee "$out/living-from-art.txt"
halfdrop color "$out/quince-from-art.yaml" --room living --scheme harbor-bold -o "$out/living-harbor-bold.png"
say "halfdrop book"
halfdrop book "$job" --scheme layered -o "$out/quince.pdf"

say "The results are in $out:"
echo "  quince.pdf                 the book: hand it to the client"
echo "  quince.yaml                the job with its two schemes"
echo "  audit.txt, audit.json      what was found, with proven remedies"
echo "  shopping-layered.txt       what is bought, moved, let go"
echo "  takeoff-layered.txt, .json paper, paint, cloth and hardware, counted"
echo "  install-sheets.pdf         a page for each trade: installer, workroom, paper hanger, painter"
echo "  quince-from-art.yaml       a copy with three schemes from the harbor; living-from-art.txt says them, living-harbor-bold.png shows one"
echo "  ROOM-hanging.pdf           where each hook goes, and what carries it"
echo "  ROOM-*.svg, .png, .dxf     the sheets; ROOM-WALL.svg the walls seen face on"
