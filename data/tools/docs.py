"""Writes docs/feedstocks.md: every value with range, grade and source, group by group."""

from __future__ import annotations

from fill import FullValue, full_values, measure_range
from model import GROUPS, Citation, Feedstock, Rules, Table

TITLES = {
    "scraps": "Scraps",
    "beddings": "Beddings",
    "manures": "Manures",
    "amendments": "Amendments",
    "water": "Water",
    "guarded": "Refused or dosed with care",
}
STANCES = {"feed": "feed", "feed_little": "feed little", "avoid": "avoid"}


def cell(text: str) -> str:
    return text.replace("|", "\\|")


def number_text(value: FullValue, rules: Rules) -> str:
    unit = rules.kinds[value.key].unit
    unit = "" if unit in ("1", "pH") else f" {unit}"
    return f"{value.value.normalize():f}{unit}"


def range_text(value: FullValue) -> str:
    if value.low == value.high:
        return "exact"
    return f"{value.low.normalize():f} to {value.high.normalize():f}"


RULES = {
    "RULE-RANGE": "default",
    "RULE-EST": "estimate",
    "RULE-SETTLED": "settled factor",
    "RULE-POOL": "pool rule",
}


def source_text(citation: Citation) -> str:
    """Sources with their records and the formula, short enough for a table cell."""
    name = citation.sources[0].id
    if name in RULES and citation.method != "judgement":
        return RULES[name]
    parts = [" ".join((source.id, *source.records)) for source in citation.sources]
    text = cell(", ".join(parts))
    if citation.method.startswith("derived "):
        return f"{text} ({citation.method.removeprefix('derived ')})"
    return text if citation.method == "read" else f"{text} ({citation.method})"


def value_line(value: FullValue, rules: Rules) -> str:
    basis = rules.kinds[value.key].basis
    name = value.key.replace("_", " ") + ("" if basis == "none" else f", {basis}")
    source, spread = source_text(value.citation), source_text(value.range_citation)
    return (
        f"| {name} | {number_text(value, rules)} | {value.grade} | {source} | {range_text(value)} |"
        f" {value.range_grade} | {'' if spread == source else spread} |"
    )


def feedstock_lines(row: Feedstock, rules: Rules) -> list[str]:
    facts = [
        f"roles: {', '.join(row.roles)}",
        STANCES[row.stance],
        f"decay: {row.decay_class.replace('_', ' ')}",
    ]
    if row.heap:
        facts[1] += f" (in a heap: {STANCES[row.heap.stance]})"
    if row.stance_pre_composted:
        facts[1] += f" (pre-composted: {STANCES[row.stance_pre_composted]})"
    if row.cautions:
        facts.append(f"cautions: {', '.join(c.replace('_', ' ') for c in row.cautions)}")
    lines = [f"### {row.name}", "", f"`{row.id}` - {'; '.join(facts)}.", ""]
    if row.most:
        lines += [
            f"At most {row.most.wet_grams.normalize():f} g at a time for each kg of worms"
            f" ({row.most.note}; because of {rules.cap_reasons[row.most.reason]};"
            f" grade {row.most.grade}).",
            "",
        ]
    if row.why_barred:
        lines += [f"Never: {row.why_barred}. Instead: {row.instead}.", ""]
    if row.preparation:
        lines += [row.preparation, ""]
    if row.note:
        lines += [f"{row.note}.", ""]
    names = [a.text for a in row.aliases if not a.part and a.text != row.id.replace("-", " ")]
    parts = [f"{a.text} ({a.part})" for a in row.aliases if a.part]
    if names or parts:
        lines += [f"Also found as: {', '.join(names + parts)}.", ""]
    lines += [
        "| property, basis | value | grade | source | range | grade | range from |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]
    lines += [value_line(value, rules) for value in full_values(row, rules)]
    lines.append("")
    if row.measures:
        lines += [
            "| measure | wet mass | may be | grade | source | of |",
            "| --- | --- | --- | --- | --- | --- |",
        ]
        for m in row.measures.values():
            low, high = measure_range(row, m, rules)
            lines.append(
                f"| {m.measure.replace('_', ' ')} | {m.wet_grams.normalize():f} g |"
                f" {low.normalize():f} to {high.normalize():f} g | {m.grade} |"
                f" {source_text(m.citation)} | {cell(m.of)} |"
            )
        lines.append("")
    return lines


def grade_counts(table: Table) -> list[str]:
    counts = {grade: [0, 0] for grade in "ABCD"}
    for row in table.feedstocks:
        for value in full_values(row, table.rules):
            counts[value.grade][0] += 1
            counts[value.range_grade][1] += 1
    lines = ["| grade | meaning | values | ranges |", "| --- | --- | --- | --- |"]
    meanings = {
        "A": "read in its source",
        "B": "derived from such values, formula named",
        "C": "recalled, or derived from a recalled value",
        "D": "a judgement of this project",
    }
    lines += [f"| {g} | {meanings[g]} | {n} | {r} |" for g, (n, r) in counts.items()]
    return lines


def feedstock_page(table: Table) -> str:
    """The whole page."""
    lines = [
        "<!-- Generated by data/tools/generate.py from data/*.yaml; do not edit. -->",
        "# Feedstocks",
        "",
        f"{len(table.feedstocks)} feedstocks, version {table.rules.data_version} of the table."
        " What is not listed is unknown, never zero. The range is what a keeper's material may"
        " be, not an error of the mean; an empty last cell means the source of the value."
        " Read values name their source and its record, derived ones the formula too (F1 ...),"
        " listed below."
        " `default`, `estimate`, `settled factor` and `pool rule` are the house rules of"
        " [data/properties.yaml](../data/properties.yaml), all judgements. How to edit:"
        " [data/README.md](../data/README.md).",
        "",
        *grade_counts(table),
        "",
        "![Every feedstock with a C:N ratio, by C:N and moisture: beddings dry and rich in carbon"
        " at the upper left, most scraps wet on the right, manures and meals below; the targets of"
        " a worm bed lie between](pictures/feedstock_map.svg)",
        "",
        "The targets are for a whole feeding: scraps lie right of them and beddings far above, and"
        " a blend of both between.",
        "",
        "Groups: "
        + ", ".join(f"[{TITLES[g]}](#{TITLES[g].lower().replace(' ', '-')})" for g in GROUPS)
        + ", [formulas](#formulas), [sources](#sources).",
        "",
    ]
    for group in GROUPS:
        lines += [f"## {TITLES[group]}", ""]
        for row in sorted((r for r in table.feedstocks if r.group == group), key=lambda r: r.id):
            lines += feedstock_lines(row, table.rules)
    lines += ["## Formulas", ""]
    lines += [f"- {name}: {text}." for name, text in table.rules.formulas.items()]
    lines += [
        "",
        "## Sources",
        "",
        "| id | citation | status | licence |",
        "| --- | --- | --- | --- |",
    ]
    for source in sorted(table.sources.values(), key=lambda item: item.id):
        remark = f" {source.remark}" if source.remark else ""
        lines.append(
            f"| {source.id} | {cell(source.citation + remark)} | {source.status} |"
            f" {cell(source.licence)} |"
        )
    return "\n".join(lines) + "\n"
