"""The plan of design.cpp's printed seed, worked out a second time from the stated rules."""

from collections.abc import Iterator

MASK = (1 << 64) - 1


def numbers(seed: int) -> Iterator[int]:
    """SplitMix64 as published (Steele, Lea & Flood 2014)."""
    while True:
        seed = (seed + 0x9E3779B97F4A7C15) & MASK
        mixed = ((seed ^ (seed >> 30)) * 0xBF58476D1CE4E5B9) & MASK
        mixed = ((mixed ^ (mixed >> 27)) * 0x94D049BB133111EB) & MASK
        yield mixed ^ (mixed >> 31)


def shuffled(entries: list[str], stream: Iterator[int]) -> list[str]:
    """From the last entry down, each swapped with one drawn from it and those before."""
    for i in range(len(entries), 1, -1):
        product = (next(stream) >> 32) * i
        while product % 2**32 < 2**32 % i:
            product = (next(stream) >> 32) * i
        drawn = product >> 32
        entries[i - 1], entries[drawn] = entries[drawn], entries[i - 1]
    return entries


if __name__ == "__main__":
    stream = numbers(48213)
    print("".join("".join(shuffled(list("AABBCC"), stream)) for _ in range(2)))
