#!/bin/sh
# Build the page and serve it on this machine: sh examples/page/try.sh [PORT]
# For a fresh Debian 12 or Ubuntu 24.04, as root or with sudo. Builds in build/page only.
set -eu
cd "$(dirname "$0")/../.."
. examples/install_missing.sh
npm=
command -v npm >/dev/null || npm=npm
# shellcheck disable=SC2086  # a package or none
install_missing python3 python3-venv libboost-dev nodejs $npm

folder=build/page
mkdir -p "$folder"
log=$folder/build.log
echo "Building the page in $folder (the compiler for it is fetched once) ..."
if ! {
    [ -x "$folder/venv/bin/python" ] || python3 -m venv "$folder/venv"
    grep -A 40 '^ziglang' tests/requirements.lock | awk 'NR > 1 && /^[a-z]/ { exit } { print }' >"$folder/ziglang.txt"
    "$folder/venv/bin/python" -m pip install -q --disable-pip-version-check --require-hashes -r "$folder/ziglang.txt"
    "$folder/venv/bin/python" bindings/js/build.py "$folder"
    cd examples/page && npm ci --silent --no-audit --no-fund && node build.mjs "../../$folder/package" "../../$folder/site"
} >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    exit 1
fi
tail -n 1 "$log"
exec node examples/page/serve.mjs "$folder/site" "${1:-8000}"
