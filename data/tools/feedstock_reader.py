"""Reads the feedstock files, one file a group."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path

from model import (
    CAUTIONS,
    DECAY_CLASSES,
    GRADES,
    MEASURES,
    ROLES,
    STANCES,
    Alias,
    Citation,
    Feedstock,
    HeapStance,
    MeasureValue,
    MostAtATime,
    Rules,
    Source,
    SourceRef,
    Value,
    words,
)
from problems import Problems
from rules_reader import read_decimal
from yaml_reader import Entry, Mapping, Node, read_file

METHOD = re.compile(
    r"read|recalled|judgement|definition|derived (?P<formula>F\d+)( factor [\d.]+)?"
)
IDENTIFIER = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
PLURAL = re.compile(r"\((s|es)\)$")


def both_numbers(name: str) -> list[str]:
    """Singular and plural of a name written as "banana peel(s)"."""
    match = PLURAL.search(name)
    if match is None:
        return [name]
    singular = name[: match.start()]
    return [singular, singular + match.group(1)]


class FeedstockReader:
    """Reads one group file against the rules and sources."""

    def __init__(self, rules: Rules, sources: dict[str, Source], problems: Problems) -> None:
        self.rules = rules
        self.sources = sources
        self.problems = problems

    def read(self, path: Path, group: str) -> list[Feedstock]:
        root = read_file(path, self.problems)
        if root is None:
            return []
        top = Mapping(root, path.name, self.problems)
        named = top.text("group")
        if named and named != group:
            self.problems.add(top.place, "wrong-group", f"the group of this file is '{group}'")
        listed = top.require("feedstocks")
        top.close()
        nodes = (listed.node.items or ()) if listed else ()
        if listed and not nodes:
            self.problems.add(listed.place, "wrong-kind", "'feedstocks' must be a list, not empty")
        return [self._feedstock(node, group) for node in nodes]

    def _feedstock(self, node: Node, group: str) -> Feedstock:
        item = Mapping(node, "feedstock", self.problems)
        row = Feedstock(item.text("id"), item.text("name"), group, item.text("kind"), node.place)
        item.what = f"'{row.id}'"
        if not IDENTIFIER.fullmatch(row.id):
            self.problems.add(node.place, "bad-id", f"'{row.id}' must be words of a-z parted by -")
        if row.kind and row.kind not in self.rules.feedstock_kinds:
            self.problems.add(node.place, "unknown-kind", f"'{row.kind}' is not a kind")
        row.roles = self._known(item, "roles", ROLES, "unknown-role", required=True)
        row.cautions = self._known(item, "cautions", CAUTIONS, "unknown-caution")
        row.stance = self._one_of(item, "stance", STANCES, "unknown-stance")
        row.heap = self._heap(item.take("heap"))
        row.stance_pre_composted = item.text("stance_pre_composted", required=False)
        if row.stance_pre_composted not in ("", *STANCES):
            self.problems.add(
                node.place, "unknown-stance", f"'{row.stance_pre_composted}' is not a stance"
            )
        row.why_barred = item.text("why_barred", required=False)
        row.instead = item.text("instead", required=False)
        row.decay_class = self._one_of(item, "decay_class", DECAY_CLASSES, "unknown-decay-class")
        row.pools = item.text("pools", required=False)
        if row.pools and row.pools not in self.rules.pool_rules:
            self.problems.add(node.place, "unknown-pool-rule", f"'{row.pools}' is not a pool rule")
        row.preparation = item.text("preparation", required=False)
        row.sold_as = item.text("sold_as", required=False)
        row.note = item.text("note", required=False)
        row.aliases = self._aliases(item, row)
        most = item.take("most_at_a_time")
        if most is not None:
            row.most = self._most(most)
        for key, entry in self._entries(item.take("values")):
            value = self._value(key, entry)
            if value is not None:
                row.values[key] = value
        for key, entry in self._entries(item.take("measures")):
            measure = self._measure(key, entry)
            if measure is not None:
                row.measures[key] = measure
        item.close()
        return row

    def _known(
        self,
        item: Mapping,
        key: str,
        allowed: tuple[str, ...],
        rule: str,
        *,
        required: bool = False,
    ) -> tuple[str, ...]:
        found: list[str] = []
        for text, place in item.texts(key, required=required):
            if text not in allowed:
                self.problems.add(place, rule, f"'{text}' is not one of {', '.join(allowed)}")
            elif text in found:
                self.problems.add(place, "duplicate-key", f"'{text}' stands twice")
            else:
                found.append(text)
        return tuple(found)

    def _one_of(self, item: Mapping, key: str, allowed: tuple[str, ...], rule: str) -> str:
        text = item.text(key)
        if text and text not in allowed:
            self.problems.add(item.place, rule, f"'{text}' is not one of {', '.join(allowed)}")
        return text

    @staticmethod
    def _entries(entry: Entry | None) -> list[tuple[str, Entry]]:
        if entry is None or entry.node.entries is None:
            return []
        return list(entry.node.entries.items())

    def _aliases(self, item: Mapping, row: Feedstock) -> list[Alias]:
        own = words(row.id)
        found = [Alias(own, "", row.id, 0, row.place)]
        for text, place in item.texts("aliases"):
            names = both_numbers(text)
            for name in names:
                if words(name) == own:
                    if len(names) == 1:
                        self.problems.add(place, "duplicate-alias", f"'{name}' is the id itself")
                else:
                    found.append(Alias(words(name), "", row.id, 0, place))
        for word, entry in self._entries(item.take("parts")):
            nodes = entry.node.items
            if nodes is None or len(nodes) != 2 or not (nodes[0].text or "").isdigit():
                self.problems.add(entry.place, "bad-part", f"'{word}' must name [rank, part]")
                continue
            part, rank = nodes[1].text or "", int(nodes[0].text or "")
            for name in both_numbers(word):
                found.append(Alias(words(name), part, row.id, rank, entry.place))
        return found

    def _citation(self, item: Mapping, prefix: str = "") -> Citation:
        method = item.text(prefix + "method")
        match = METHOD.fullmatch(method)
        if method and match is None:
            self.problems.add(item.place, "unknown-method", f"{item.what}: method '{method}'")
        formula = match.group("formula") if match else None
        if formula and formula not in self.rules.formulas:
            self.problems.add(item.place, "unknown-formula", f"{item.what}: formula {formula}")
        refs: list[SourceRef] = []
        texts = item.texts(prefix + "source")
        if not texts:
            self.problems.add(item.place, "missing-source", f"{item.what} names no source")
        for text, place in texts:
            name, *records = text.split()
            if name not in self.sources:
                self.problems.add(place, "unknown-source", f"{item.what}: source '{name}'")
            refs.append(SourceRef(name, tuple(records)))
        return Citation(tuple(refs), method)

    def _grade(self, item: Mapping, citation: Citation, prefix: str = "") -> str:
        grade = item.text(prefix + "grade")
        if grade and grade not in GRADES:
            self.problems.add(item.place, "unknown-grade", f"{item.what}: grade '{grade}'")
        statuses = {
            ref.id: self.sources[ref.id].status
            for ref in citation.sources
            if ref.id in self.sources
        }
        for name, status in statuses.items():
            if grade in ("A", "B") and status in ("recalled", "judgement"):
                self.problems.add(
                    item.place,
                    "grade-above-source",
                    f"{item.what}: grade {grade} rests on {name}, which is {status}",
                )
        wanted = {"read": "A", "definition": "A", "recalled": "C", "judgement": "D"}
        wrong = grade != wanted.get(citation.method, grade)
        if wrong or (citation.method.startswith("derived") and grade == "A"):
            self.problems.add(
                item.place,
                "grade-against-method",
                f"{item.what}: grade {grade} does not go with method '{citation.method}'",
            )
        return grade

    def _number(self, item: Mapping, key: str, unit: str, *, required: bool) -> Decimal | None:
        text = item.text(key, required=required)
        if not text:
            return None
        number, _, written = text.partition(" ")
        if unit not in ("1", "pH"):
            if written != unit:
                self.problems.add(
                    item.place,
                    "unknown-unit",
                    f"{item.what}: '{text}' must be in {unit}, not '{written}'",
                )
        elif written:
            self.problems.add(
                item.place, "unknown-unit", f"{item.what}: '{text}' must have no unit"
            )
        return read_decimal(number, item.place, self.problems)

    def _value(self, key: str, entry: Entry) -> Value | None:
        kind = self.rules.kinds.get(key)
        if kind is None:
            self.problems.add(entry.place, "unknown-key", f"'{key}' is not a property")
            return None
        item = Mapping(entry.node, key, self.problems)
        item.place = entry.place
        value = self._number(item, "value", kind.unit, required=True)
        low = self._number(item, "low", kind.unit, required=False)
        high = self._number(item, "high", kind.unit, required=False)
        basis = item.text("basis")
        if basis and basis != kind.basis:
            self.problems.add(
                entry.place, "wrong-basis", f"{key} is on {kind.basis} basis, not {basis}"
            )
        citation = self._citation(item)
        grade = self._grade(item, citation)
        range_citation: Citation | None = None
        range_grade = "D"
        if (low is None) != (high is None):
            self.problems.add(entry.place, "half-range", f"{key} needs both low and high, or none")
        elif low is not None:
            range_citation, range_grade = citation, grade
            if any(
                part in (entry.node.entries or {})
                for part in ("range_source", "range_method", "range_grade")
            ):
                range_citation = self._citation(item, "range_")
                range_grade = self._grade(item, range_citation, "range_")
        item.close()
        if value is None:
            return None
        return Value(
            key, value, grade, citation, entry.place, low, high, range_grade, range_citation
        )

    def _mass(self, item: Mapping, key: str) -> Decimal:
        grams = self._number(item, key, "g", required=True)
        if grams is not None and grams <= 0:
            self.problems.add(item.place, "bad-mass", f"{item.what}: {grams} g must be above zero")
        return grams or Decimal(0)

    def _measure(self, key: str, entry: Entry) -> MeasureValue | None:
        if key not in MEASURES:
            self.problems.add(entry.place, "unknown-measure", f"'{key}' is not a measure")
            return None
        item = Mapping(entry.node, key, self.problems)
        item.place = entry.place
        grams = self._mass(item, "wet")
        low = self._number(item, "low", "g", required=False)
        high = self._number(item, "high", "g", required=False)
        citation = self._citation(item)
        grade = self._grade(item, citation)
        of = item.text("of")
        item.close()
        if (low is None) != (high is None):
            self.problems.add(entry.place, "half-range", f"{key} needs both low and high, or none")
        elif low is not None and high is not None and not 0 < low <= grams <= high:
            self.problems.add(
                entry.place,
                "value-outside-range",
                f"{key}: {grams} g is not in {low} to {high} g, above zero",
            )
        return MeasureValue(key, grams, grade, citation, of, entry.place, low, high)

    def _heap(self, entry: Entry | None) -> HeapStance | None:
        if entry is None:
            return None
        item = Mapping(entry.node, "heap", self.problems)
        item.place = entry.place
        stance = self._one_of(item, "stance", STANCES, "unknown-stance")
        citation = self._citation(item)
        grade = self._grade(item, citation)
        item.close()
        return HeapStance(stance, citation, grade, entry.place)

    def _most(self, entry: Entry) -> MostAtATime:
        item = Mapping(entry.node, "most_at_a_time", self.problems)
        item.place = entry.place
        grams = self._mass(item, "wet_per_kg_worms")
        reason = item.text("reason")
        if reason and reason not in self.rules.cap_reasons:
            self.problems.add(
                entry.place, "unknown-reason", f"'{reason}' is not a reason for a cap"
            )
        citation = self._citation(item)
        grade = self._grade(item, citation)
        note = item.text("note")
        item.close()
        return MostAtATime(grams, reason, grade, citation, note, entry.place)
