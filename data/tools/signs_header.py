"""Reads data/names/signs_en.yaml, what keepers say of what they see, and writes its header."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from names_reader import singular, singular_text
from names_writer import array, quoted
from problems import Place, Problems
from yaml_reader import Mapping, Node, read_file

FILE = Path("names/signs_en.yaml")
# The keys of an observation that words can stand for, with the C++ type of their values.
KINDS = {"smell": "Smell", "squeeze": "Squeeze", "worms": "WormPlace", "vigour": "WormVigour"}
NUMBERS = ("share_gone", "temperature")
VALUES = {"at the lid": "at_lid"}
# A name that may stand before or behind what is said of it ("sour smell", "climbing worms").
TURNED = ("smell", "worm")


@dataclass
class Seen:
    """One thing that can be seen, smelled or felt."""

    name: str
    key: str = "nothing"
    value: str = "0"
    text: str = ""
    sign: str = ""


@dataclass
class SignWords:
    """What the file says."""

    rows: list[Seen] = field(default_factory=list)
    words: dict[str, int] = field(default_factory=dict)
    idle: list[str] = field(default_factory=list)
    same: dict[str, str] = field(default_factory=dict)

    def essence(self, text: str) -> str:
        """As feed::detail::essence_of: the words that say something, in one form for each."""
        words = (self.same.get(word, word) for word in singular_text(text).split())
        return " ".join(word for word in words if word not in self.idle)

    def spellings(self, text: str) -> list[str]:
        words = self.essence(text).split()
        if len(words) < 2:
            return [" ".join(words)]
        ways = [words]
        if words[0] in TURNED:
            ways.append([*words[1:], words[0]])
        elif words[-1] in TURNED:
            ways.append([words[-1], *words[:-1]])
        return [" ".join(way) for way in ways]


class SignWordsReader:
    """Reads the file, and reports what it cannot use."""

    def __init__(self, problems: Problems) -> None:
        self.problems = problems
        self.read_words = SignWords()

    def read(self, data: Path) -> SignWords:
        root = read_file(data / FILE, self.problems)
        if root is None:
            return self.read_words
        top = Mapping(root, FILE.name, self.problems)
        top.text("language")
        self.read_words.idle = sorted({singular(text) for text, _ in top.texts("idle")})
        same = top.require("same")
        for word, entry in (same.node.entries or {}).items() if same else ():
            for item in entry.node.items or ():
                self.read_words.same[singular_text(item.text or "")] = singular(word)
        seen = top.require("seen")
        for item in (seen.node.items or ()) if seen else ():
            self._row(item)
        top.close()
        return self.read_words

    def _row(self, node: Node) -> None:
        item = Mapping(node, "what was seen", self.problems)
        words = item.texts("words", required=True)
        row = Seen(words[0][0] if words else "")
        row.sign = item.text("sign", required=False).replace(" ", "_")
        means = item.take("means")
        for key, entry in (means.node.entries or {}).items() if means else ():
            self._meaning(row, key, entry.node.text or "", entry.place)
        item.close()
        self.read_words.rows.append(row)
        for text, place in words:
            self._word(text, place)
        if row.sign:
            self._word(row.sign.replace("_", " "), item.place, known_is_fine=True)

    def _meaning(self, row: Seen, key: str, value: str, place: Place) -> None:
        row.key = key
        if key in KINDS:
            row.value = f"value_of({KINDS[key]}::{VALUES.get(value, value.replace(' ', '_'))})"
        elif key in NUMBERS:
            row.value = str(int(value))
        elif key in ("gone", "pooling"):
            row.value = "1" if value == "yes" else "0"
        elif key == "pests":
            row.text = value
        else:
            self.problems.add(place, "bad-part", f"no word stands for the key '{key}'")

    def _word(self, text: str, place: Place, *, known_is_fine: bool = False) -> None:
        index = len(self.read_words.rows) - 1
        for key in self.read_words.spellings(text):
            known = self.read_words.words.setdefault(key, index)
            if not key:
                self.problems.add(place, "bad-part", f"'{text}' has only words that say nothing")
            elif known != index and not known_is_fine:
                other = self.read_words.rows[known].name
                self.problems.add(place, "duplicate-alias", f"'{text}' is '{other}' too")


def read_sign_words(data: Path, problems: Problems) -> SignWords:
    return SignWordsReader(problems).read(data)


def signs_header(words: SignWords) -> str:
    rows = [
        f"{{{quoted(row.name)}, SeenKey::{row.key}, {row.value},"
        f" {f'value_of(Sign::{row.sign})' if row.sign else 'no_sign'}, {quoted(row.text)}}}"
        for row in words.rows
    ]
    known = [f"{{{quoted(key)}, {index}}}" for key, index in sorted(words.words.items())]
    same = [f"{{{quoted(word)}, {quoted(to)}}}" for word, to in sorted(words.same.items())]
    vocabulary = sorted({word for key in words.words for word in key.split()})
    lines = [
        f"// Generated by data/tools/generate.py from data/{FILE.as_posix()}; do not edit.",
        "// clang-format off",
        "#pragma once",
        "#include <array>",
        "",
        '#include "feed/diary/seen_row.hpp"',
        "",
        "namespace feed::table::en {",
        "",
        *array("SeenRow", "seen_rows", "What can be seen, in the order of the file.", rows),
        *array("SeenWords", "seen_words", "What people say of it, sorted.", known),
        *array("SameWord", "seen_same", "Other words for a word, sorted.", same),
        *array(
            "const char*",
            "seen_vocabulary",
            "Every word of what people say, sorted.",
            [quoted(word) for word in vocabulary],
        ),
        *array(
            "const char*",
            "seen_idle",
            "Words that say nothing, in the singular, sorted.",
            [quoted(word) for word in words.idle],
        ),
        "}  // namespace feed::table::en",
        "",
    ]
    return "\n".join(lines)
