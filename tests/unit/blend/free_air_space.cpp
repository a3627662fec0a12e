#include "feed/blend/free_air_space.hpp"

#include "catch2.hpp"

using feed::DryFraction;
using feed::kilograms_per_cubic_metre;
using feed::Moisture;
using feed_test::Approx;

// Phase volumes with the constants of Richard et al. 2004 (1000, 1600, 2500 kg/m3): arithmetic
// check values for density, moisture and organic matter.
TEST_CASE("free air space from phase volumes") {
    const struct {
        double density, moisture, organic, air;
    } cases[] = {
        {300, 0.60, 0.90, 0.7477}, {500, 0.60, 0.90, 0.5795},  {600, 0.60, 0.80, 0.5008},
        {800, 0.60, 0.80, 0.3344}, {1000, 0.60, 0.80, 0.1680}, {500, 0.75, 0.90, 0.5497},
        {700, 0.80, 0.85, 0.3572},
    };
    for (const auto& c : cases) {
        CAPTURE(c.density);
        CHECK(feed::free_air_space(kilograms_per_cubic_metre(c.density), Moisture(c.moisture),
                                   DryFraction(1.0 - c.organic)) == Approx(c.air).margin(5e-5));
    }
}

TEST_CASE("a volume full of water and solids has no air, never less than none") {
    CHECK(feed::free_air_space(kilograms_per_cubic_metre(1500.0), Moisture(0.9),
                               DryFraction(0.1)) == 0.0);
    const auto compact = feed::compact_density(Moisture(0.8), DryFraction(0.1));
    CHECK(feed::free_air_space(compact, Moisture(0.8), DryFraction(0.1)) ==
          Approx(0.0).margin(1e-12));
}

TEST_CASE("packing loses most at equal volumes and nothing for one material") {
    const auto packed = [](double bedding, double other) {
        return feed::in_litres(
            feed::packed_volume(feed::litres(bedding), feed::litres(other), 0.15));
    };
    CHECK(packed(10, 0) == Approx(10));
    CHECK(packed(0, 10) == Approx(10));
    CHECK(packed(5, 5) == Approx(8.5));
    CHECK(packed(0, 0) == 0.0);
    // More of either never makes the volume smaller.
    for (double bedding = 0; bedding < 10; bedding += 0.5)
        CHECK(packed(bedding + 0.5, 3) >= packed(bedding, 3));
}
