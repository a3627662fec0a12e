#!/bin/sh
# Every test, from set-up to the last lint: sh tests/run.sh [STAGE...]
#
# For a fresh Debian 12 or Ubuntu 24.04, as root or with sudo. Without a stage all of them run, in
# this order; one that fails does not stop the others. The last line is "N passed, N failed".
#
#   setup         packages through apt, Python tools into build/venv
#   data          the table's checker, and the committed header against a fresh run of the generator
#   gcc           GCC, debug: every C++ test but what only a sanitizer can judge; a sixteenth of the sources read
#                 each by itself
#   asan          Clang with the address and undefined-behaviour sanitizers: unit and property tests,
#                 and the corpora of the fuzz targets
#   tsan          Clang with the thread sanitizer: the thread tests
#   python        GCC, optimised, as packaged; every Python test: command, oracles, headers, install, docs,
#                 the npm package
#   bits          the commands of GCC, optimised, and of Clang, not, must print the same bytes, their solvers the
#                 same bits
#   fuzz          each fuzz target for $FEED_FUZZ_RUNS (5000) inputs, or for $FEED_FUZZ_SECONDS
#   lint          clang-format, clang-tidy, ruff, mypy, no function too large
#   compile_time  how long feed/bin.hpp and feed/feed.hpp take to compile, over their system headers alone
#   mutants       not in the full run until its list is made anew: 40 of the small wrong changes that the
#                 tests are known to catch, in two layers
#
# Not in the full run:
#
#   unit          the unit tests only, GCC, debug
#   clang         Clang, optimised, without sanitizers: unit and property tests, and the bits once more
#   sanitize      Clang, optimised, with every check of the sanitizers: unit and property tests, and the corpora
#   coverage      GCC with gcov: unit and property tests, and the branches that they take, by layer
#   cross         what is not built every day: libc++, no exceptions, Cortex-M4 with its flash, MinGW under Wine
#   nightly       the long forms: each source by itself, `cross`, `clang`, `sanitize`, all mutants, an hour of fuzzing, 100,000 problems for the oracles,
#                 the whole tables of how often a trial says too much, the page in a browser, the site; a night's work
cd "$(dirname "$0")/.." || exit 1
root=$(pwd)
logs=$root/build/logs
mkdir -p "$logs"
. examples/install_missing.sh
export CTEST_OUTPUT_ON_FAILURE=1 PYTHONDONTWRITEBYTECODE=1 LC_ALL=C.UTF-8
python=$root/build/venv/bin/python
passed=0
failed=0
# Clang 14, the oldest that is supported, cannot read <chrono> of GCC 13; Ubuntu 24.04 takes its own.
if [ -z "$FEED_CLANG" ]; then
    FEED_CLANG=14
    ! grep -q '^VERSION_CODENAME=noble' /etc/os-release || FEED_CLANG=18
fi
export FEED_CLANG
clang_options="-DCMAKE_C_COMPILER=clang-$FEED_CLANG -DCMAKE_CXX_COMPILER=clang++-$FEED_CLANG"

# count PASSED FAILED: adds to the totals.
count() {
    passed=$((passed + $1))
    failed=$((failed + $2))
}

# check NAME COMMAND...: one check; its output goes to a log that is shown when it fails.
check() {
    check_name=$1
    shift
    if "$@" >"$logs/$check_name.log" 2>&1; then
        count 1 0
    else
        count 0 1
        echo "--- FAILED: $check_name ($*)"
        tail -n 60 "$logs/$check_name.log"
        echo "---"
        return 1
    fi
}

# cases NAME KIND FILE EXIT_CODE: adds the cases that a test runner recorded in FILE. A runner that
# failed without recording a failure has died on the way.
cases() {
    if numbers=$("$python" tests/tooling/count_cases.py "$2" "$3"); then
        # shellcheck disable=SC2086  # two numbers
        count $numbers
        echo "$1: ${numbers% *} cases passed, ${numbers#* } failed"
        if [ "$4" -ne 0 ] && [ "${numbers#* }" -eq 0 ]; then
            count 0 1
            echo "$1: ended with exit code $4, and no case says why"
        fi
    else
        count 0 1
        echo "$1: no record of its cases in $3"
    fi
}

# build NAME OPTIONS... [-- TARGET...]: configure and build in build/NAME.
build() {
    name=$1
    shift
    case $name in
    clang | asan | asan-full | tsan) options=$clang_options ;;
    # Nobody debugs here, and describing the code to a debugger is a third of compiling it.
    dev) options=-DCMAKE_CXX_FLAGS_DEBUG=-g0 ;;
    *) options= ;;
    esac
    while [ $# -gt 0 ] && [ "$1" != -- ]; do
        options="$options $1"
        shift
    done
    [ $# -eq 0 ] || shift
    targets=
    for target in "$@"; do targets="$targets --target $target"; done
    # shellcheck disable=SC2086  # lists of words
    check "configure-$name" cmake --preset "$name" $options &&
        check "build-$name" cmake --build "build/$name" -j "$jobs" $targets
}

# run_ctest NAME [OPTIONS...]: the tests of build/NAME, counted case by case.
run_ctest() {
    name=$1
    shift
    rm -f "build/$name/Testing/Temporary/LastTest.log"
    code=0
    ctest --test-dir "build/$name" -j "$jobs" --timeout 900 --no-tests=error "$@" \
        >"$logs/ctest-$name.log" 2>&1 || code=$?
    if [ $code -ne 0 ]; then
        echo "--- FAILED: ctest in build/$name"
        grep -v ' Passed ' "$logs/ctest-$name.log" | tail -n 100
        echo "---"
    fi
    cases "ctest-$name" ctest "build/$name/Testing/Temporary/LastTest.log" $code
}

stage_setup() {
    # In rows: compilers and sanitizers; build; what is built on; tests, oracle, ABI; Python; packages, manual page, locales, Node.
    # npm comes with Node.js where it is not Debian's.
    npm=
    command -v npm >/dev/null || npm=npm
    check packages install_missing \
        g++ "clang-$FEED_CLANG" "libclang-rt-$FEED_CLANG-dev" clang-format-14 clang-tidy-14 \
        cmake ninja-build pkg-config git \
        libboost-dev libyaml-cpp-dev \
        catch2 libcgal-dev abigail-tools nodejs \
        python3 python3-dev python3-venv \
        dpkg-dev fakeroot file man-db locales $npm
    grep '^Installing' "$logs/packages.log"
    if ! cmp -s tests/requirements.txt build/venv/installed.txt; then
        echo "Installing Python tools into build/venv: $(grep -v '^#' tests/requirements.txt | tr '\n' ' ')"
        check venv python3 -m venv --clear build/venv &&
            check pip "$python" -m pip install -q --disable-pip-version-check --require-hashes -r tests/requirements.lock &&
            cp tests/requirements.txt build/venv/installed.txt
    fi
}

stage_data() {
    check data-check "$python" data/tools/check.py
    check data-generated "$python" data/tools/generate.py --check
}

stage_gcc() {
    # What needs a sanitizer to be judged is not built here: corpora (asan) and threads (tsan). Joined,
    # as packages are: the core is read and made a few times instead of hundreds.
    build dev -DFEED_BUILD_CORPORA=OFF -DFEED_BUILD_THREADS=OFF -DFEED_REQUIRE_ORACLES=ON -DFEED_JOIN_SOURCES=ON &&
        run_ctest dev
    each_alone
}

# each_alone: a sixteenth of the sources, others with each commit, includes all it uses; with
# FEED_LONG_FORMS all of them.
each_alone() {
    share=16
    [ -z "$FEED_LONG_FORMS" ] || share=1
    check configure-alone cmake --preset dev -B build/alone -DFEED_BUILD_ORACLES=OFF &&
        check alone "$python" tests/tooling/alone.py build/alone --share $share --seed "$(commits)"
}

# commits: how many there are, to draw others with each.
commits() {
    git rev-list --count HEAD 2>/dev/null || echo 1
}

stage_unit() {
    build dev -- tests_unit && run_ctest dev -L '^unit$'
}

stage_clang() {
    build clang -- tests_unit tests_properties &&
        run_ctest clang -L '^(unit|properties)$'
    same_bits clang
}

# sanitized TREE: the tests that the sanitizers judge, in build/TREE.
sanitized() {
    build "$1" -- tests_unit tests_properties tests_fuzz &&
        run_ctest "$1" -L '^(unit|properties|fuzz)$'
}

stage_asan() {
    # They look at the code, not at counts: a fifth of the random draws reaches the same of it.
    FEED_FEW_DRAWS=1
    export FEED_FEW_DRAWS
    sanitized asan
    unset FEED_FEW_DRAWS
}

stage_sanitize() {
    sanitized asan-full
}

stage_tsan() {
    build tsan -- tests_threads && run_ctest tsan -L '^threads$'
}

stage_python() {
    # The oracles ask programs of the debug build; all else is tried as it is packaged.
    build dev
    build package || return
    # The wheel is built from the source archive, as a stranger would; the tests look at both.
    rm -rf build/wheel
    check python-wheel "$python" -m build --no-isolation --outdir build/wheel . &&
        check python-install "$python" -m pip install -q --disable-pip-version-check --no-deps \
            --force-reinstall build/wheel/*.whl
    rm -f "$logs/pytest.xml"
    FEED_SHARE_SEED=$(commits) # others of the headers with each commit
    export FEED_SHARE_SEED
    run_pytest
    unset FEED_SHARE_SEED
}

# run_pytest [WORDS...]: the Python tests, counted case by case.
run_pytest() {
    code=0
    "$python" -m pytest -q -n "$jobs" -p no:cacheprovider --durations=40 \
        --junit-xml="$logs/pytest.xml" "$@" >"$logs/pytest.log" 2>&1 || code=$?
    if [ $code -ne 0 ]; then
        echo "--- FAILED: pytest"
        tail -n 100 "$logs/pytest.log"
        echo "---"
    fi
    cases pytest junit "$logs/pytest.xml" $code
}

# same_bits TREE: the packaged command beside that of build/TREE, and the solvers of both compilers.
same_bits() {
    [ -x build/package/bindings/cli/feed ] || build package || return
    [ -x build/dev/tests/oracle/solver/oracle_solver_bits ] || build dev -- oracle_solver_bits || return
    build "$1" -- feed_command oracle_solver_bits || return
    check "bits-$1" sh tests/tooling/same_bits.sh \
        build/package/bindings/cli/feed "build/$1/bindings/cli/feed"
    check "bits-solver-$1" sh tests/tooling/same_output.sh \
        build/dev/tests/oracle/solver/oracle_solver_bits "build/$1/tests/oracle/solver/oracle_solver_bits"
}

stage_bits() {
    same_bits asan
}

# fuzz PROGRAM: one fuzz target for its inputs or its time; its verdict goes to a file.
fuzz() {
    target=$(basename "$1")
    mkdir -p "build/fuzz/found/$target"
    # Nothing fails because the machine is busy: the limit for one input is far above what it takes.
    runs=${FEED_FUZZ_RUNS:-5000}
    [ -z "$FEED_FUZZ_SECONDS" ] || runs=-1
    # New inputs go to the first folder; the committed corpus is only read. The same seed each time:
    # what one run finds the next finds too. FEED_FUZZ_SEED=0 takes another each time.
    check "$target" "$1" -seed="${FEED_FUZZ_SEED:-1}" \
        -runs="$runs" -max_total_time="${FEED_FUZZ_SECONDS:-60}" -timeout=60 -rss_limit_mb=2048 -print_final_stats=1 \
        -artifact_prefix="build/fuzz/found/$target-" \
        "build/fuzz/found/$target" "tests/fuzz/corpus/$target"
    echo "$passed $failed" >"$logs/$target.count"
}

# fuzz_all TREE: every fuzz target of build/TREE.
fuzz_all() {
    build "$1" -- tests_fuzz || return
    running=0
    for program in build/"$1"/tests/fuzz/fuzz_*; do
        [ -x "$program" ] && [ -f "$program" ] || continue
        (passed=0 failed=0 && fuzz "$program") &
        running=$((running + 1))
        [ $((running % jobs)) -ne 0 ] || wait
    done
    wait
    [ $running -gt 0 ] || check fuzz-targets false
    for counted in "$logs"/fuzz_*.count; do
        [ -f "$counted" ] || continue
        # shellcheck disable=SC2046  # two numbers
        count $(cat "$counted")
        rm -f "$counted"
    done
}

stage_fuzz() {
    # The tree of the sanitizers has the fuzz targets too.
    fuzz_all asan
}

stage_lint() {
    check clang-format sh tests/tooling/clang_format.sh
    # Configured only, for the compiler's options: clang-tidy reads the headers themselves.
    # shellcheck disable=SC2086  # a list of words
    check configure-lint cmake --preset clang -B build/lint -DFEED_PRECOMPILE_HEADERS=OFF $clang_options &&
        check clang-tidy "$python" tests/tooling/clang_tidy.py build/lint
    check ruff "$python" -m ruff check --no-cache .
    check ruff-format "$python" -m ruff format --no-cache --check .
    check mypy sh tests/tooling/mypy.sh "$python"
    check function-size "$python" tests/tooling/function_size.py
}

stage_compile_time() {
    check compile_time "$python" tests/tooling/compile_time.py
    grep seconds "$logs/compile_time.log"
}

stage_mutants() {
    # Another 40 with each commit, and the same 40 with the same one.
    FEED_MUTANTS_OPTIMISE=0
    export FEED_MUTANTS_OPTIMISE
    check mutants "$python" tests/tooling/mutants.py --listed 40 --two-layers --seed "$(commits)"
    tail -n 1 "$logs/mutants.log"
}

stage_coverage() {
    find build/coverage -name '*.gcda' -exec rm -f {} + 2>/dev/null
    build coverage -DFEED_BUILD_ORACLES=OFF -- tests_unit tests_properties &&
        run_ctest coverage -L '^(unit|properties)$'
    check branch-coverage "$python" tests/tooling/branch_coverage.py build/coverage
    grep '^|' "$logs/branch-coverage.log"
}

stage_cross() {
    check cross-packages install_missing "libc++-$FEED_CLANG-dev" "libc++abi-$FEED_CLANG-dev" \
        gcc-arm-none-eabi libstdc++-arm-none-eabi-newlib g++-mingw-w64-x86-64-posix wine64
    [ -x build/package/bindings/cli/feed ] || build package || return
    for kind in libcxx bare cortex windows; do
        check "cross-$kind" "$python" tests/cross/cross.py $kind "build/cross/$kind" build/package/bindings/cli/feed
    done
    grep -h '^flash' "$logs/cross-cortex.log"
}

stage_nightly() {
    FEED_LONG_FORMS=1
    export FEED_LONG_FORMS
    each_alone
    run_pytest tests/headers/test_standalone.py
    stage_cross
    stage_clang
    stage_sanitize
    targets=$(grep -c '^ *feed_fuzz(' tests/fuzz/CMakeLists.txt)
    FEED_FUZZ_SECONDS=${FEED_FUZZ_SECONDS:-$((3600 * jobs / targets))}
    FEED_FUZZ_SEED=${FEED_FUZZ_SEED:-$(date +%j)}
    fuzz_all asan-full
    FEED_ORACLE_PROBLEMS=${FEED_ORACLE_PROBLEMS:-100000}
    FEED_TRIAL_CHAINS=long
    FEED_TRIAL_TABLES=all
    export FEED_ORACLE_PROBLEMS FEED_TRIAL_CHAINS FEED_TRIAL_TABLES
    build dev -DFEED_REQUIRE_ORACLES=ON && run_pytest tests/oracle && run_ctest dev -R '^oracle_'
    run_pytest tests/study/test_trial_tables.py
    FEED_RATION_WEEKS=1
    export FEED_RATION_WEEKS
    run_pytest tests/study/test_ration_weeks.py tests/study/test_own_course.py
    check chromium install_missing chromium
    FEED_BROWSER=$(command -v chromium)
    FEED_NODES=
    for version in 18.20.8 22.23.3; do
        check "node-$version" npm install --silent --no-audit --no-fund --prefix "build/nodes/$version" "node@$version" &&
            FEED_NODES="$FEED_NODES $root/build/nodes/$version/node_modules/node/bin/node"
    done
    export FEED_BROWSER FEED_NODES
    run_pytest tests/js
    check site sh docs/site/build.sh build/package/bindings/cli/feed build/js/package
    check mutants-all "$python" tests/tooling/mutants.py --all
    grep '^|' "$logs/mutants-all.log"
}

jobs=$(nproc 2>/dev/null || echo 2)
begin_all=$(date +%s)
[ $# -gt 0 ] || set -- setup data gcc asan tsan python bits fuzz lint compile_time
for stage in "$@"; do
    case $stage in
    setup | data | gcc | clang | asan | sanitize | tsan | python | bits | fuzz | lint | compile_time | mutants | unit | coverage | cross | nightly) ;;
    *)
        echo "There is no stage '$stage'. The stages:" >&2
        sed -n 's/^#   /  /p' tests/run.sh >&2
        exit 2
        ;;
    esac
done
for stage in "$@"; do
    begin=$(date +%s)
    echo "== $stage"
    "stage_$stage"
    echo "== $stage took $(($(date +%s) - begin)) s"
done
echo "All took $(($(date +%s) - begin_all)) s."
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
