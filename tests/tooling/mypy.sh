#!/bin/sh
# mypy.sh PYTHON: every Python file passes mypy --strict. The programs of data/tools and
# libfeed/tools import their neighbours by bare name, so each folder is checked on its own.
python=$1
code=0
for folder in tests data/tools libfeed/tools bindings/python examples; do
    [ -n "$(git ls-files "$folder/*.py")" ] || continue
    MYPYPATH=$folder "$python" -m mypy --strict --cache-dir=build/mypy "$folder" || code=1
done
exit $code
