#!/bin/sh
# every_version.sh [VERSION...]: builds the package from its source archive with every Python from 3.9
# on that is found here, as a stranger's pip does, and runs tests/python with each.
#
# Not part of the full run: a build for each version takes minutes. Looks for pythonX.Y on the path
# and in $PYENV_ROOT/versions. The oldest two get NumPy 1, Python 3.9 the oldest that the package allows;
# the others NumPy 2. Needs the command in build/package (sh tests/run.sh python).
cd "$(dirname "$0")/../.." || exit 1
root=$(pwd)
work=$root/build/every_version
mkdir -p "$work"
export LC_ALL=C.UTF-8 PYTHONDONTWRITEBYTECODE=1

# interpreter VERSION: the program of a Python, if there is one.
interpreter() {
    for program in "${PYENV_ROOT:-$HOME/.pyenv}"/versions/"$1"*/bin/python "$(command -v "python$1")"; do
        if [ -x "$program" ] && "$program" -c 'import venv' 2>/dev/null; then
            echo "$program"
            return
        fi
    done
}

# try VERSION PROGRAM: build, install, test.
try() {
    case $1 in
    3.9) numpy='numpy==1.22.*' ;;
    3.10) numpy='numpy==1.26.*' ;;
    *) numpy='numpy>=2' ;;
    esac
    place=$work/$1
    rm -rf "$place"
    "$2" -m venv "$place/venv" || return 1
    pip="$place/venv/bin/pip --disable-pip-version-check -q"
    $pip install build pytest hypothesis "$numpy" 'matplotlib>=3.5' 'pandas>=1.4' || return 1
    # The wheel from the archive, both in a separate environment that pip makes.
    begin=$(date +%s)
    "$place/venv/bin/python" -m build --outdir "$place/wheel" . >"$place/build.log" 2>&1 ||
        { tail -n 30 "$place/build.log"; return 1; }
    seconds=$(($(date +%s) - begin))
    $pip install "$numpy" "$place"/wheel/*.whl || return 1
    "$place/venv/bin/python" -c 'import libfeed, numpy, sys; print("Python", sys.version.split()[0],
        "NumPy", numpy.__version__, "libfeed", libfeed.__version__, end="")'
    echo ", built in $seconds s"
    # The types are looked at once, with the tools of tests/requirements.txt. What older versions of
    # other packages warn of is theirs.
    FEED_WHEEL_DIR=$place/wheel "$place/venv/bin/python" -m pytest -q -p no:cacheprovider \
        -W ignore::DeprecationWarning \
        --ignore tests/python/test_types.py tests/python >"$place/test.log" 2>&1
    code=$?
    tail -n $((code == 0 ? 1 : 30)) "$place/test.log"
    return $code
}

[ $# -gt 0 ] || set -- 3.9 3.10 3.11 3.12 3.13 3.14
good=0
bad=0
for version in "$@"; do
    program=$(interpreter "$version")
    if [ -z "$program" ]; then
        echo "Python $version is not here"
    elif try "$version" "$program"; then
        good=$((good + 1))
    else
        echo "Python $version FAILED"
        bad=$((bad + 1))
    fi
done
echo "$good versions passed, $bad failed"
[ "$bad" -eq 0 ] && [ "$good" -gt 0 ]
