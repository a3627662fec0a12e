"""Reads data/names/signs_*.yaml: what keepers say of what they see, one file a language."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from names_reader import LANGUAGES, singular_text, transcribed
from problems import Place, Problems
from yaml_reader import Mapping, Node, read_file

# The keys of an observation that words can stand for, with the C++ type of their values.
KINDS = {"smell": "Smell", "squeeze": "Squeeze", "worms": "WormPlace", "vigour": "WormVigour"}
NUMBERS = ("share_gone", "temperature")
VALUES = {"at the lid": "at_lid"}


@dataclass
class Seen:
    """One thing that can be seen, smelled or felt."""

    name: str
    key: str = "nothing"
    value: str = "0"
    text: str = ""
    sign: str = ""


@dataclass
class SignLanguage:
    """The words of one file; `words` has the place of the row each stands for."""

    language: str
    words: dict[str, int] = field(default_factory=dict)
    same: dict[str, str] = field(default_factory=dict)
    idle: list[str] = field(default_factory=list)
    negations: list[str] = field(default_factory=list)
    turned: list[str] = field(default_factory=list)

    def whole(self, text: str) -> list[str]:
        """As feed::detail::seen_words_of: one form for each word, in the singular."""
        return [self.same.get(word, word) for word in singular_text(text).split()]

    def essence(self, text: str) -> list[str]:
        return [word for word in self.whole(text) if word not in self.idle]

    def turns(self, words: list[str]) -> list[str]:
        """A name may stand before or behind what is said of it: "sour smell", "smell sour"."""
        ways = [words]
        if len(words) > 1 and words[0] in self.turned:
            ways.append([*words[1:], words[0]])
        elif len(words) > 1 and words[-1] in self.turned:
            ways.append([words[-1], *words[:-1]])
        return [" ".join(way) for way in ways]


@dataclass
class SignWords:
    """What all files say. The rows are those of the English one."""

    rows: list[Seen] = field(default_factory=list)
    languages: list[SignLanguage] = field(default_factory=list)


class SignFileReader:
    """Reads one file, and reports what it cannot use."""

    def __init__(self, rows: list[Seen], language: str, problems: Problems) -> None:
        self.rows = rows
        self.problems = problems
        self.said = SignLanguage(language)
        self.texts: list[tuple[str, int, Place]] = []
        self.own_names: list[tuple[str, int, Place]] = []

    def read(self, path: Path) -> SignLanguage:
        root = read_file(path, self.problems)
        if root is None:
            return self.said
        top = Mapping(root, path.name, self.problems)
        if top.text("language") != self.said.language:
            said = f"the language of this file is {self.said.language}"
            self.problems.add(top.place, "wrong-group", said)
        same = top.require("same")
        for word, entry in (same.node.entries or {}).items() if same else ():
            for item in entry.node.items or ():
                for form in transcribed(item.text or "", self.said.language):
                    self.said.same[singular_text(form)] = singular_text(word)
            for form in transcribed(word, self.said.language)[1:]:
                self.said.same[singular_text(form)] = singular_text(word)
        for key in ("idle", "negations", "turned"):
            getattr(self.said, key).extend(self._list(top, key))
        seen = top.require("seen")
        for item in (seen.node.items or ()) if seen else ():
            self._row(item)
        for name, entry in (seen.node.entries or {}).items() if seen else ():
            self._words_of(name, entry.node, entry.place)
        top.close()
        self._enter()
        return self.said

    def _list(self, top: Mapping, key: str) -> list[str]:
        """The words of a list in the order of the file, each in the form that is compared."""
        return [
            word
            for text, _ in top.texts(key, required=True)
            for form in transcribed(text, self.said.language)
            for word in self.said.whole(form)
        ]

    def _row(self, node: Node) -> None:
        """A row of the English file: what it means, and its words."""
        item = Mapping(node, "what was seen", self.problems)
        words = item.texts("words", required=True)
        row = Seen(words[0][0] if words else "")
        row.sign = item.text("sign", required=False).replace(" ", "_")
        means = item.take("means")
        for key, entry in (means.node.entries or {}).items() if means else ():
            self._meaning(row, key, entry.node.text or "", entry.place)
        item.close()
        place = len(self.rows)
        self.rows.append(row)
        self.texts += [(text, place, at) for text, at in words]
        if row.sign:
            self.own_names.append((row.sign.replace("_", " "), place, item.place))

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

    def _words_of(self, name: str, node: Node, place: Place) -> None:
        """What another language says for a row of the English file."""
        found = [at for at, row in enumerate(self.rows) if row.name == name]
        if not found:
            self.problems.add(place, "bad-part", f"signs_en.yaml has no row '{name}'")
            return
        for item in node.items or ():
            for text in transcribed(item.text or "", self.said.language):
                self.texts.append((text, found[0], item.place))

    def _enter(self) -> None:
        """Words without idle ones first: "many drops" must not take the place of "drops"."""
        said = self.said
        plain = [one for one in self.texts if said.whole(one[0]) == said.essence(one[0])]
        for text, row, place in [*plain, *(one for one in self.texts if one not in plain)]:
            self._word(text, row, place)
        for text, row, _ in self.own_names:
            for key in said.turns(said.essence(text)):
                said.words.setdefault(key, row)

    def _word(self, text: str, row: int, place: Place) -> None:
        said = self.said
        words = said.essence(text)
        taken = {said.words.get(key, row) for key in said.turns(words)} - {row}
        if taken or not words or (len(words) == 1 and words[0] in said.turned):
            # What is idle elsewhere tells here: "very damp" is not "damp".
            words = said.whole(text)
            taken = {said.words.get(key, row) for key in said.turns(words)} - {row}
        if taken:
            other = self.rows[taken.pop()].name
            self.problems.add(place, "duplicate-alias", f"'{text}' is '{other}' too")
        elif len(words) == 1 and words[0] in [*said.turned, *said.idle]:
            self.problems.add(place, "bad-part", f"'{text}' has only words that say nothing")
        else:
            said.words.update(dict.fromkeys(said.turns(words), row))


def read_sign_words(names: Path, problems: Problems) -> SignWords:
    """The files in the folder `names`, English first."""
    read = SignWords()
    for language in LANGUAGES:
        file = names / f"signs_{language}.yaml"
        if language == "en" or file.exists():
            read.languages.append(SignFileReader(read.rows, language, problems).read(file))
    return read
