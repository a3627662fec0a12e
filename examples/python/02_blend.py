"""Blend: a cafe (invented) keeps worms in stacked trays and feeds them grounds with torn boxes."""

import libfeed

blend = libfeed.blend(["2 kg coffee grounds", "500 g shredded cardboard"])
moisture = blend.moisture
ratio = blend.cn_ratio
print(f"{blend.wet_mass_kg:.2f} kg wet")
if moisture.value is not None and moisture.low is not None and moisture.high is not None:
    print(
        f"moisture {moisture.value * 100:.1f} % "
        f"({moisture.low * 100:.1f} to {moisture.high * 100:.1f})"
    )
if ratio.value is not None and ratio.low is not None and ratio.high is not None:
    print(f"C:N {ratio.value:.1f} ({ratio.low:.1f} to {ratio.high:.1f}) carbon to nitrogen by mass")
