#include "feed/quantity/basis.hpp"

#include "catch2.hpp"

using feed_test::Approx;

// METER Group note on compost water content: 50 % on the dry basis is 33.33 % on the wet basis.
TEST_CASE("dry-basis moisture turns into wet-basis moisture") {
    CHECK(feed::moisture_from_dry_basis(0.5).in_percent() == Approx(100.0 / 3.0));
}

// Water-holding capacity as a moisture ceiling, u / (1 + u).
TEST_CASE("a water-holding capacity is a moisture ceiling") {
    CHECK(feed::moisture_from_dry_basis(2.0).value() == Approx(0.667).margin(5e-4));
    CHECK(feed::moisture_from_dry_basis(3.6).value() == Approx(0.783).margin(5e-4));
    CHECK(feed::moisture_from_dry_basis(7.5).value() == Approx(0.882).margin(5e-4));
    CHECK(feed::moisture_from_dry_basis(11.0).value() == Approx(0.917).margin(5e-4));
}

TEST_CASE("wet and dry parts add up and come back") {
    for (const double moisture : {0.0, 0.08, 0.5, 0.78, 0.95}) {
        const auto wet = feed::wet_kilograms(1.7);
        const feed::Moisture m(moisture);
        const auto dry = feed::dry_part(wet, m);
        CHECK(dry.in_kilograms() + feed::in_kilograms(feed::water_part(wet, m)) == Approx(1.7));
        CHECK(feed::wet_from_dry(dry, m).in_kilograms() == Approx(1.7));
        CHECK(feed::to_wet(feed::to_dry(feed::WetFraction(0.01), m), m).value() == Approx(0.01));
    }
}
