"""How answers show: repr, notebook tables, pandas, pictures."""

from __future__ import annotations

import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

import libfeed

# Invented: two feeds in two bins; the rind is gone by day 6, the pumpkin not by day 12.
TRIAL = """libfeed: 1
trial: {feeds: [watermelon rind, pumpkin], bins: 2, seed: 7, last_day: 12, start: 2026-03-01}
observations:
  - {date: 2026-03-04, plots: plots 1-4 not gone}
  - {date: 2026-03-07, plots: plots 1-4 half left}
"""


class Balanced(HTMLParser):
    """Checks that every tag is closed in its turn, and collects the text."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


def read_html(text: str) -> str:
    parser = Balanced()
    parser.feed(text)
    assert parser.open == []
    return parser.text


@pytest.fixture(scope="module")
def answer() -> libfeed.Answer:
    return libfeed.balance(["1.2 kg kitchen scraps", "cardboard", "water"])


@pytest.fixture(scope="module")
def ahead() -> libfeed.Forecast:
    bed = libfeed.Bed(container="tote", worms_wet_kg=0.5, temperature_c=(18, 22), squeeze="damp")
    return libfeed.forecast(bed, [libfeed.Feeding(0, ["500 g kitchen scraps"])], days=21)


def test_reprs_name_the_thing() -> None:
    coffee = libfeed.feedstock("coffee grounds")
    assert repr(coffee).startswith("<Feedstock coffee-grounds, moisture ")
    assert repr(coffee["moisture"]).startswith("<Value moisture ")
    assert repr(libfeed.Portion(coffee, "250 g")) == "<Portion 0.25 kg coffee-grounds, 250 g>"
    assert repr(libfeed.blend(["1 kg water"])) == "<Blend 1 kg, moisture 1>"
    assert repr(libfeed.balance(["1 kg banana peel"], target_set=None)).startswith("<Answer solved")


def test_html_of_every_answer(answer: libfeed.Answer, ahead: libfeed.Forecast) -> None:
    checked = libfeed.check(libfeed.Bed(), ["500 g kitchen scraps"])
    answers: list[tuple[Any, str]] = [
        (libfeed.feedstock("coffee grounds"), "moisture"),
        (libfeed.blend(["1 kg coffee grounds"]), "C:N ratio"),
        (answer, "kitchen scraps"),
        (checked, "overfed"),
        (checked.ration, "kitchen scraps"),
        (ahead, "day 21"),
    ]
    for shown, words in answers:
        assert words in read_html(shown._repr_html_())


def test_html_escapes_the_keepers_words() -> None:
    made, _ = libfeed.own_feedstock("<script>x</script>", like="coffee grounds")
    entry = libfeed.Entry(made, "1 kg", label="<b>bold</b>")
    text = libfeed.balance([entry, "cardboard", "water"])._repr_html_()
    assert "<b>" not in text
    assert "<script>" not in made._repr_html_()
    assert "<b>bold</b>" in read_html(text)


def test_pandas_tables(answer: libfeed.Answer, ahead: libfeed.Forecast) -> None:
    pandas = pytest.importorskip("pandas")
    blend = libfeed.to_pandas(answer.blend)
    assert blend.loc["moisture", "value"] == answer.blend.moisture.value
    reached = libfeed.to_pandas(answer)
    assert bool(reached.loc["moisture", "inside"])
    days = libfeed.to_pandas(ahead)
    assert len(days) == 22
    assert (days["moisture_low"] <= days["moisture_high"]).all()
    table = libfeed.to_pandas(libfeed.feedstocks())
    assert (
        table.loc["coffee-grounds", "moisture"]
        == libfeed.feedstock("coffee-grounds")["moisture"].value
    )
    assert pandas.isna(table.loc["water-tap", "cn_ratio"])
    hazards = libfeed.to_pandas(libfeed.check(libfeed.Bed(), ["500 g kitchen scraps"]))
    assert len(hazards) == 11
    ration = libfeed.ration(libfeed.Bed(), ["500 g kitchen scraps"])
    table = libfeed.to_pandas(ration)
    assert table["wet_kg"].sum() == pytest.approx(sum(one.wet_kg for one in ration.put_in))


def test_region_holds_the_answer_and_the_blends_one_can_make() -> None:
    from libfeed.plot import reachable_region

    problem = libfeed.Problem(["1 kg kitchen scraps", "cardboard", "water"])
    moistures, lowest, highest = reachable_region(problem, total_wet_kg=4.0, points=60)
    assert moistures == sorted(moistures)
    assert len(moistures) == 60
    for cardboard_kg, water_kg in [(0.0, 0.0), (0.5, 0.0), (0.5, 1.5), (1.5, 1.5), (0.1, 2.9)]:
        made = libfeed.blend(
            [
                "1 kg kitchen scraps",
                libfeed.Portion("cardboard", wet_kg=cardboard_kg),
                libfeed.Portion("water", wet_kg=water_kg),
            ]
        )
        moisture, ratio = float(made.moisture), float(made.cn_ratio)
        at = min(range(60), key=lambda i: abs(moistures[i] - moisture))
        neighbours = range(max(0, at - 1), min(60, at + 2))
        assert min(lowest[i] for i in neighbours) * (1 - 1e-9) <= ratio
        assert ratio <= max(highest[i] for i in neighbours) * (1 + 1e-9)


def test_pictures_are_drawn(tmp_path: Path, ahead: libfeed.Forecast) -> None:
    matplotlib = pytest.importorskip("matplotlib")
    matplotlib.use("Agg")
    from matplotlib import pyplot
    from matplotlib.figure import Figure

    import libfeed.plot

    problem = libfeed.Problem(
        [
            "1.2 kg kitchen scraps",
            libfeed.Entry("banana peel", most="8 piece"),
            "cardboard",
            "water",
        ]
    )
    region = libfeed.plot.reachable(problem)
    assert "moisture" in region.get_xlabel()
    legend = region.get_legend()
    assert legend is not None
    assert "answer" in [text.get_text() for text in legend.get_texts()]
    bars = libfeed.plot.trial(libfeed.read_trial(libfeed.read_feed_text(TRIAL)))
    assert len(bars.lines) == 4  # one for each portion
    figure = libfeed.plot.forecast(ahead)
    assert len(figure.axes) == 4
    chart = libfeed.plot.feedstock_map(label=["coffee-grounds"])
    assert [text.get_text() for text in chart.texts if "Coffee" in text.get_text()]
    for number, drawn in enumerate(
        (
            region.figure,
            figure,
            chart.figure,
            bars.figure,
        )
    ):
        assert isinstance(drawn, Figure)
        drawn.savefig(tmp_path / f"{number}.png")
        assert (tmp_path / f"{number}.png").stat().st_size > 10_000
    pyplot.close("all")


def test_package_needs_neither_pandas_nor_matplotlib() -> None:
    program = (
        "import sys; sys.modules['pandas'] = None; sys.modules['matplotlib'] = None;"
        "import libfeed, libfeed.plot; print(libfeed.blend(['1 kg water']))\n"
        "try: libfeed.to_pandas(libfeed.feedstocks())\n"
        "except ImportError: print('no pandas')"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    assert re.search(r"<Blend 1 kg, moisture 1>\s+no pandas", done.stdout)
