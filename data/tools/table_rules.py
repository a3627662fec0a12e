"""Rules that look across values, rows and files."""

from __future__ import annotations

from decimal import Decimal

from model import Alias, Feedstock, Rules, Table, Value, words
from problems import Problems
from stance_rules import check_stance
from sum_rules import check_sums


def check_table(table: Table, cited_elsewhere: set[str], problems: Problems) -> None:
    """Adds every problem of the table; `cited_elsewhere` are sources the reference cases use."""
    last = ""
    group = ""
    for row in table.feedstocks:
        if row.group != group:
            group, last = row.group, ""
        if row.id < last:
            problems.add(row.place, "unsorted-id", f"'{row.id}' must stand before '{last}'")
        last = max(last, row.id)
        _check_values(row, table.rules, problems)
        check_sums(row, table.rules, problems)
        check_stance(row, table.rules, problems)
    _check_names(table, problems)
    _check_sold_as(table, problems)
    _check_sources(table, cited_elsewhere, problems)


def _check_values(row: Feedstock, rules: Rules, problems: Problems) -> None:
    for value in row.values.values():
        kind = rules.kinds[value.key]
        low = value.low if value.low is not None else value.value
        high = value.high if value.high is not None else value.value
        if low > high:
            problems.add(value.place, "low-above-high", f"{value.key}: {low} is above {high}")
        elif not low <= value.value <= high:
            problems.add(
                value.place,
                "value-outside-range",
                f"{value.key}: {value.value} is not in {low} to {high}",
            )
        for number in (value.value, low, high):
            if kind.hard[0] <= number <= kind.hard[1]:
                continue
            percent = kind.unit.startswith("%") and number > kind.hard[1]
            rule = "percent-over-100" if percent else "outside-hard-range"
            problems.add(
                value.place,
                rule,
                f"{value.key}: {number} {kind.unit} is not in {kind.hard[0]} to {kind.hard[1]}",
            )
            break
        else:
            _check_plausible(value, kind.plausible, problems)
    known = "moisture" in row.values
    if not known:
        problems.add(row.place, "missing-moisture", f"'{row.id}' has no moisture")
    organic = row.decay_class not in ("", "inert") and row.kind != "guard"
    if organic and row.group != "water" and not row.pools:
        problems.add(row.place, "missing-pools", f"'{row.id}' decays but names no pool rule")


def _check_plausible(value: Value, plausible: tuple[Decimal, Decimal], problems: Problems) -> None:
    if not plausible[0] <= value.value <= plausible[1]:
        problems.add(
            value.place,
            "implausible",
            f"{value.key}: {value.value} is not in {plausible[0]} to {plausible[1]}, where real"
            " materials lie",
        )


def _check_sold_as(table: Table, problems: Problems) -> None:
    rows = {row.id: row for row in table.feedstocks}
    for row in table.feedstocks:
        if not row.sold_as:
            continue
        sold = rows.get(row.sold_as)
        drier = (
            sold is not None
            and "bedding" in row.roles
            and "bedding" in sold.roles
            and "moisture" in row.values
            and "moisture" in sold.values
            and sold.values["moisture"].value < row.values["moisture"].value
        )
        if not drier:
            problems.add(
                row.place, "bad-sold-as", f"'{row.sold_as}' is no drier bedding of the table"
            )


def _check_names(table: Table, problems: Problems) -> None:
    ids: dict[str, Feedstock] = {}
    for row in table.feedstocks:
        if row.id in ids:
            problems.add(row.place, "duplicate-id", f"'{row.id}' stands twice")
        ids[row.id] = row
    own = {words(identifier): identifier for identifier in ids}
    single: dict[str, Alias] = {}
    families: dict[str, list[Alias]] = {}
    for row in table.feedstocks:
        for alias in row.aliases:
            if alias.text == words(row.id) and not alias.part:
                continue
            if alias.text in own:
                problems.add(
                    alias.place, "alias-is-id", f"'{alias.text}' is the id {own[alias.text]}"
                )
            if alias.part:
                families.setdefault(alias.text, []).append(alias)
            elif alias.text in single:
                other = single[alias.text].feedstock
                problems.add(
                    alias.place, "duplicate-alias", f"'{alias.text}' is a name of '{other}' already"
                )
            else:
                single[alias.text] = alias
    for word, members in families.items():
        if word in single:
            problems.add(
                single[word].place, "duplicate-alias", f"'{word}' names several parts elsewhere"
            )
        ranks = sorted(alias.rank for alias in members)
        if ranks != list(range(len(ranks))):
            problems.add(
                members[-1].place, "bad-part", f"ranks of '{word}' are {ranks}, not 0, 1, 2 ..."
            )
        parts = [alias.part for alias in members]
        if len(set(parts)) != len(parts):
            problems.add(members[-1].place, "bad-part", f"a part of '{word}' stands twice")


def _check_sources(table: Table, cited_elsewhere: set[str], problems: Problems) -> None:
    # House rules are applied by name, in the tools and in the library; no row needs to cite them.
    used = {identifier for identifier in table.sources if identifier.startswith("RULE-")}
    used |= cited_elsewhere
    formulas = " ".join(table.rules.formulas.values())
    used |= {identifier for identifier in table.sources if identifier in formulas}
    for row in table.feedstocks:
        citations = [value.citation for value in row.values.values()]
        citations += [v.range_citation for v in row.values.values() if v.range_citation]
        citations += [measure.citation for measure in row.measures.values()]
        if row.most:
            citations.append(row.most.citation)
        if row.heap:
            citations.append(row.heap.citation)
        used |= {ref.id for citation in citations for ref in citation.sources}
    for source in table.sources.values():
        if source.id not in used:
            problems.add(source.place, "unused-source", f"nothing cites '{source.id}'")
