#!/usr/bin/env bash
# clang-tidy on the sources that differ from BASE (default: the commit before the last).
set -euo pipefail
cd "$(dirname "$0")/.."
base=${1:-HEAD~1}
git rev-parse -q --verify "$base" >/dev/null || base=$(git hash-object -t tree /dev/null)
mapfile -t sources < <(git diff --name-only --diff-filter=d "$base" -- 'core/*.cpp' 'db/*.cpp' 'render/*.cpp' 'app/*.cpp')
if [ ${#sources[@]} -eq 0 ]; then
    echo "No source changed."
    exit 0
fi
# Precompiled headers are g++'s; clang reads the headers themselves.
commands=build/tidy
mkdir -p "$commands"
sed -E 's/ -include [^ ]*cmake_pch\.hxx//g; s/-Winvalid-pch|-Wno-restrict//g' build/release/compile_commands.json >"$commands/compile_commands.json"
printf '%s\n' "${sources[@]}" | xargs -P2 -n4 clang-tidy -p "$commands" --quiet
