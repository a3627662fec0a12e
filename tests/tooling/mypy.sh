#!/bin/sh
# mypy.sh PYTHON: every Python file passes mypy --strict. Programs import their neighbours by bare
# name, and two kinds of test may have a file of the same name, so each folder is checked on its own.
python=$1
code=0
for folder in tests/*/ data/tools libfeed/tools bindings/python bindings/js examples; do
    folder=${folder%/}
    [ -n "$(git ls-files "$folder/*.py")" ] || continue
    case $folder in
    tests/*) base=tests:bindings/js:tests/js ;;
    *) base=$folder ;;
    esac
    MYPYPATH=$base "$python" -m mypy --strict --cache-dir=build/mypy "$folder" || code=1
done
exit $code
