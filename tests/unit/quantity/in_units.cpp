#include "feed/quantity/in_units.hpp"

#include <cstdlib>
#include <string>

#include "catch2.hpp"

TEST_CASE("a count of grams, tenths or percent is the number that a person would write") {
    // The C library reads the decimal text: the nearest double there is.
    for (int count = 1; count < 20000; ++count) {
        const std::string of_a_thousand = std::to_string(count) + "e-3";
        const std::string of_a_hundred = std::to_string(count) + "e-2";
        const std::string of_ten = std::to_string(count) + "e-1";
        REQUIRE(feed::in_units(count, 0.001) == std::strtod(of_a_thousand.c_str(), nullptr));
        REQUIRE(feed::in_units(count, 0.01) == std::strtod(of_a_hundred.c_str(), nullptr));
        REQUIRE(feed::in_units(count, 0.1) == std::strtod(of_ten.c_str(), nullptr));
    }
    REQUIRE(700 * 0.001 != 0.7);  // what the product gives
    REQUIRE(feed::in_units(137, 1e-5) == 0.00137);
}

TEST_CASE("a unit that is no whole part of one is multiplied") {
    CHECK(feed::in_units(3.0, 0.45359237) == 3.0 * 0.45359237);  // pounds
    CHECK(feed::in_units(2.0, 3.785411784) == 2.0 * 3.785411784);
    CHECK(feed::in_units(2.5, 1.0) == 2.5);
    CHECK(feed::in_units(0.0, 0.001) == 0.0);
    CHECK(feed::in_units(-40.0, 0.001) == -0.04);
    CHECK(feed::in_units(1.0, 1e-12) == 1e-12);
}
