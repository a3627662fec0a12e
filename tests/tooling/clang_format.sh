#!/bin/sh
# Every C and C++ file is as .clang-format says. Generated files are as their generator writes them.
git ls-files '*.hpp' '*.cpp' '*.h' '*.c' | grep -v /generated/ |
    xargs clang-format-14 --dry-run -Werror
