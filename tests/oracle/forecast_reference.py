"""The equations of docs/forecast.md written again for SciPy. Nothing of the library's code is used.

Within a step the coefficients are those of its start, as the model says; heat and metabolic water
of a step enter evenly, so a step is integrated twice: the matter first, then water and temperature.
"""

from __future__ import annotations

import json
import math
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

Vector = NDArray[np.float64]
POOLS = ("labile", "cellulosic", "lignin_like")
KINDS = ("organic", "ash", "carbon", "nitrogen", "capacity", "volume", "scraps")


def integrate(rhs: Any, start: Vector, days: float, rtol: float) -> Vector:
    """The state after some days, to a relative tolerance a step of the solver."""
    solved = solve_ivp(rhs, (0.0, days), start, method="DOP853", rtol=rtol, atol=1e-4 * rtol)
    assert solved.success, solved.message
    end: Vector = solved.y[:, -1]
    return end


def bracket(celsius: float) -> float:
    """Haug 1993."""
    return max(0.0, float(1.066 ** (celsius - 20)) - float(1.21 ** (celsius - 60)))


def vapour(celsius: float) -> float:
    """Saturation pressure in hPa, Magnus form of WMO Guide No. 8, held outside -45 to 60 C."""
    celsius = min(60.0, max(-45.0, celsius))
    return 6.112 * math.exp(17.62 * celsius / (243.12 + celsius))


class Bed:
    """A bed with the coefficients of one step."""

    def __init__(self, trace: dict[str, Any], rtol: float = 1e-12) -> None:
        self.trace = trace
        self.rtol = rtol
        self.p: dict[str, float] = trace["parameters"]
        self.now: dict[str, Any] = json.loads(json.dumps(trace["start"]))
        self.respired = [self.p[f"{pool}_respired_share"] for pool in POOLS]

    def feed(self, fed: dict[str, Any]) -> None:
        """A feeding goes in."""
        for pool, more in zip(self.now["pools"], fed["pools"], strict=True):
            for kind in KINDS:
                pool[kind] += more[kind]
        for key in ("cell_water", "bed_water", "acid"):
            self.now[key] += fed[key]

    def totals(self) -> dict[str, float]:
        """Sums over the bed."""
        now = self.now
        sums = {kind: sum(pool[kind] for pool in now["pools"]) for kind in KINDS}
        castings = now["castings_organic"] + now["castings_ash"]
        organic = sums["organic"] + now["castings_organic"] + now["inert"]
        ash = sums["ash"] + now["castings_ash"] + now["mineral"]
        water = now["cell_water"] + now["bed_water"]
        volume = (
            sums["volume"]
            + 1000 * castings / self.trace["castings_density"]
            + now["inert"] / 1.6
            + now["mineral"] / 2.5
        )
        return {
            "dry": organic + ash,
            "water": water,
            "moisture": water / (water + organic + ash),
            "air": 1 - (water + organic / 1.6 + ash / 2.5) / volume,
            "volume": volume,
            "carbon": sums["carbon"] + now["castings_carbon"],
            "nitrogen": sums["nitrogen"] + now["castings_nitrogen"] + now["ammonium"],
            "capacity": sums["capacity"] + castings * self.p["castings_holding_kg_per_kg"],
        }

    def mean(self, totals: dict[str, float]) -> float:
        """Temperature of pocket and bed by mass: what decay, ammonia and drying feel."""
        share = min(1.0, self.trace["pocket_wet"] / (totals["water"] + totals["dry"]))
        bed_c: float = self.now["bed_c"]
        return float(bed_c + share * (self.now["pocket_c"] - bed_c))

    def rates(self, totals: dict[str, float]) -> tuple[list[float], float, float]:
        """Pool rates, castings rate and temperature factor."""
        celsius = min(self.mean(totals), 35.0)
        warmth = (
            bracket(celsius) / bracket(25) if self.trace["haug"] else 1.5 ** ((celsius - 25) / 10)
        )
        moist = 1 / (math.exp(-17.684 * totals["moisture"] + 7.0622) + 1)
        airy = 1 / (math.exp(-23.675 * max(0.0, totals["air"]) + 3.4945) + 1)
        cn = totals["carbon"] / totals["nitrogen"]
        rich = min(1.0, math.exp(-0.693 * (min(cn, 100) - 25) / 25))
        rates = [self.p[f"{pool}_rate_per_day"] * warmth * moist * airy for pool in POOLS]
        rates[1] *= rich
        rates[2] *= rich
        castings = self.p["castings_rate_per_day"] * warmth * moist * airy
        if self.trace["worms"] > 0:
            wanted = sum(
                pool["scraps"] * (1 - math.exp(-rate))
                for pool, rate in zip(self.now["pools"], rates, strict=True)
            )
            most = self.p["worm_intake_wet_kg_per_kg_day"] * self.trace["worms"] * min(1.0, warmth)
            if wanted > most:
                alone = self.p["share_without_worms"]
                rates = [rate * (alone + (1 - alone) * most / wanted) for rate in rates]
        return rates, castings, warmth

    def step(self) -> None:
        """One step forward."""
        now, p, days = self.now, self.p, self.trace["step_days"]
        totals = self.totals()
        k, k_castings, warmth = self.rates(totals)
        r = self.respired

        # Ammonia: Emerson et al. 1975, at the working pH.
        air_l = totals["volume"] * max(totals["air"], 0.02)
        ph = min(9.0, max(4.0, self.trace["ph"] - 1000 * now["acid"] / air_l))
        pka = 0.09018 + 2729.92 / (min(50.0, max(0.0, self.mean(totals))) + 273.15)
        to_air = p["volatilisation_rate_per_day"] / (1 + 10 ** (pka - ph))
        cn = [pool["carbon"] / pool["nitrogen"] for pool in now["pools"]]
        mineral = [1 - (1 - r[i]) * cn[i] / p["product_cn_ratio"] for i in range(3)]
        wanted_n = sum(max(0.0, -mineral[i]) * k[i] * now["pools"][i]["nitrogen"] for i in range(3))
        uptake = wanted_n / (now["ammonium"] + wanted_n / 5.0) if wanted_n > 0 else 0.0
        to_bed = p["nitrification_rate_per_day"] * warmth + uptake

        # Acid and lime.
        formed = (
            p["acid_yield_kg_per_kg"] * now["pools"][0]["organic"] * (1 - math.exp(-k[0] * days))
        )
        fading = p["acid_fading_rate_per_day"] * warmth
        liming = 0.0
        if now["lime"] > 0:
            need = 50.04 / 64.04 * (now["acid"] + formed) * days
            liming = min(p["lime_rate_per_day"], now["lime"] / need)

        start = [
            pool[kind] for pool in now["pools"] for kind in ("organic", "ash", "carbon", "nitrogen")
        ]
        start += [now["castings_organic"], now["castings_carbon"], now["castings_nitrogen"]]
        start += [now["castings_ash"], now["acid"], 0.0, now["ammonium"], 0.0, 0.0]

        def matter(_: float, y: Vector) -> Vector:
            """d/dt of pools (12), castings (4), acid, acid limed, ammonium, N lost, respired."""
            flow = y[:12].reshape(3, 4) * np.array(k)[:, None]
            organic, ash, carbon, nitrogen = flow.T
            keep = 1 - np.array(r)
            freed = np.maximum(0.0, np.array(mineral))
            castings_loss = k_castings * y[12]
            change = np.empty_like(y)
            change[:12] = -flow.ravel()
            change[12] = keep @ organic - castings_loss
            change[13] = keep @ carbon - k_castings * y[13]
            change[14] = (1 - freed) @ nitrogen + to_bed * y[18]
            change[15] = ash.sum()
            change[16] = p["acid_yield_kg_per_kg"] * organic[0] - (fading + liming) * y[16]
            change[17] = liming * y[16]
            change[18] = freed @ nitrogen - (to_bed + to_air) * y[18]
            change[19] = to_air * y[18]
            change[20] = np.array(r) @ organic + castings_loss
            return change

        end = integrate(matter, np.array(start), days, self.rtol)
        respired = float(end[20])

        # Water and heat.
        deficit = vapour(self.mean(totals)) - self.trace["humidity"] * vapour(self.trace["air_c"])
        potential = p["evaporation_kg_per_m2_day"] * self.trace["surface"] * max(0.0, deficit)
        potential /= 0.4 * 23.327
        limit = p["surface_limit_moisture"]
        drying = potential / max(now["bed_water"], limit / (1 - limit) * totals["dry"])
        draining = p["drainage_rate_per_day"] * self.trace["drainage"]
        free = max(0.0, now["bed_water"] - totals["capacity"])
        metabolic = p["metabolic_water_kg_per_kg"] * respired
        # The slow pools warm the bed; castings are old. Joules per second.
        slow = sum(r[i] * now["pools"][i]["organic"] * (1 - math.exp(-k[i] * days)) for i in (1, 2))
        slow *= 14e6 * 1.28 / (86400 * days)

        def water(_: float, y: Vector) -> Vector:
            """d/dt of cell, held and free water, evaporated, drained."""
            cell, held, loose, _evaporated, _drained = y
            return np.array(
                [
                    -k[0] * cell,
                    k[0] * cell + metabolic / days - drying * held,
                    -(drying + draining) * loose,
                    drying * (held + loose),
                    draining * loose,
                ]
            )

        wet = integrate(
            water,
            np.array([now["cell_water"], now["bed_water"] - free, free, 0.0, 0.0]),
            days,
            self.rtol,
        )

        for i, pool in enumerate(now["pools"]):
            left = math.exp(-k[i] * days)
            now["castings_formed"] += (1 - r[i]) * pool["organic"] * (1 - left)
            now["castings_formed"] += pool["ash"] * (1 - left)
            for kind in ("capacity", "volume", "scraps"):
                pool[kind] *= left
            pool["organic"], pool["ash"], pool["carbon"], pool["nitrogen"] = end[4 * i : 4 * i + 4]
        now["castings_organic"], now["castings_carbon"], now["castings_nitrogen"] = end[12:15]
        now["castings_ash"], now["acid"], now["ammonium"] = end[15], end[16], end[18]
        now["lime"] -= 50.04 / 64.04 * end[17]
        now["nitrogen_lost"] += end[19]
        now["respired"] += respired
        now["cell_water"], now["bed_water"] = wet[0], wet[1] + wet[2]
        now["evaporated"] += wet[3]
        now["drained"] += wet[4]
        now["metabolic"] += metabolic
        self.warm(totals, days, slow)

    def warm(self, totals: dict[str, float], days: float, slow: float) -> None:
        """Two stores of heat, the food pocket and the bed (docs/forecast.md), per second."""
        now, p, trace = self.now, self.p, self.trace
        burning = 0.39 * 1.28 * p["labile_rate_per_day"] / 86400  # kg of oxygen a kg and second
        area, volume = trace["spread"], trace["pocket_volume"]
        height = max(volume / area, 0.03)
        aired = max(3 * volume / trace["surface"], 0.03)
        conductivity = p["conductivity_w_per_m_k"]
        sides = 8 * conductivity * math.sqrt(area / math.pi)
        up = area / (0.05 / conductivity + 0.15)
        to_bed = 1 / (1 / (sides + up) + height / (12 * conductivity * area))
        to_air = trace["outer"] / p["surface_resistance_m2_k_per_w"]
        pocket_heat = 3800 * trace["pocket_wet"]
        bed_heat = 3600 * (totals["water"] + totals["dry"] - trace["pocket_wet"])
        in_pocket = p["pocket_air_share"] ** 2 * 2e-5
        in_cover = 0.5**2 * 2e-5

        def active(celsius: float) -> float:
            held = min(celsius, 40.0)
            level = (1.066 ** (held - 20) - 1.21 ** (held - 60)) / (1.066**5 - 1.21**-35)
            return float(level * min(1.0, max(0.0, (65 - celsius) / 10)))

        def burnt(uptake: float) -> float:
            # 0.275 = J 0.05/in_cover + J^2/(2 uptake in_pocket)
            roots = np.roots([1 / (2 * uptake * in_pocket), 0.05 / in_cover, -0.275])
            return float(min(1.0, 2 * float(roots.real.max()) / (uptake * aired)))

        def heat(_: float, y: Vector) -> Vector:
            pocket, bed, food, old = y
            uptake = food * burning * active(pocket) / volume
            share = burnt(uptake) if uptake > 0 else 1.0
            across = to_bed * (pocket - bed)
            warmth = 14e6 * uptake * volume * share
            old_warmth = 14e6 * old * burning * active(bed)
            rate = p["labile_rate_per_day"] / 86400
            return np.array(
                [
                    (warmth - across) / pocket_heat,
                    (slow + old_warmth + across - to_air * (bed - trace["air_c"])) / bed_heat,
                    -rate * active(pocket) * share * food,
                    -rate * active(bed) * old,
                ]
            )

        start = [now[key] for key in WARM]
        end = integrate(heat, np.array(start), days * 86400, 1e-8)
        for key, value in zip(WARM, end, strict=True):
            now[key] = float(value)


WARM = ("pocket_c", "bed_c", "pocket_labile", "bed_labile")
"""What the heat of a bed is followed by; the library takes steps of a quarter of a day."""


def flat(state: dict[str, Any]) -> dict[str, float]:
    """Every number of a state by name."""
    numbers = {key: float(value) for key, value in state.items() if key != "pools"}
    for name, pool in zip(POOLS, state["pools"], strict=True):
        for kind in KINDS:
            numbers[f"{name}.{kind}"] = float(pool[kind])
    return numbers
