#!/bin/sh
# same_bits.sh ONE TWO: two builds of the command print the same bytes for every example.
set -u
wrong=0
compared=0
for file in examples/*.yaml; do
    for verb in blend balance check forecast; do
        first=$("$1" "$verb" "$file" --json 2>&1)
        first_code=$?
        second=$("$2" "$verb" "$file" --json 2>&1)
        second_code=$?
        if [ "$first" != "$second" ] || [ $first_code != $second_code ]; then
            echo "feed $verb $file --json differs"
            wrong=$((wrong + 1))
        elif [ $first_code = 0 ]; then
            compared=$((compared + 1))
        fi
    done
done
echo "$compared outputs the same, $wrong different"
[ $wrong -eq 0 ] && [ $compared -gt 0 ]
