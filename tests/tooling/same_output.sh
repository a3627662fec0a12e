#!/bin/sh
# same_output.sh ONE TWO: two builds of a program print the same, and print something.
first=$("$1") && second=$("$2") || exit 1
echo "$first"
echo "$second"
[ -n "$first" ] && [ "$first" = "$second" ]
