#include "feed/forecast/evaporation.hpp"

#include "catch2.hpp"

using feed_test::Approx;

// Steam tables (IAPWS, recalled): 0.6113 kPa at 0.01 C, 2.339 at 20, 3.170 at 25, 4.247 at 30,
// 7.385 at 40. The Magnus form is good to 0.5 % there.
TEST_CASE("saturation pressure agrees with steam tables") {
    const double rows[][2] = {{0.01, 6.113}, {20, 23.39}, {25, 31.70}, {30, 42.47}, {40, 73.85}};
    for (const auto& row : rows)
        CHECK(feed::decay::saturation_pressure_hpa(row[0]) == Approx(row[1]).epsilon(0.005));
}

TEST_CASE("still air takes more from a warmer bed and nothing from a colder one in damp air") {
    using feed::decay::open_evaporation_kg_per_m2_day;
    const feed::decay::AirAround air(20);
    const double even = open_evaporation_kg_per_m2_day(0.26, 20, air, 0.6);
    CHECK(even == Approx(0.26 * 0.4 * 23.39).epsilon(0.005));
    CHECK(open_evaporation_kg_per_m2_day(0.26, 24, air, 0.6) > even);
    CHECK(open_evaporation_kg_per_m2_day(0.26, 5, air, 0.9) == 0.0);
}
