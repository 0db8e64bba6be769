#!/bin/sh
# Draws the pictures and renders them to ../marram/pictures. Needs python3, chromium and ImageMagick's convert.
#   sh render.sh          all pictures
#   sh render.sh stem     those whose name contains `stem`
set -eu
cd "$(dirname "$0")"
build="${TMPDIR:-/tmp}/marram-pictures"
rm -rf "$build"
python3 draw.py "$build" "${1:-}"
for svg in "$build"/*.svg; do
  name=$(basename "$svg" .svg)
  jpg="../marram/pictures/$name.jpg"
  chromium --headless --no-sandbox --disable-gpu --disable-background-networking --hide-scrollbars \
    --window-size=1600,1200 --screenshot="$build/$name.png" "file://$svg" >/dev/null 2>&1
  # As good as fits in 150 kB.
  for quality in 76 70 64 58; do
    convert "$build/$name.png" -resize '1600x1200!' -strip -sampling-factor 4:2:0 -quality $quality "$jpg"
    [ "$(wc -c <"$jpg")" -gt 150000 ] || break
  done
done
