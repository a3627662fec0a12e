"""The npm package beside the C library, by the same requests through the one door, in turn:

    python tests/bench/npm_bench.py build/package/bindings/c/libfeed.so build/js/project

The second is the project that tests/js leaves behind. Prints the table of docs/benchmarks.md.
"""

from __future__ import annotations

import ctypes
import json
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "js"))
from usual_requests import REQUESTS

TURNS = 15


def native_ms(library: Path) -> list[float]:
    feed = ctypes.CDLL(str(library))
    feed.feed_text_free.argtypes = [ctypes.c_void_p]
    medians = []
    for request in REQUESTS.values():
        said = json.dumps(request).encode()
        times = []
        for _ in range(TURNS):
            answer = ctypes.c_void_p()
            begin = time.perf_counter()
            if feed.feed_call(said, None, ctypes.byref(answer), None) != 0:
                raise SystemExit(f"refused: {said[:80]!r}")
            times.append(1000.0 * (time.perf_counter() - begin))
            feed.feed_text_free(answer)
        medians.append(statistics.median(times))
    return medians


def main() -> int:
    library, project = (Path(word).resolve() for word in sys.argv[1:3])
    done = subprocess.run(
        ["node", "measure.mjs"],
        cwd=project,
        input=json.dumps(list(REQUESTS.values())),
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "FEED_TURNS": str(TURNS)},
    )
    measured = json.loads(done.stdout)
    print(
        f"module: {measured['bytes'] / 1000:.0f} kB, {measured['wire_bytes'] / 1000:.0f} by brotli"
    )
    print(f"load: {measured['load_ms']:.0f} ms")
    print("| request | memory, MB | module, ms | native, ms | times |")
    print("|---|---|---|---|---|")
    for name, here, native in zip(REQUESTS, measured["requests"], native_ms(library), strict=True):
        memory = here["memory_bytes"] / 2**20
        ratio = here["median_ms"] / native
        print(f"| {name} | {memory:.1f} | {here['median_ms']:.3g} | {native:.3g} | {ratio:.1f} |")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
