#!/bin/sh
# Build the `feed` command and ask what goes into a worm bin today: sh examples/try.sh [FILE]
# For a fresh Debian 12 or Ubuntu 24.04, as root or with sudo. Builds in build/try only.
set -eu
cd "$(dirname "$0")/.."
file=${1:-examples/balcony_tote.yaml}
. examples/install_missing.sh
install_missing cmake g++ ninja-build libboost-dev libyaml-cpp-dev

echo "Building the feed command in build/try ..."
mkdir -p build/try
log=build/try/build.log
if ! { cmake -S . -B build/try -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS_RELEASE="-O1 -DNDEBUG" -DFEED_BUILD_C=OFF -DFEED_JOIN_SOURCES=ON &&
    cmake --build build/try --target feed_command; } >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    exit 1
fi

echo
echo "\$ feed ration $file"
build/try/bindings/cli/feed ration "$file"
echo
echo "The command is build/try/bindings/cli/feed; 'feed --help' says what else it does."
