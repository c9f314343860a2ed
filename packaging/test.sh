#!/usr/bin/env bash
# Installs what is needed, builds, and runs all tests: formatting, layers and documents; the release
# build under ctest; core and db under the address and undefined-behaviour sanitizers; core on several threads
# under the thread sanitizer; clang-tidy on what the last commit changed. --quick stops after the release tests.
# --long takes hours: more power cuts of longer days, ten million typed texts under the sanitizers, and the shop file
# of ten thousand builds beside a small one.
set -euo pipefail
cd "$(dirname "$0")/.."
source packaging/needs.sh

quick=no
long=no
for word in "$@"; do
    case "$word" in
        --quick) quick=yes ;;
        --long) long=yes ;;
        *) echo "usage: packaging/test.sh [--quick | --long]" >&2; exit 2 ;;
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
if [ "$long" = yes ]; then
    say "Long tests"
    RODWAY_LONG=1 build/release/tests/rodway_db_tests --gtest_filter='PowerCutTest.*'
    RODWAY_LONG=1 build/asan-ubsan/tests/rodway_core_tests --gtest_filter='TypedFuzz.*'
    build/release/tests/rodway_shop_bench --long
fi
say "All passed"
