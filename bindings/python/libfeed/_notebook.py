"""How answers look in notebooks: small HTML tables with units, ranges and grades."""

from __future__ import annotations

from html import escape
from typing import Any

from ._core import (
    Answer,
    Blend,
    CheckResult,
    DiaryNews,
    Estimate,
    Feedstock,
    Forecast,
    Ration,
    Signs,
    TrialPlan,
    TrialReading,
)

_UNITS = {
    "_kg_m3": "kg/m3",
    "_kg": "kg",
    "_l": "L",
    "_g_citric": "g citric acid",
    "_g_caco3": "g CaCO3",
    "_g": "g",
}


def _number(number: float | None) -> str:
    return "" if number is None else f"{number:.3g}"


def _table(title: str, head: list[str], rows: list[list[str]], below: list[str]) -> str:
    """A table; every text is escaped here and nowhere else."""
    cells = "".join(f"<th>{escape(name)}</th>" for name in head)
    body = "".join(
        "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in rows
    )
    notes = "".join(f"<li>{escape(text)}</li>" for text in below)
    return (
        f"<table><caption>{escape(title)}</caption><thead><tr>{cells}</tr></thead>"
        f"<tbody>{body}</tbody></table>" + (f"<ul>{notes}</ul>" if notes else "")
    )


def _estimate_cells(estimate: Estimate) -> list[str]:
    if estimate.is_known:
        range_text = f"{_number(estimate.low)} to {_number(estimate.high)}"
        return [_number(estimate.value), range_text, estimate.grade]
    if estimate.at_least is not None:
        return [f"at least {_number(estimate.at_least)}", "", estimate.grade]
    return ["unknown", "", ""]


def _unit_of(key: str) -> str:
    return next((unit for ending, unit in _UNITS.items() if key.endswith(ending)), "")


def _words_of(key: str) -> str:
    ending = next((ending for ending in _UNITS if key.endswith(ending)), "")
    return key[: len(key) - len(ending)].replace("_", " ").replace("cn ratio", "C:N ratio")


def _feedstock_html(self: Feedstock) -> str:
    rows = [
        [
            key.replace("_", " "),
            _number(value.value),
            f"{_number(value.low)} to {_number(value.high)}",
            value.unit,
            value.basis,
            value.grade,
            value.sources,
        ]
        for key, value in self.values.items()
    ]
    head = ["property", "value", "range", "unit", "basis", "grade", "sources"]
    return _table(f"{self.name} ({self.group})", head, rows, [self.note] if self.note else [])


def _blend_html(self: Blend) -> str:
    keys = [key for key in self.to_dict() if isinstance(getattr(self, key, None), Estimate)]
    rows = [[_words_of(key), *_estimate_cells(self[key]), _unit_of(key)] for key in keys]
    return _table(
        f"Blend of {_number(self.wet_mass_kg)} kg",
        ["quantity", "value", "range", "grade", "unit"],
        rows,
        self.assumed,
    )


def _answer_html(self: Answer) -> str:
    portions = [
        [portion.label, portion.measure, f"{_number(portion.wet_kg)} kg"]
        for portion in self.portions
    ]
    reached = [
        [
            key.replace("_", " "),
            *_estimate_cells(one.quantity),
            _number(one.target.low),
            _number(one.target.high),
            "yes" if one.inside else "no",
            "yes" if one.binding else "",
        ]
        for key, one in self.reached.items()
    ]
    notes = [f"Conflict: {', '.join(self.conflict)}."] if self.conflict else []
    if self.mend is not None:
        notes.append(f"Adding {_number(self.mend.add_wet_kg)} kg {self.mend.label} would mend it.")
    notes += self.advice
    head = ["target", "value", "range", "grade", "at least", "at most", "inside", "decides"]
    return _table(f"Balance: {self.status}", ["take", "measure", "wet mass"], portions, []) + (
        _table("Reached", head, reached, notes + self.assumed)
    )


def _ration_html(self: Ration) -> str:
    rows = [
        [one.label, one.part, one.measure if one.at_hand else f"{one.measure} (not at hand)"]
        for one in self.put_in
    ]
    below = [caution.text for caution in self.cautions] + self.assumed
    return _table("Ration: " + " ".join(self.lines()), ["put in", "as", "measure"], rows, below)


def _check_html(self: CheckResult) -> str:
    rows = [[word, finding.level, finding.why] for word, finding in self.hazards.items()]
    below = [caution.text for caution in self.cautions] + self.assumed
    title = "Check: " + " ".join(self.ration.lines())
    return _table(title, ["hazard", "level", "why"], rows, below)


def _forecast_html(self: Forecast) -> str:
    days = sorted({0, self.days // 4, self.days // 2, 3 * self.days // 4, self.days})
    keys = ["moisture", "food_left_wet_kg", "acid_g_citric", "temperature_c", "cn_ratio"]
    rows: list[list[str]] = []
    for key in keys:
        series = self[key]
        cells = [f"{series.value[d]:.3g} ({series.low[d]:.3g}-{series.high[d]:.3g})" for d in days]
        rows.append([key.replace("_", " "), *cells])
    below = [self.harvest_reason, self.new_bedding_reason, *self.assumed]
    return _table("Forecast", ["", *(f"day {d}" for d in days)], rows, [t for t in below if t])


def _signs_html(self: Signs) -> str:
    rows = [
        [cause.name, f"{100 * cause.share:.0f} %", cause.why, cause.test, cause.remedy.text]
        for cause in self.causes
    ]
    head = ["cause", "likelihood", "the bed says", "quick test", "step"]
    return _table("Signs", head, rows, [self.text, *self.assumed])


def _news_html(self: DiaryNews) -> str:
    rows = [
        [
            newest.parameter.removesuffix("_rate_per_day").replace("_", " "),
            f"{_number(newest.after_per_day)} ({_number(newest.after_low_per_day)} to"
            f" {_number(newest.after_high_per_day)})",
            _number(before.after_per_day),
            f"{_number(newest.before_per_day)} ({_number(newest.before_low_per_day)} to"
            f" {_number(newest.before_high_per_day)})",
        ]
        for newest, before in zip(self.calibration.rates, self.before.rates)  # noqa: B905
    ]
    below = [f"From {self.calibration.used} looks; in brackets where nine in ten lie."]
    below += [text for text in (self.look_back, *self.misfits, *self.slips) if text]
    head = ["rate a day at 25 C", "this bin", "before the newest look", "published"]
    return _table(f"Diary of {self.observations} observations", head, rows, below)


def _plan_html(self: TrialPlan) -> str:
    said = self.to_dict()
    rows = [
        [feed["feed"], feed["measure"], _number(feed["expected_gone_days"])]
        for feed in said["feeds"]
    ]
    head = ["feed", "a portion", "gone by day, about"]
    return _table(f"Trial, seed {self.seed}", head, rows, self.text.splitlines())


def _reading_html(self: TrialReading) -> str:
    said = self.to_dict()
    rows = [
        [f"{pair['first']}, {pair['second']}", pair["verdict"], _number(pair["luck"]["p"])]
        for pair in said["pairs"]
    ]
    return _table("Trial", ["feeds", "told apart", "by luck"], rows, self.text.splitlines())


def teach_notebooks() -> None:
    """Gives the answers their form in notebooks."""
    forms: dict[type, Any] = {
        Feedstock: _feedstock_html,
        Blend: _blend_html,
        Answer: _answer_html,
        CheckResult: _check_html,
        Ration: _ration_html,
        Forecast: _forecast_html,
        Signs: _signs_html,
        DiaryNews: _news_html,
        TrialPlan: _plan_html,
        TrialReading: _reading_html,
    }
    for kind, form in forms.items():
        kind._repr_html_ = form  # type: ignore[attr-defined]
