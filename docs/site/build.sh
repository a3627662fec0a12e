#!/bin/sh
# Make docs/ a site: sh docs/site/build.sh [FEED_COMMAND [NPM_PACKAGE]]
# For a fresh Debian 12 or Ubuntu 24.04, as root or with sudo. Builds in build/ only; what is not given is
# built too: the command by examples/try.sh, the npm package by bindings/js/build.py.
set -eu
cd "$(dirname "$0")/../.."
. examples/install_missing.sh
install_missing python3 python3-venv doxygen libboost-dev
feed=${1:-build/try/bindings/cli/feed}
package=${2:-build/js/package}
if [ ! -x "$feed" ]; then
    sh examples/try.sh >/dev/null
    feed=build/try/bindings/cli/feed
fi
out=build/site
mkdir -p "$out"
if ! cmp -s docs/site/requirements.txt "$out/installed.txt"; then
    python3 -m venv --clear "$out/venv"
    "$out/venv/bin/python" -m pip install -q --disable-pip-version-check --require-hashes -r docs/site/requirements.txt
    cp docs/site/requirements.txt "$out/installed.txt"
fi
if [ ! -f "$package/libfeed.wasm" ]; then
    "$out/venv/bin/python" bindings/js/build.py build/js >/dev/null
    package=build/js/package
fi
rm -rf "$out/html"
"$out/venv/bin/python" docs/site/build.py "$feed" "$package" "$out"
# A page or heading that a link does not find ends the build; a file that is not there, the check after it.
"$out/venv/bin/python" -m sphinx -q -W --keep-going -j auto -b html "$out/source" "$out/html"
python3 docs/site/check.py "$out/html"
echo "The site is $out/html/index.html; python3 -m http.server -d $out/html serves it."
