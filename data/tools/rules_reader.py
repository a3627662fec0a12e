"""Reads properties.yaml and sources.yaml."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from pathlib import Path

from model import (
    DECAY_CLASSES,
    GROUPS,
    MEASURES,
    SOURCE_STATUSES,
    PoolRule,
    PropertyKind,
    Rules,
    Source,
    Triple,
)
from problems import Place, Problems
from yaml_reader import Entry, Mapping, Node, read_file


def read_decimal(text: str, place: Place, problems: Problems) -> Decimal | None:
    """A plain decimal number; anything else, such as "1e3", "nan" or "0,5", is a problem."""
    digits = text.removeprefix("-").replace(".", "", 1)
    try:
        if not digits.isascii() or not digits.isdigit():
            raise InvalidOperation
        return Decimal(text)
    except InvalidOperation:
        problems.add(place, "bad-number", f"'{text}' is not a plain decimal number")
        return None


def _number(node: Node, problems: Problems) -> Decimal:
    if node.text is None:
        problems.add(node.place, "bad-number", "a number is wanted here")
        return Decimal(0)
    return read_decimal(node.text, node.place, problems) or Decimal(0)


def _numbers(entry: Entry | None, count: int, problems: Problems) -> list[Decimal]:
    if entry is None:
        return [Decimal(0)] * count
    if entry.node.items is None or len(entry.node.items) != count:
        problems.add(entry.place, "wrong-kind", f"a list of {count} numbers is wanted here")
        return [Decimal(0)] * count
    return [_number(item, problems) for item in entry.node.items]


def _triple(entry: Entry | None, problems: Problems) -> Triple:
    value, low, high = _numbers(entry, 3, problems)
    if entry is not None and not low <= value <= high:
        problems.add(entry.place, "low-above-high", f"{low} <= {value} <= {high} does not hold")
    return Triple(value, low, high)


def _entries(entry: Entry | None) -> dict[str, Entry]:
    return {} if entry is None or entry.node.entries is None else entry.node.entries


def read_rules(path: Path, problems: Problems) -> Rules:
    rules = Rules()
    root = read_file(path, problems)
    if root is None:
        return rules
    top = Mapping(root, path.name, problems)
    rules.data_version = top.text("data_version")
    for key, entry in _entries(top.require("properties")).items():
        item = Mapping(entry.node, f"property '{key}'", problems)
        hard = _numbers(item.require("hard"), 2, problems)
        plausible = _numbers(item.require("plausible"), 2, problems)
        rules.kinds[key] = PropertyKind(
            key=key,
            stored=item.text("stored"),
            basis=item.text("basis"),
            unit=item.text("unit"),
            hard=(hard[0], hard[1]),
            plausible=(plausible[0], plausible[1]),
            about=item.text("about"),
            place=entry.place,
        )
        item.close()
    ranges = _entries(top.require("default_ranges"))
    for group, entry in ranges.items():
        rules.default_ranges[group] = {
            key: _number(item.node, problems) for key, item in _entries(entry).items()
        }
    for group, entry in _entries(top.require("default_factors")).items():
        rules.default_factors[group] = {
            key: _number(item.node, problems) for key, item in _entries(entry).items()
        }
    spreads = _entries(top.require("measure_ranges"))
    rules.measure_ranges = {key: _number(item.node, problems) for key, item in spreads.items()}
    for name in MEASURES:
        if name not in spreads:
            problems.add(top.place, "missing-key", f"measure '{name}' has no range")
    for name, entry in _entries(top.require("kinds")).items():
        rules.feedstock_kinds[name] = entry.node.text or ""
    for key, entry in _entries(top.require("estimates")).items():
        if key not in rules.kinds:
            problems.add(entry.place, "unknown-key", f"'{key}' is not a property")
        rules.estimates[key] = {
            kind: _triple(item, problems) for kind, item in _entries(entry).items()
        }
        for kind in rules.estimates[key]:
            if kind not in rules.feedstock_kinds:
                problems.add(entry.place, "unknown-kind", f"'{kind}' is not a kind")
    bands = top.require("acid_by_ph")
    for node in (bands.node.items or ()) if bands else ():
        below, value, low, high = _numbers(Entry(node.place, node), 4, problems)
        rules.acid_by_ph.append((below, Triple(value, low, high)))
    cap = top.require("settled_cap")
    rules.settled_cap = _number(cap.node, problems) if cap else Decimal(0)
    for group, entry in _entries(top.require("settled_factors")).items():
        rules.settled_factors[group] = _triple(entry, problems)
    for group in GROUPS:
        parts = (ranges, rules.default_factors, rules.settled_factors)
        if any(group not in part for part in parts):
            problems.add(top.place, "missing-key", f"group '{group}' has no default ranges")
    for name, entry in _entries(top.require("cap_budgets")).items():
        rules.cap_budgets[name] = _number(entry.node, problems)
    for name, entry in _entries(top.require("cap_reasons")).items():
        rules.cap_reasons[name] = entry.node.text or ""
    for name, entry in _entries(top.require("quick_nitrogen")).items():
        rules.quick_nitrogen[name] = _number(entry.node, problems)
    for name, entry in _entries(top.require("decay_classes")).items():
        rules.decay_classes[name] = entry.node.text or ""
        if name not in DECAY_CLASSES:
            problems.add(entry.place, "unknown-decay-class", f"'{name}' is not a decay class")
    for name, entry in _entries(top.require("pool_rules")).items():
        item = Mapping(entry.node, f"pool rule '{name}'", problems)
        cap = item.require("lignin_cap")
        rules.pool_rules[name] = PoolRule(
            name=name,
            about=item.text("about"),
            from_lignin=item.text("from_lignin") == "true",
            labile_of_rest=_triple(item.require("labile_of_rest"), problems),
            lignin_like=_triple(item.require("lignin_like"), problems),
            lignin_cap=_number(cap.node, problems) if cap else Decimal(0),
        )
        item.close()
    for name, entry in _entries(top.require("formulas")).items():
        rules.formulas[name] = entry.node.text or ""
    top.close()
    return rules


def read_sources(path: Path, problems: Problems) -> dict[str, Source]:
    root = read_file(path, problems)
    if root is None:
        return {}
    top = Mapping(root, path.name, problems)
    listed = top.require("sources")
    sources: dict[str, Source] = {}
    last = ""
    for node in (listed.node.items or ()) if listed else ():
        item = Mapping(node, "source", problems)
        source = Source(
            id=item.text("id"),
            citation=item.text("citation"),
            covers=item.text("covers"),
            licence=item.text("licence"),
            status=item.text("status"),
            remark=item.text("remark", required=False),
            place=node.place,
        )
        item.close()
        if source.status and source.status not in SOURCE_STATUSES:
            problems.add(node.place, "unknown-status", f"'{source.status}' is not a source status")
        if source.id in sources:
            problems.add(node.place, "duplicate-source", f"source '{source.id}' stands twice")
        elif source.id < last:
            problems.add(node.place, "unsorted-id", f"'{source.id}' must stand before '{last}'")
        last = max(last, source.id)
        sources[source.id] = source
    top.close()
    return sources
