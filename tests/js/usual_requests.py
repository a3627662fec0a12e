"""What the npm package is measured with: one request of each usual kind."""

from __future__ import annotations

import datetime
from typing import Any

DAY = datetime.date(2026, 3, 14)
BIN: dict[str, Any] = {
    "libfeed": 1,
    "bed": {
        "container": "60 L tote",
        "worms": "1 lb",
        "temperature": "20 C",
        "date": DAY.isoformat(),
    },
}
BLEND = ["300 g carrot", "50 g coffee grounds", "40 g shredded cardboard"]
WEEKS = 26
TRIAL = {"feeds": ["watermelon rind", "pumpkin"], "bins": 6, "seed": 7}


def half_a_year() -> dict[str, Any]:
    days = [(DAY + datetime.timedelta(days=7 * i // 2)).isoformat() for i in range(2 * WEEKS)]
    feedings = [{"date": day, "portions": BLEND} for day in days]
    looks = [{"date": day, "squeeze": "damp", "smell": "earthy"} for day in days]
    return {**BIN, "feedings": feedings, "observations": looks}


REQUESTS: dict[str, dict[str, Any]] = {
    "blend": {"verb": "blend", "things": BLEND},
    "balance": {"verb": "balance", "things": ["1 kg carrot", "shredded cardboard", "water"]},
    "ration": {"verb": "ration", "file": {**BIN, "blend": BLEND}},
    "check": {"verb": "check", "file": {**BIN, "blend": BLEND}},
    "forecast": {"verb": "forecast", "file": {**BIN, "blend": BLEND}},
    "note": {"verb": "note", "file": BIN, "words": "fed 3 apples", "date": DAY.isoformat()},
    "ration, half a year of looks": {"verb": "ration", "file": half_a_year()},
    "the whole table": {"verb": "table"},
    "plan of a trial": {"verb": "trial plan", "file": {**BIN, "trial": TRIAL}},
    "the same with its sheet": {
        "verb": "trial plan",
        "file": {**BIN, "trial": TRIAL},
        "sheet": "svg",
    },
}
