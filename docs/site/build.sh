#!/bin/sh
# Make docs/ a site: sh docs/site/build.sh [FEED_COMMAND [BUILT_PAGE]]
# For a fresh Debian 12 or Ubuntu 24.04, as root or with sudo. Builds in build/site only.
set -eu
cd "$(dirname "$0")/../.."
. examples/install_missing.sh
install_missing python3 python3-venv doxygen
feed=${1:-build/try/bindings/cli/feed}
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
rm -rf "$out/html"
# shellcheck disable=SC2086  # a folder or nothing
"$out/venv/bin/python" docs/site/build.py "$feed" "$out" ${2:-}
# A link that leads nowhere ends the build.
"$out/venv/bin/python" -m sphinx -q -W --keep-going -j auto -b html "$out/source" "$out/html"
echo "The site is $out/html/index.html"
