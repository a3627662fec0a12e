"""A target that cannot be met: an allotment (invented) has a flow-through bin, a heap of zucchini
and hardly anything dry. Which wishes conflict, how near one comes, and what mends it.
"""

import libfeed

at_hand: list[str | libfeed.Entry] = [
    "3 kg zucchini",
    libfeed.Entry("coffee grounds", most="500 g"),
    libfeed.Entry("torn cardboard", most="50 g"),
]
answer = libfeed.balance(at_hand)
assert answer.status == "infeasible"
print("these cannot all hold:")
for member in answer.conflict:
    print(f"  {member}")
print(f"nearest: moisture {float(answer.blend.moisture) * 100:.1f} %")
if answer.mend is not None:
    print(f"add {answer.mend.add_wet_kg * 1000:.0f} g of {answer.mend.label}")
else:
    print("no single addition does")
