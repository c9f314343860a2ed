#!/usr/bin/env bash
# Installs what is needed, builds, and runs all tests: formatting, layers and documents; the release
# build under ctest; core and db under the address and undefined-behaviour sanitizers; core on several threads
# under the thread sanitizer; clang-tidy on what the last commit changed. --quick stops after the release tests.
set -euo pipefail
cd "$(dirname "$0")/.."
source packaging/needs.sh

quick=no
for word in "$@"; do
    case "$word" in
        --quick) quick=yes ;;
        *) echo "usage: packaging/test.sh [--quick]" >&2; exit 2 ;;
    esac
done

install_missing "${needs_to_run[@]}" "${needs_to_test[@]}"

say "Formatting, layers, paths in documents"
packaging/check-sources.sh

build release -DBUILD_TESTING=ON -DRODWAY_BENCH=ON
say "Testing the release build"
ctest --preset release -j2 --no-tests=error
if [ "$quick" = yes ]; then
    exit 0
fi

build asan-ubsan
say "Testing core and db under the address and undefined-behaviour sanitizers"
ctest --preset asan-ubsan -j2 --no-tests=error

build tsan
say "Testing core on several threads under the thread sanitizer"
ctest --preset tsan -j2 --no-tests=error

say "clang-tidy on what the last commit changed"
packaging/tidy.sh
say "All passed"
