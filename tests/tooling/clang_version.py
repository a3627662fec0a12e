"""Which Clang the tests take: version $FEED_CLANG, else 14; tests/run.sh says when another."""

import os

CLANG_C = "clang-" + os.environ.get("FEED_CLANG", "14")
CLANG = CLANG_C.replace("clang-", "clang++-")
