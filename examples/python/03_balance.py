"""Balance: a school lunch club (invented) has scraps that must go, cardboard and water at will."""

import libfeed

answer = libfeed.balance(
    ["1.2 kg kitchen scraps", "300 g coffee grounds", "shredded cardboard", "water"]
)
for portion in answer.portions:
    print(f"{portion.label}: {portion.wet_kg * 1000:.0f} g")
blend = answer.blend
print(f"C:N {float(blend.cn_ratio):.1f}, moisture {float(blend.moisture) * 100:.1f} %")
