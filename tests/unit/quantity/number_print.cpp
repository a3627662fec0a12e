#include "feed/quantity/number_print.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "catch2.hpp"

using feed::significant;

TEST_CASE("numbers are printed without false decimals") {
    CHECK(significant(0.0, 2) == "0");
    CHECK(significant(1.0, 2) == "1");
    CHECK(significant(0.04567, 2) == "0.046");
    CHECK(significant(1234.0, 2) == "1200");
    CHECK(significant(78.3, 2) == "78");
    CHECK(significant(9.96, 2) == "10");
    CHECK(significant(99.6, 2) == "100");
    CHECK(significant(-2.5, 3) == "-2.5");
    CHECK(significant(1e-5, 2) == "0.00001");
    CHECK(significant(std::nan(""), 2) == "unknown");
}

// The C library's %g rounds the exact binary value; the two agree away from decimal ties,
// which the odd factor avoids.
TEST_CASE("rounding agrees with the C library") {
    unsigned state = 1;
    for (int i = 0; i < 20000; ++i) {
        state = state * 1664525u + 1013904223u;
        const double number = std::ldexp(1.0000001 * static_cast<double>(state >> 4), -(i % 40));
        char expected[64];
        std::snprintf(expected, sizeof expected, "%.3e", number);
        const double printed = std::strtod(significant(number, 4).c_str(), nullptr);
        CAPTURE(number);
        CHECK(std::abs(printed - std::strtod(expected, nullptr)) <= 1e-13 * number);
    }
}
