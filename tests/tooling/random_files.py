"""Feed files as keepers might write them, made from a seed: the same seed gives the same files.

    random_files.py FOLDER --feed COMMAND [--count 2000] [--seed 1]

Each file has one verb in its name (blend, balance, check, forecast) and every section that verb
reads; about one in thirty carries a slip, so that refusals are compared too. All are invented.
"""

from __future__ import annotations

import argparse
import datetime
import json
import random
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

VERBS = ("blend", "balance", "check", "forecast")
FIRST_DAY = datetime.date(2026, 3, 2)
SLIPS = ("unit", "name", "key", "window", "percent")
OBJECTIVES = ("", "closest to the aims", "closest to the usual", "least added", "cheapest",
              "use up most")  # fmt: skip
PREPARATIONS = ("chopped", "blended", "frozen and thawed", "drained", "soaked", "dried",
                "pre-composted", "frozen and thawed, drained")  # fmt: skip


class Shelves:
    """The feedstocks to draw from, by group; `rows` is what `feed table --json` lists."""

    def __init__(self, rows: Sequence[dict[str, Any]]) -> None:
        self.by_group: dict[str, list[str]] = {}
        for row in sorted(rows, key=lambda row: str(row["id"])):
            group = "barred" if row["stance"] == "avoid" else str(row["group"])
            self.by_group.setdefault(group, []).append(str(row["id"]))

    def of(self, group: str) -> list[str]:
        return self.by_group.get(group) or self.by_group["scraps"]


def rounded(number: float) -> str:
    return f"{number:.3g}" if number < 1000 else f"{number:.0f}"


class Writer:
    """Writes one file after the other from one stream of random numbers."""

    def __init__(self, shelves: Shelves, seed: int) -> None:
        self.shelves = shelves
        self.random = random.Random(seed)
        self.own: list[str] = []

    def chance(self, share: float) -> bool:
        return self.random.random() < share

    def between(self, low: float, high: float) -> float:
        return (
            low * (high / low) ** self.random.random() if low > 0 else high * self.random.random()
        )

    def mass(self, low: float = 0.05, high: float = 2.0) -> str:
        kilograms = self.between(low, high)
        form = self.random.randrange(10)
        if form < 6:
            return f"{rounded(kilograms)} kg"
        if form < 8:
            return f"{rounded(kilograms * 1000)} g"
        return f"{rounded(kilograms / 0.45359237)} lb"

    def amount(self, low: float = 0.05, high: float = 2.0) -> str:
        """A weight, or now and then a volume."""
        if self.chance(0.7):
            return self.mass(low, high)
        return f"{rounded(self.between(low, high) * 3)} {self.random.choice(('L', 'cups', 'pail'))}"

    def name(self, group: str) -> str:
        if self.own and group in ("scraps", "beddings") and self.chance(0.15):
            return self.random.choice(self.own)
        return self.random.choice(self.shelves.of(group))

    # -- feedstocks of the keeper's own ---------------------------------------------------------

    def percent(self, low: float, high: float, ranged: float = 0.5) -> str:
        middle = self.between(low, high)
        if not self.chance(ranged):
            return f"{rounded(middle)} %"
        return f"{rounded(middle * 0.9)} % to {rounded(min(middle * 1.1, 99.0))} %"

    def own_feedstock(self) -> dict[str, Any]:
        form = self.random.randrange(4)
        if form == 0:
            group = self.random.choice(("scraps", "beddings"))
            return {"like": self.random.choice(self.shelves.of(group)),
                    "moisture": self.percent(20, 90)}  # fmt: skip
        if form == 1:
            parts = [("protein", 0.3, 12), ("fat", 0.1, 15), ("carbohydrate", 1, 30)]
            parts += [
                part
                for part in (("fibre", 0.5, 8), ("salt", 0.01, 2), ("ash", 0.3, 2))
                if self.chance(0.6)
            ]
            label = {name: f"{rounded(self.between(low, high))} g" for name, low, high in parts}
            return {"nutrition_label": label}
        if form == 2:
            report = {"basis": self.random.choice(("dry", "as received")),
                      "moisture": f"{rounded(self.between(20, 85))} %",
                      "nitrogen": f"{rounded(self.between(0.1, 4))} %"}  # fmt: skip
            second = self.random.choice(("carbon", "cn_ratio", "volatile_solids"))
            report[second] = (
                f"{rounded(self.between(8, 60))}"
                if second == "cn_ratio"
                else f"{rounded(self.between(5, 14))} %"
                if report["basis"] == "as received"
                else f"{rounded(self.between(30, 50))} %"
            )
            return {"laboratory_report": report}
        own: dict[str, Any] = {"moisture": self.percent(3, 92)}
        own["roles"] = self.random.choice(("scraps", "bedding", ["scraps", "bedding"]))
        gaps = (
            ("carbon", self.percent(30, 50)), ("nitrogen", self.percent(0.2, 4)),
            ("ash", self.percent(1, 20)), ("lignin", self.percent(1, 20)),
            ("fat", self.percent(0.3, 12)),
            ("titratable_acidity", f"{rounded(self.between(0.2, 15))} g/kg"),
            ("sodium", f"{rounded(self.between(2, 800))} mg/100 g"),
            ("bulk_density", f"{rounded(self.between(40, 900))} kg/m3"),
            ("water_holding_capacity", f"{rounded(self.between(0.5, 6))} g/g"),
            ("decay_class", self.random.choice(("fast", "medium", "slow", "very slow", "inert"))),
        )  # fmt: skip
        own.update({key: value for key, value in gaps if self.chance(0.6)})
        if "carbon" not in own and self.chance(0.7):
            own["cn_ratio"] = rounded(self.between(8, 300))
        return own

    # -- portions, entries, targets -------------------------------------------------------------

    def portion(self, group: str, low: float, high: float) -> Any:
        name = self.name(group)
        # An own feedstock may say nothing of its density; a volume of it is then refused.
        amount = self.mass(low, high) if name in self.own else self.amount(low, high)
        if self.chance(0.85):
            return f"{amount} {name}"
        return {"feedstock": name, "amount": amount,
                "preparation": self.random.choice(PREPARATIONS)}  # fmt: skip

    def portions(self) -> list[Any]:
        size = self.between(0.1, 4)
        made = [self.portion("scraps", 0.05 * size, size) for _ in range(self.random.randint(1, 4))]
        if self.chance(0.15):
            made.append(self.portion(self.random.choice(("guarded", "manures")), 0.01, size / 3))
        for _ in range(self.random.randrange(3)):
            made.append(self.portion("beddings", 0.02 * size, size / 2))
        if self.chance(0.3):
            made.append(f"{rounded(self.between(0.05, size))} L water")
        if self.chance(0.25):
            made.append(self.portion("amendments", 0.005, 0.2))
        if self.chance(0.03):
            made.append(self.portion("barred", 0.02, 0.3))
        return made

    def entry_amount(self) -> str:
        low = self.between(0.05, 1.5)
        return self.random.choice((
            f"{rounded(low)} kg", f"{rounded(low)} kg", f"up to {rounded(low * 3)} kg",
            f"{rounded(low)} to {rounded(low * 2.5)} kg", f"at least {rounded(low)} kg", "any",
            f"up to {rounded(low * 8)} L", f"as much as possible up to {rounded(low * 2)} kg",
        ))  # fmt: skip

    def entry(self, group: str, amount: str, objective: str = "") -> Any:
        name = self.name(group)
        if name in self.own:
            amount = amount.replace(" L", " kg")
        needed = {"cheapest": "cost", "closest to the usual": "usual"}.get(objective)
        if needed is None and self.chance(0.7):
            return f"{amount} {name}"
        entry: dict[str, Any] = {"feedstock": name, "amount": amount}
        for key, value in (
            ("cost", f"{rounded(self.between(0.05, 3))} per kg"),
            ("usual", f"{rounded(self.between(0.1, 2))} kg"),
            ("use_up", str(self.random.randint(1, 4))),
            ("preparation", self.random.choice(PREPARATIONS)),
        ):
            if self.chance(0.9 if key == needed else 0.25):
                entry[key] = value
        return entry

    def window(self, low: float, high: float, unit: str) -> str:
        form = self.random.randrange(4)
        first = self.between(low, high)
        if form == 0:
            return f"at least {rounded(first)}{unit}"
        if form == 1:
            return f"at most {rounded(first)}{unit}"
        return f"{rounded(first)}{unit} to {rounded(min(first * 1.8, high * 1.3))}{unit}"

    def targets(self) -> Any:
        if self.chance(0.35):
            return self.random.choice(("worm-bed", "hot-heap"))
        targets: dict[str, str] = {"set": self.random.choice(("worm-bed", "hot-heap", "none"))}
        kinds = (
            ("cn_ratio", 18, 60, ""), ("moisture", 50, 80, " %"), ("acid", 1, 8, " g/kg"),
            ("salt", 0.05, 1, " %"), ("fat", 0.5, 5, " %"), ("free_air_space", 20, 70, " %"),
            ("total_mass", 1, 6, " kg"), ("total_volume", 3, 30, " L"),
            ("bedding_for_scraps", 0.3, 3, " L/L"),
        )  # fmt: skip
        chosen = self.random.sample(kinds, self.random.randint(1, 3))
        for name, low, high, unit in chosen:
            targets[name] = self.window(low, high, unit)
        if self.chance(0.15):
            targets["water_over_least"] = f"at most {rounded(self.between(1.05, 2))}"
        return targets

    def balance(self) -> dict[str, Any]:
        objective = self.random.choice(OBJECTIVES)
        at_hand = [self.entry("scraps", f"{rounded(self.between(0.2, 3))} kg", objective)]
        for _ in range(self.random.randrange(3)):
            at_hand.append(self.entry("scraps", self.entry_amount(), objective))
        for _ in range(self.random.choice((0, 1, 1, 2, 2, 3))):
            amount = "any" if self.chance(0.6) else self.entry_amount()
            at_hand.append(self.entry("beddings", amount, objective))
        if self.chance(0.7):
            at_hand.append("any water")
        if self.chance(0.2):
            amount = f"up to {rounded(self.between(10, 200))} g"
            at_hand.append(self.entry("amendments", amount, objective))
        seen: set[str] = set()
        kept = []
        for entry in at_hand:
            name = entry["feedstock"] if isinstance(entry, dict) else entry.split()[-1]
            if name not in seen:
                seen.add(name)
                kept.append(entry)
        balance: dict[str, Any] = {"at_hand": kept, "targets": self.targets()}
        if objective:
            balance["objective"] = objective
        return balance

    # -- the bin --------------------------------------------------------------------------------

    def container(self) -> Any:
        kind = self.random.choice(
            ("tray", "tote", "bucket", "bath", "flow-through", "windrow", "box")
        )
        if self.chance(0.4):
            return f"{rounded(self.between(8, 300))} L {kind}"
        length, width, depth = (
            rounded(self.between(*ends)) for ends in ((30, 150), (25, 90), (12, 60))
        )
        container: dict[str, str] = {"kind": kind, "inside": f"{length} x {width} x {depth} cm"}
        if kind == "tray" and self.chance(0.6):
            container["stacked"] = str(self.random.randint(1, 5))
        return container

    def temperature(self) -> Any:
        middle = self.random.uniform(1, 32)
        form = self.random.randrange(3)
        if form == 0:
            return f"{middle:.0f} C"
        if form == 1:
            return f"{middle:.0f} C to {middle + self.random.uniform(2, 8):.0f} C"
        return [f"{middle + self.random.uniform(-4, 4):.0f} C" for _ in range(10)]

    def bed(self, day: datetime.date) -> dict[str, Any]:
        bed: dict[str, Any] = {"date": day.isoformat(), "container": self.container()}
        worms = self.between(0.1, 4)
        may_have: tuple[tuple[str, Any, float], ...] = (
            ("worms", self.random.choice(
                (f"{rounded(worms)} kg", f"{worms * 2000:.0f} worms",
                 f"{rounded(worms)} kg as bought")), 0.9),
            ("drainage", self.random.choice(("open", "tap", "none")), 0.7),
            ("lid", self.random.choice(("none", "loose", "tight")), 0.6),
            ("ventilation", self.random.choice(("open top", "holes", "closed")), 0.6),
            ("species", self.random.choice(
                ("Eisenia fetida", "Eisenia hortensis", "Perionyx excavatus",
                 "Eudrilus eugeniae")), 0.3),
            ("temperature", self.temperature(), 0.8),
            ("squeeze", self.random.choice(
                ("crumbly", "damp", "drops", "many drops", "streams", "pooling")), 0.6),
            ("moisture", f"{rounded(self.random.uniform(45, 90))} %", 0.2),
            ("ph", f"{self.random.uniform(4.5, 9):.1f}", 0.35),
            ("lime", f"{rounded(self.between(5, 300))} g", 0.25),
            ("age", f"{self.random.randint(1, 60)} weeks", 0.6),
            ("depth_of_contents", f"{self.random.randint(4, 40)} cm", 0.4),
            ("own_feeding_rate", f"{rounded(self.between(0.05, 0.9))} per day", 0.15),
            ("bedding", [self.portion("beddings", 0.2, 4)], 0.2),
        )  # fmt: skip
        bed.update({key: value for key, value, share in may_have if self.chance(share)})
        return bed

    def observation(self, day: datetime.date) -> dict[str, Any]:
        seen: dict[str, Any] = {"date": day.isoformat()}
        may_see: tuple[tuple[str, Any, float], ...] = (
            ("share_gone", f"{self.random.randint(5, 100)} %", 0.6),
            ("left", f"{rounded(self.between(10, 800))} g", 0.2),
            ("worms", self.random.choice(("gathered", "spread", "at the lid", "leaving")), 0.4),
            ("vigour", self.random.choice(("active", "sluggish", "dying")), 0.3),
            ("squeeze", self.random.choice(("crumbly", "damp", "drops", "many drops")), 0.4),
            ("pooling", self.random.choice(("yes", "no")), 0.3),
            ("smell", self.random.choice(
                ("earthy", "none", "sour", "rotten", "ammonia", "vinegar", "swampy")), 0.4),
            ("ph", f"{self.random.uniform(5, 8.5):.1f}", 0.2),
            ("temperature", f"{self.random.randint(5, 38)} C", 0.4),
        )  # fmt: skip
        seen.update({key: value for key, value, share in may_see if self.chance(share)})
        return seen

    def diary(self, content: dict[str, Any]) -> None:
        """Feedings and looks on the days after the bed was described."""
        day = FIRST_DAY
        feedings, looks = [], []
        for _ in range(self.random.randint(0, 4)):
            day += datetime.timedelta(days=self.random.randint(2, 12))
            if self.chance(0.7):
                feedings.append({"date": day.isoformat(), "portions": self.portions()})
            if self.chance(0.7):
                looks.append(self.observation(day))
        if feedings:
            content["feedings"] = feedings
        if looks:
            content["observations"] = looks

    # -- the whole ------------------------------------------------------------------------------

    @staticmethod
    def for_worms(balance: dict[str, Any]) -> None:
        """A heap in a bin is refused: with a bed the targets are those of worms."""
        targets = balance.get("targets")
        if targets == "hot-heap":
            balance["targets"] = "worm-bed"
        elif isinstance(targets, dict) and targets.get("set") == "hot-heap":
            targets["set"] = "worm-bed"

    def slip(self, content: dict[str, Any]) -> None:
        """One mistake of those that keepers make."""
        kind = self.random.choice(SLIPS)
        if kind == "unit":
            content["blend"] = ["3 coffee-grounds"]
        elif kind == "name":
            content["blend"] = ["1 kg coffe gruonds"]
        elif kind == "key":
            content["bedd"] = {"worms": "1 kg"}
        elif kind == "window":
            content["balance"] = {"at_hand": ["1 kg coffee-grounds", "any water"],
                                  "targets": {"moisture": "85 % to 70 %"}}  # fmt: skip
        else:
            content["feedstocks"] = {"slip": {"moisture": "78 %", "ash": "0.5"}}

    def file(self, verb: str) -> dict[str, Any]:
        content: dict[str, Any] = {"libfeed": 1, "containers": {"pail": "9 L"}}
        self.own = []
        if self.chance(0.25):
            self.own = [f"own {word}" for word in self.random.sample(("mash", "pulp", "shreds"), 2)]
            content["feedstocks"] = {name: self.own_feedstock() for name in self.own}
        if verb in ("check", "forecast"):
            content["bed"] = self.bed(FIRST_DAY)
            if self.chance(0.4 if verb == "check" else 0.7):
                self.diary(content)
        elif verb == "balance" and self.chance(0.4):
            content["bed"] = self.bed(FIRST_DAY)
        if verb == "balance" or (verb == "check" and self.chance(0.15)):
            content["balance"] = self.balance()
            if "bed" in content:
                self.for_worms(content["balance"])
        elif verb != "forecast" or self.chance(0.6) or "feedings" not in content:
            content["blend"] = self.portions()
        if self.chance(1 / 30):
            self.slip(content)
        return content


def write_files(folder: Path, rows: Sequence[dict[str, Any]], count: int, seed: int) -> list[Path]:
    """Writes `count` files, the verbs by turns; a file depends on the seed and its number only."""
    shelves = Shelves(rows)
    paths = []
    for number in range(count):
        verb = VERBS[number % len(VERBS)]
        path = folder / f"{verb}_{seed}_{number:05}.yaml"
        content = Writer(shelves, seed * 1_000_003 + number).file(verb)
        # JSON is a form of YAML; one line a section is enough for a reader.
        sections = ",\n".join(
            f"{json.dumps(key)}: {json.dumps(value)}" for key, value in content.items()
        )
        path.write_text("{" + sections + "}\n", encoding="utf-8")
        paths.append(path)
    return paths


def table_rows(command: str) -> list[dict[str, Any]]:
    """The feedstocks that a `feed` command knows."""
    done = subprocess.run([command, "table", "--json"], capture_output=True, text=True, check=True)
    rows: list[dict[str, Any]] = json.loads(done.stdout)["feedstocks"]
    return rows


def main(words: list[str]) -> int:
    parser = argparse.ArgumentParser(description="Write random feed files.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--feed", required=True, help="the command whose table is drawn from")
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--seed", type=int, default=1)
    wanted = parser.parse_args(words)
    wanted.folder.mkdir(parents=True, exist_ok=True)
    paths = write_files(wanted.folder, table_rows(wanted.feed), wanted.count, wanted.seed)
    print(f"{len(paths)} files in {wanted.folder}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
