#include "feed/quantity/units.hpp"

#include "catch2.hpp"

using feed_test::Approx;

TEST_CASE("a quantity comes back in the unit it was made in") {
    CHECK(feed::in_kilograms(feed::kilograms(1.2)) == 1.2);
    CHECK(feed::in_grams(feed::kilograms(0.25)) == 250.0);
    CHECK(feed::in_litres(feed::cubic_metres(0.002)) == 2.0);
    CHECK(feed::in_days(feed::days(21.0)) == 21.0);
    CHECK(feed::in_per_day(feed::per_day(0.07)) == Approx(0.07).epsilon(1e-15));
    CHECK(feed::in_kelvin(feed::celsius(25.0)) == Approx(298.15));
    CHECK(feed::in_celsius(feed::kelvin(273.15)) == 0.0);
}

// NIST Handbook 44, appendix C: 1 US gallon is 231 cubic inches, 1 inch is 25.4 mm; 1 lb is
// 453.59237 g.
TEST_CASE("customary units follow their definitions") {
    const double inch_m = 0.0254;
    CHECK(feed::litres_per_us_gallon == Approx(231.0 * inch_m * inch_m * inch_m * 1000.0));
    CHECK(feed::metres_per_foot == Approx(12.0 * inch_m));
    CHECK(feed::kilograms_per_pound == 0.45359237);
}

TEST_CASE("density is mass over volume") {
    // Bucket test: 9 kg in 20 L is 0.45 kg/L (Zabaleta after Cooperband 2002).
    const feed::Density density = feed::kilograms(10.0 - 1.0) / feed::litres(20.0);
    CHECK(feed::in_kilograms_per_cubic_metre(density) == Approx(450.0));
}
