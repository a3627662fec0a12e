"""Trial: two neighbours (invented) lay melon rind and pumpkin side by side in six totes."""

import libfeed

HEAD = "libfeed: 1\ntrial: {feeds: [watermelon rind, pumpkin], bins: 6, seed: 7"

# Before anything is laid: how much of each, and the least chance by luck it can reach.
plan = libfeed.plan_trial(libfeed.read_feed_text(HEAD + ", last_day: 24}\n")).to_dict()
rind, pumpkin = (1000 * feed["fresh_wet_mass_kg"] for feed in plan["feeds"])
print(f"{rind:.0f} g watermelon rind, {pumpkin:.0f} g pumpkin: {plan['portion_rule']}")
print(f"smallest chance by luck {plan['smallest_p']:.3f}")

# Looks every third day, in the words of the sheet: the rind is gone on day 9, pumpkin on day 18.
diary = HEAD + ", last_day: 24, start: 2026-09-01}\nobservations:\n"
for day in range(3, 25, 3):
    diary += f"  - date: 2026-09-{day + 1:02d}\n    plots:\n"
    for plot in plan["plots"]:
        gone = day >= (9 if plot["feed"] == "watermelon rind" else 18)
        diary += f"      - plot {plot['plot']} {'gone' if gone else 'not gone'}\n"
pair = libfeed.read_trial(libfeed.read_feed_text(diary)).to_dict()["pairs"][0]
print(f"{pair['verdict']}, by luck {pair['luck']['p']:.3f}")
ratio = pair["time_ratio"]
print(
    f"watermelon rind takes {ratio['value']:.2f} "
    f"({ratio['low']:.2f} to {ratio['high']:.2f}) times as long"
)
