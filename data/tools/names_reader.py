"""Reads data/names/: what people call the materials, units and numbers, one file a language."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path

from model import Table
from problems import Place, Problems
from yaml_reader import Entry, Mapping, Node, read_file

# English first: a word that two languages have is the English one.
LANGUAGES = ("en", "de", "fr", "es")
# Words that join others and mean nothing by themselves, in the singular ("los" is "lo").
JOINING = frozenset(
    [
        "a",
        "an",
        "and",
        "d",
        "das",
        "de",
        "del",
        "der",
        "des",
        "die",
        "du",
        "el",
        "et",
        "from",
        "in",
        "l",
        "la",
        "las",
        "le",
        "les",
        "lo",
        "my",
        "of",
        "some",
        "the",
        "un",
        "und",
        "une",
        "vom",
        "von",
        "y",
    ]
)
OPTIONAL_END = re.compile(r"\((\w{1,2})\)")
LOOSE = re.compile(r"(?P<value>\S+)(?: \((?P<low>\S+) to (?P<high>\S+)\))?")


def plain_text(text: str) -> str:
    """As feed::plain_text: lower case, no accents, words of a-z and 0-9 parted by one blank."""
    text = text.replace("ß", "ss").replace("œ", "oe").replace("Œ", "oe")
    text = text.replace("æ", "ae").replace("Æ", "ae").replace("ø", "o")
    text = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    text = re.sub(r"\b([A-Za-z0-9])['\u2019]", r"\1 ", text)
    text = re.sub(r"['\u2019]", "", text.lower())
    return " ".join(re.sub(r"[^a-z0-9]", " ", text).split())


def singular(word: str) -> str:
    """As feed::singular."""

    def ends(tail: str) -> bool:
        return len(word) > len(tail) + 1 and word.endswith(tail)

    if word in ("leaves", "loaves", "halves"):
        return word[:-3] + "f"
    if word == "feet":
        return "foot"
    if ends("ies") and len(word) > 4:
        return word[:-3] + "y"
    if any(ends(tail) for tail in ("oes", "ches", "shes", "sses", "xes")):
        return word[:-2]
    if ends("s") and not ends("ss") and not ends("us") and not ends("is"):
        return word[:-1]
    return word


def singular_text(text: str) -> str:
    return " ".join(singular(word) for word in plain_text(text).split())


def name_key(text: str) -> str:
    """As feed::detail::name_key: the words in the singular, sorted, without those that join."""
    words = singular_text(text).split()
    return " ".join(sorted([w for w in words if w not in JOINING] or words))


def spelled_out(name: str) -> list[str]:
    """Both numbers of "banana peel(s)" or "gousse(s) d'ail"."""
    if not OPTIONAL_END.search(name):
        return [name]
    return [OPTIONAL_END.sub("", name), OPTIONAL_END.sub(r"\1", name)]


TRANSCRIBED = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "Ä": "Ae", "Ö": "Oe", "Ü": "Ue"})


def transcribed(text: str, language: str) -> list[str]:
    """A text, and as it is typed where a keyboard has no German letters ("Moehre")."""
    if language != "de":
        return [text]
    return list(dict.fromkeys([text, text.translate(TRANSCRIBED)]))


@dataclass(frozen=True, order=True)
class NameKey:
    key: str
    rank: int
    feedstock: str
    part: str = ""
    remark: str = ""


@dataclass(frozen=True, order=True)
class NumberWord:
    text: str
    value: Fraction
    low: Fraction
    high: Fraction


@dataclass
class Names:
    """What one file says."""

    language: str
    keys: list[NameKey] = field(default_factory=list)
    units: list[tuple[str, str]] = field(default_factory=list)
    numbers: list[NumberWord] = field(default_factory=list)
    pieces: list[NumberWord] = field(default_factory=list)  # grams
    held: list[NumberWord] = field(default_factory=list)  # grams, by "unit feedstock"
    words: dict[str, list[str]] = field(default_factory=dict)


WORD_LISTS = ("barred_words", "without_words", "left_aside", "part_words", "small_parts")


class NamesReader:
    """Reads the names of one language against the table."""

    def __init__(self, table: Table, problems: Problems) -> None:
        self.table = table
        self.problems = problems
        self.known = {row.id for row in table.feedstocks}
        self.found: dict[str, list[NameKey]] = {}
        self.remarks: dict[str, str] = {}
        self.language = "en"

    def read(self, path: Path, language: str) -> Names:
        names = Names(language)
        self.language = language
        root = read_file(path, self.problems)
        if root is None:
            return names
        top = Mapping(root, path.name, self.problems)
        if top.text("language") != language:
            self.problems.add(top.place, "wrong-group", f"the language of this file is {language}")
        for word, entry in self._entries(top.take("remarks")):
            self.remarks[name_key(word)] = entry.node.text or ""
        if language == "en":
            self._table_names()
        for identifier, entry in self._entries(top.require("names")):
            self._names(identifier, entry)
        for word, entry in self._entries(top.take("choices")):
            self._choice(word, entry)
        names.keys = sorted(key for keys in self.found.values() for key in keys)
        for unit, entry in self._entries(top.take("units")):
            for text in self._texts(entry.node):
                for number in spelled_out(text):
                    for way in transcribed(number, language):
                        names.units.append((singular_text(way), unit))
        names.units = sorted(set(names.units))
        for word, entry in self._entries(top.take("numbers")):
            for way in transcribed(word, language):
                names.numbers.append(self._number(way, entry))
        self._weights(names, top)
        for key in WORD_LISTS:
            names.words[key] = sorted({singular_text(text) for text, _ in top.texts(key)})
        if language == "en":
            names.words["joining_words"] = sorted(JOINING)
        top.close()
        return names

    def _weights(self, names: Names, top: Mapping) -> None:
        """What pieces weigh by their names, and what vessels and packs usually hold."""
        for word, entry in self._entries(top.take("pieces")):
            if name_key(word) not in self.found:
                self.problems.add(entry.place, "bad-part", f"nothing is called '{word}'")
            grams = self._number(word, entry)
            names.pieces.append(replace(grams, text=name_key(word)))
        for unit, of in self._entries(top.take("held")):
            for identifier, entry in self._entries(of):
                if identifier not in self.known:
                    self.problems.add(entry.place, "bad-id", f"no feedstock '{identifier}'")
                grams = self._number(identifier, entry)
                names.held.append(replace(grams, text=f"{unit} {identifier}"))

    @staticmethod
    def _entries(entry: Entry | None) -> list[tuple[str, Entry]]:
        return list((entry.node.entries or {}).items()) if entry else []

    @staticmethod
    def _texts(node: Node) -> list[str]:
        return [item.text or "" for item in node.items or ()]

    def _add(self, name: NameKey, place: Place) -> None:
        members = self.found.setdefault(name.key, [])
        for known in members:
            if known.feedstock == name.feedstock:
                return
            if known.rank == name.rank:
                self.problems.add(
                    place,
                    "duplicate-alias",
                    f"'{name.key}' names {known.feedstock} and {name.feedstock};"
                    " give it a line under choices",
                )
        members.append(name)

    def _names(self, identifier: str, entry: Entry) -> None:
        if identifier not in self.known:
            self.problems.add(entry.place, "bad-id", f"no feedstock has the id '{identifier}'")
            return
        for item in entry.node.items or ():
            for number in spelled_out(item.text or ""):
                for text in transcribed(number, self.language):
                    key = name_key(text)
                    name = NameKey(key, 0, identifier, "", self.remarks.get(key, ""))
                    self._add(name, item.place)

    def _table_names(self) -> None:
        """The ids, names and aliases of the rows."""
        for row in self.table.feedstocks:
            for alias in sorted(row.aliases, key=lambda alias: alias.rank):
                key = name_key(alias.text)
                name = NameKey(key, alias.rank, row.id, alias.part, self.remarks.get(key, ""))
                self._add(name, alias.place)
            key = name_key(row.name)
            if key not in self.found:
                self._add(NameKey(key, 0, row.id), row.place)

    def _choice(self, word: str, entry: Entry) -> None:
        members = []
        for identifier, part in self._entries(entry):
            nodes = part.node.items or ()
            if identifier not in self.known or len(nodes) != 2:
                self.problems.add(part.place, "bad-part", f"'{identifier}' of '{word}'")
                continue
            members.append((int(nodes[0].text or "0"), identifier, nodes[1].text or ""))
        for text in spelled_out(word):
            key = name_key(text)
            remark = self.remarks.get(key, "")
            self.found[key] = [NameKey(key, rank, i, part, remark) for rank, i, part in members]

    def _number(self, word: str, entry: Entry) -> NumberWord:
        match = LOOSE.fullmatch(entry.node.text or "")
        if match is None:
            self.problems.add(entry.place, "bad-number", f"'{entry.node.text}' for '{word}'")
            return NumberWord(plain_text(word), Fraction(1), Fraction(1), Fraction(1))
        value = Fraction(match["value"])
        low, high = (Fraction(match[end]) if match[end] else value for end in ("low", "high"))
        return NumberWord(plain_text(word), value, low, high)


def check_barred(languages: list[Names], table: Table, problems: Problems) -> None:
    """Every barred word is by itself the name of something that is never fed, in some language."""
    never = {row.id for row in table.feedstocks if row.stance == "avoid"}
    for names in languages:
        for word in names.words.get("barred_words", []):
            members = [key for one in languages for key in one.keys if key.key == word]
            if not members or any(member.feedstock not in never for member in members):
                problems.add(
                    Place(f"data/names/{names.language}.yaml", 1),
                    "bad-part",
                    f"barred word '{word}' names nothing barred",
                )


def read_names(folder: Path, table: Table, problems: Problems) -> list[Names]:
    languages = [
        NamesReader(table, problems).read(folder / f"{language}.yaml", language)
        for language in LANGUAGES
    ]
    check_barred(languages, table, problems)
    return languages
