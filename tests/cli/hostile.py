"""Hostile texts of about a megabyte, and hostile words: what a program must bear."""

from __future__ import annotations

import random

MEGABYTE = 1_000_000
# Steers a terminal, hides or turns what is written, forges a line, breaks markup.
WORDS = [
    "\x1b[2J\x1b]0;owned\x07",
    "a\rfeed: all is well",
    "\u202egnp.exe",
    "\u2066hidden\u2069",
    "\x85next\x9bline",
    "</text><script>alert(1)</script>",
    "\"'&<>]]>--",
    "\ufeff\u200f\ufffe",
    "\U000e0041tag",
    "\x00" * 0 + "\x7f\x08\x08",
]


def _lines(head: str, line: str) -> str:
    count = MEGABYTE // len(line.format(n=100000))
    return head + "".join(line.format(n=i) for i in range(count))


def texts() -> dict[str, str]:
    """Feed files of about a megabyte, each bad in a way of its own."""
    head = "libfeed: 1\n"
    numbers = random.Random(15)
    letters = "abcdefghijklmnopqrstuvwxyz"
    names = "".join(
        f"  - 1 g {''.join(numbers.choices(letters, k=9))}\n" for _ in range(MEGABYTE // 18)
    )
    return {
        "one unknown name again and again": head + "blend:\n" + "  - 1 g xqzwv\n" * 66000,
        "unknown names": head + "blend:\n" + names,
        "many short lists of unknown names": head
        + "feedings:\n"
        + "".join(
            f"  - date: 2026-01-01\n    portions: [1 g {''.join(numbers.choices(letters, k=9))}]\n"
            for _ in range(9999)
        ),
        "unknown keys": _lines(head, "key{n}: 1\n"),
        "unknown keys in entries": head
        + "observations:\n"
        + "  - {date: 2026-01-01, smel: earthy, gon: no, temprature: 3}\n" * 9999,
        "one key again and again": head + "bed: {}\n" * 120000,
        "anchors and aliases": head
        + "title: t\nblend:\n"
        + "".join(f"  - &a{i} 1 g\n  - *a{i}\n" for i in range(40000)),
        "containers": _lines(head + "containers:\n", "  c{n}: 1 L\n"),
        "own feedstocks": _lines(head + "feedstocks:\n", "  f{n}: {{like: newspaper}}\n"),
        "a thousand own feedstocks": head
        + "feedstocks:\n"
        + "".join(f"  stuff{i}: {{like: newspaper}}\n" for i in range(1000))
        + "blend:\n"
        + "".join(f"  - 1 g stuff{i}\n" for i in range(1000)),
        "looks": _lines(head + "observations:\n", "  - {{date: 2026-01-01, note: n{n}}}\n"),
        "ten thousand looks": head
        + "bed: {container: tote}\nfeedings:\n"
        + "".join(
            f"  - {{date: 20{10 + i // 365:02}-01-01, portions: [1 g carrot]}}\n"
            for i in range(9999)
        )
        + "observations:\n"
        + "".join(
            f"  - {{date: 20{10 + i // 365:02}-02-01, share_gone: 50 %}}\n" for i in range(9999)
        ),
        "one long word": head + "title: " + "x" * MEGABYTE + "\n",
        "one long name": head + "blend: [1 kg " + "x" * MEGABYTE + "]\n",
        "a name of many words": head + "blend: [1 kg " + "ab " * (MEGABYTE // 3) + "]\n",
        "digits": head + "blend: [" + "9" * MEGABYTE + " g carrot]\n",
        "brackets": head + "blend: " + "[" * MEGABYTE + "\n",
        "one line": head + "blend: [" + "1 g a, " * (MEGABYTE // 7) + "]\n",
        "one line of little lists": head + "blend: [" + "[1]," * (MEGABYTE // 4) + "]\n",
        "one line of mappings": head + "blend: [" + "{a: 1}," * (MEGABYTE // 7) + "]\n",
        "colons": head + "a: " * (MEGABYTE // 3) + "\n",
        "dashes": head + "blend: " + "- " * (MEGABYTE // 2) + "\n",
        "blanks": head + " " * MEGABYTE + "\n",
        "remarks": head + "#\n" * (MEGABYTE // 2),
        "quotes": head + 'title: "' + "\\x1b" * (MEGABYTE // 4) + '"\n',
        "at hand": head
        + "balance:\n  targets: worm-bed\n  at_hand:\n"
        + "".join(f"    - {i + 1} g stuff{i}\n" for i in range(199))
        + "feedstocks:\n"
        + "".join(
            f"  stuff{i}: {{like: newspaper, moisture: {i % 90 + 1} %}}\n" for i in range(199)
        ),
    }
