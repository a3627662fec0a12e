#!/bin/sh
# Fetches the solvers that bench_peers times beside this library's, into a folder of their own:
#   sh tests/bench/peers/fetch.sh build/peers
#   cmake --preset release -DFEED_PEERS="$PWD/build/peers" && cmake --build build/release --target bench_peers
# They are not part of the library, its packages or its tests, and keep their own licences (quadprog's is the GPL).
set -eu
folder=${1:?usage: fetch.sh FOLDER}
here=$(cd "$(dirname "$0")" && pwd)
mkdir -p "$folder/src"
python3 -m venv "$folder/venv"
pip="$folder/venv/bin/python -m pip --disable-pip-version-check --quiet"
$pip install --no-deps -r "$here/requirements.txt"
# Two are compiled from source beside the benchmark, one is headers only.
grep -E '^(daqp|quadprog|piqp)==' "$here/requirements.txt" > "$folder/sources.txt"
$pip download --no-deps --no-binary :all: --dest "$folder/src" -r "$folder/sources.txt"
for archive in "$folder"/src/*.tar.gz; do
    tar -xzf "$archive" -C "$folder/src"
done
