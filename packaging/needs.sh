# What a fresh Debian 12 lacks. Sourced by run.sh and test.sh.

needs_to_run=(
    g++ cmake ninja-build qt6-base-dev qt6-svg-dev libegl-dev libqcustomplot-dev libeigen3-dev
    libjsoncpp-dev libcli11-dev libqpdf-dev libqt6sql6-sqlite fonts-dejavu-core libegl1 libegl-mesa0 libgl1-mesa-dri
    fonts-noto-core fonts-noto-cjk # names of customers in any script, in print
)
needs_to_test=(
    git libgtest-dev libgmock-dev libbenchmark-dev libsqlite3-dev libfcl-dev libcgal-dev xvfb xauth xdotool poppler-utils qpdf
    clang-tidy clang-format
)

say() { printf '\n== %s\n' "$*"; }

# install_missing PACKAGE...: asks apt only if something is missing, so that it works again without a network.
install_missing() {
    local missing=() package
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
    done
    if [ ${#missing[@]} -eq 0 ]; then
        say "All ${#} packages needed are installed"
        return
    fi
    say "Installing: ${missing[*]}"
    local as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        as_root=(sudo)
    fi
    "${as_root[@]}" apt-get update -q
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "${missing[@]}"
}

# build PRESET [CMAKE-OPTION...]: configures and builds, showing how far it is.
build() {
    local preset=$1
    shift
    say "Building ($preset); the first time takes some minutes"
    cmake --preset "$preset" "$@" -Wno-dev | grep -E '^--.*(Build files|error)' || true
    NINJA_STATUS='[%f of %t, %es] ' cmake --build --preset "$preset" -- --quiet
}
