#!/usr/bin/env bash
# Installs what is needed, builds, and runs the main job on the demo shop: the clearance of every rod
# in its port tube. --no-window leaves the window out.
set -euo pipefail
cd "$(dirname "$0")/.."
source packaging/needs.sh

window=yes
for word in "$@"; do
    case "$word" in
        --no-window) window=no ;;
        *) echo "usage: packaging/run.sh [--no-window]" >&2; exit 2 ;;
    esac
done

install_missing "${needs_to_run[@]}"
build release -DBUILD_TESTING=OFF -DRODWAY_BENCH=OFF
rodway=build/release/app/rodway

mkdir -p out
shop=out/demo.rodway
if [ ! -e "$shop" ]; then
    say "Writing a demo shop file"
    "$rodway" demo "$shop"
fi
say "Clearance of every rod in its tube"
"$rodway" clearance "$shop" "Halden V8"
say "The same with 0.015 in more gasket on both sides"
"$rodway" clearance "$shop" "Halden V8" --gasket-thicker .015 | grep -E '^(Valve|3I|6I)'
say "Picture, curve and papers"
"$rodway" picture "$shop" "Halden V8" out/halden-v8.png
"$rodway" curve "$shop" "Halden V8" out/halden-v8-curve.svg
"$rodway" tube "$shop" "Halden V8" out/halden-v8-tube.svg
"$rodway" document "$shop" "Halden V8" out/halden-v8.pdf
"$rodway" bench-sheet "$shop" "Halden V8" out/halden-v8-bench-sheet.pdf

if [ "$window" = yes ] && [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    say "Opening the window on $shop"
    exec "$rodway" window "$shop"
fi
