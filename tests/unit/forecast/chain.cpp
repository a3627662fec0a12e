#include "feed/forecast/chain.hpp"

#include <array>
#include <cmath>

#include "catch2.hpp"

using feed_test::Approx;
namespace decay = feed::decay;

// Bateman chain k1 = 0.1, k2 = 0.02, A0 = 1: the closed form evaluated with 50 digits.
TEST_CASE("a chain of two follows the Bateman solution") {
    struct Row {
        double t, a, b, c;
    };
    const Row rows[] = {
        {1, 0.904837418, 0.094201569, 0.000961013},  {5, 0.606530660, 0.372883448, 0.020585892},
        {10, 0.367879441, 0.563564140, 0.068556419}, {20, 0.135335283, 0.668730953, 0.195933763},
        {40, 0.018315639, 0.538766657, 0.442917705}, {100, 0.000045400, 0.169112354, 0.830842246}};
    for (const Row& row : rows) {
        const double a = 1.0 - decay::lost_share(0.1 * row.t);
        const double b = decay::second_after(0.0, 1.0, 1.0, 0.1 * row.t, 0.02 * row.t);
        CHECK(a == Approx(row.a).margin(1e-9).epsilon(0));
        CHECK(b == Approx(row.b).margin(1e-9).epsilon(0));
        CHECK(1.0 - a - b == Approx(row.c).margin(1.5e-9).epsilon(0));
    }
    CHECK(decay::time_of_second_peak(0.1, 0.02) == Approx(20.117974).margin(1e-6).epsilon(0));
    const double peak = decay::time_of_second_peak(0.1, 0.02);
    CHECK(decay::second_after(0, 1, 1, 0.1 * peak, 0.02 * peak) ==
          Approx(0.668740305).margin(1e-9).epsilon(0));
}

TEST_CASE("a chain with equal rates has its limit") {
    struct Row {
        double t, b, c;
    };
    const Row rows[] = {{1, 0.090483742, 0.004678840},
                        {10, 0.367879441, 0.264241118},
                        {30, 0.149361205, 0.800851727}};
    for (const Row& row : rows) {
        const double x = 0.1 * row.t;
        const double b = decay::second_after(0.0, 1.0, 1.0, x, x);
        CHECK(b == Approx(row.b).margin(1e-9).epsilon(0));
        CHECK(decay::lost_share(x) - b == Approx(row.c).margin(1e-9).epsilon(0));
    }
    CHECK(decay::time_of_second_peak(0.1, 0.1) == Approx(10.0));
}

TEST_CASE("rates that nearly meet do not cancel") {
    // The series e^-a (1 - d/2 + d^2/6) is exact to d^3; the difference of exponentials would keep
    // only 16 - |log10 d| digits.
    for (const double d : {1e-4, 1e-7, 1e-9, 1e-12, 1e-15}) {
        const double expected = std::exp(-0.7) * (1.0 - d / 2 + d * d / 6);
        CHECK(decay::chain_share(0.7, 0.7 + d) == Approx(expected).epsilon(1e-12));
        CHECK(decay::chain_share(0.7 + d, 0.7) == Approx(expected).epsilon(1e-12));
    }
}

// Near each other the share is taken by expm1, further apart by the difference: on both sides of
// the border, and wherever a loss is known already, it is the same number.
TEST_CASE("the share of a chain does not depend on the way it is taken") {
    for (const double d : {0.05, 0.124, 0.126, 0.5, 3.0, 40.0}) {
        CAPTURE(d);
        const double expected = std::exp(-0.2) * -std::expm1(-d) / d;
        const decay::Kept fast(0.2 + d, decay::lost_share(0.2 + d));
        CHECK(decay::chain_share(0.2, 0.2 + d) == Approx(expected).epsilon(1e-14));
        CHECK(decay::chain_share(0.2 + d, 0.2) == Approx(expected).epsilon(1e-14));
        CHECK(decay::chain_share(fast, decay::Kept(0.2, decay::lost_share(0.2))) ==
              Approx(expected).epsilon(1e-14));
    }
}

TEST_CASE("no step is too long for a chain") {
    CHECK(decay::second_after(3.0, 2.0, 0.5, 5000.0, 0.0) == Approx(4.0));
    CHECK(decay::second_after(3.0, 2.0, 0.5, 0.0, 5000.0) == Approx(0.0).margin(1e-300));
    CHECK(decay::second_after(0.0, 2.0, 1.0, 5000.0, 5001.0) >= 0.0);
    CHECK(decay::fed_evenly(1.0, 2.0, 1e6) == Approx(2e-6));
}

TEST_CASE("two steps make one") {
    // Semigroup of the linear system: stepping h then h equals stepping 2h.
    for (const double k1 : {0.03, 0.22, 1.2}) {
        for (const double k2 : {0.0, 0.03, 0.5}) {
            const double b_half = decay::second_after(0.4, 1.0, 0.6, k1, k2);
            const double a_half = std::exp(-k1);
            const double b_two = decay::second_after(b_half, a_half, 0.6, k1, k2);
            CHECK(b_two ==
                  Approx(decay::second_after(0.4, 1.0, 0.6, 2 * k1, 2 * k2)).epsilon(1e-13));
        }
    }
}

// CLM5 technical note (after Olson 1963): daily to hourly shares; the printed digits.
TEST_CASE("a daily share converts to a continuous rate and to an hour") {
    struct Row {
        double daily, hourly, half_unit;
    };
    const Row rows[] = {{0.7, 0.04892, 1e-5},
                        {0.07, 0.00302, 0.5e-5},
                        {0.014, 0.00059, 0.5e-5},
                        {0.0014, 0.00006, 0.5e-5},
                        {0.001, 0.00004, 0.5e-5}};
    for (const Row& row : rows) {
        const double rate = decay::continuous_rate_per_day(row.daily, 1.0);
        CHECK(decay::discrete_share(rate, 1.0 / 24.0) ==
              Approx(row.hourly).margin(row.half_unit).epsilon(0));
        CHECK(decay::discrete_share(rate, 1.0) == Approx(row.daily).epsilon(1e-14));
    }
    CHECK(decay::continuous_rate_per_day(0.7, 1.0) == Approx(1.20397).margin(5e-6).epsilon(0));
    CHECK(decay::continuous_rate_per_day(0.07, 1.0) == Approx(0.0725707).margin(5e-8).epsilon(0));
    CHECK(decay::continuous_rate_per_day(0.014, 1.0) == Approx(0.0140989).margin(5e-8).epsilon(0));
}

// A published class problem rounds ln(2.57/3.00) to -0.154 and prints 0.002205.
TEST_CASE("two weighings give a rate") {
    CHECK(decay::rate_from_two_weighings_per_day(3.00, 2.57, 70) ==
          Approx(0.0022101).margin(5e-8).epsilon(0));
    CHECK(decay::rate_from_two_weighings_per_day(3.00, 2.57, 70) ==
          Approx(0.002205).epsilon(0.003));
    CHECK(decay::rate_from_two_weighings_per_day(3.00, 2.36, 70) ==
          Approx(0.0034279).margin(5e-8).epsilon(0));
}

// Three pools 0.4/0.5/0.1 at the CLM-CN rates (CLM5 technical note), mass left.
TEST_CASE("three pools leave what the published rates leave") {
    const double labile = decay::continuous_rate_per_day(0.7, 1.0);
    const double cellulosic = decay::continuous_rate_per_day(0.07, 1.0);
    const double lignin_like = decay::continuous_rate_per_day(0.014, 1.0);
    struct Row {
        double day, left, margin;
    };
    const Row rows[] = {{1, 0.6836, 5e-5},    {7, 0.39154, 5e-6},   {14, 0.263109, 5e-7},
                        {30, 0.122194, 5e-7}, {60, 0.049342, 5e-7}, {90, 0.028842, 5e-7}};
    for (const Row& row : rows) {
        const double left = 1.0 - 0.4 * decay::lost_share(labile * row.day) -
                            0.5 * decay::lost_share(cellulosic * row.day) -
                            0.1 * decay::lost_share(lignin_like * row.day);
        CHECK(left == Approx(row.left).margin(row.margin).epsilon(0));
    }
    // Half-lives of the same table.
    CHECK(std::log(2.0) / labile == Approx(0.576).margin(5e-4).epsilon(0));
    CHECK(std::log(2.0) / cellulosic == Approx(9.55).margin(5e-3).epsilon(0));
    CHECK(std::log(2.0) / lignin_like == Approx(49.2).margin(5e-2).epsilon(0));
}
