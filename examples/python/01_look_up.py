"""Look up a feedstock: what is known of used coffee grounds, how well, and from where."""

import libfeed

coffee = libfeed.feedstock("coffee grounds")
moisture = coffee["moisture"]
ratio = coffee["cn_ratio"]
print(coffee.name)
print(f"moisture {moisture.value * 100:.1f} % of wet mass, grade {moisture.grade}")
print(
    f"C:N {ratio.value:.1f} ({ratio.low:.1f} to {ratio.high:.1f}) "
    f"carbon to nitrogen by mass, grade {ratio.grade}"
)
