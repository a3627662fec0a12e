#include "feed/diary/first_order_fit.hpp"

#include <limits>
#include <vector>

#include "catch2.hpp"

using feed_test::Approx;

// NIST StRD nonlinear regression, BoxBOD (higher difficulty): certified to 11 digits.
TEST_CASE("the certified BoxBOD fit is reproduced") {
    const std::vector<double> x{1, 2, 3, 5, 7, 10};
    const std::vector<double> y{109, 149, 149, 191, 213, 224};
    const auto fit = feed::fit_first_order(x, y);
    REQUIRE(fit);
    CHECK(fit->plateau == Approx(213.80940889).epsilon(1e-10));
    CHECK(fit->rate_per_day == Approx(0.54723748542).epsilon(1e-10));
    CHECK(fit->plateau_standard_error == Approx(12.354515176).epsilon(1e-10));
    CHECK(fit->rate_standard_error == Approx(0.10455993237).epsilon(1e-10));
    CHECK(fit->residual_sum_of_squares == Approx(1168.0088766).epsilon(1e-10));
    CHECK(fit->residual_standard_deviation == Approx(17.088072423).epsilon(1e-10));
}

// Bates & Watts 1988, BOD data of Marske 1967: 19.143, 0.5311, RSS 25.99.
TEST_CASE("the Bates and Watts oxygen demand fit is reproduced") {
    const std::vector<double> x{1, 2, 3, 4, 5, 7};
    const std::vector<double> y{8.3, 10.3, 19.0, 16.0, 15.6, 19.8};
    const auto fit = feed::fit_first_order(x, y);
    REQUIRE(fit);
    CHECK(fit->plateau == Approx(19.142575).margin(5e-7).epsilon(0));
    CHECK(fit->rate_per_day == Approx(0.531091).margin(5e-7).epsilon(0));
    CHECK(fit->plateau_standard_error == Approx(2.495917).margin(1e-6).epsilon(0));
    CHECK(fit->rate_standard_error == Approx(0.203082).margin(1e-6).epsilon(0));
    CHECK(fit->residual_sum_of_squares == Approx(25.990267).margin(5e-7).epsilon(0));
}

TEST_CASE("a curve without noise gives back what made it") {
    std::vector<double> x;
    std::vector<double> y;
    for (const double t : {2.0, 5.0, 9.0, 20.0, 45.0}) {
        x.push_back(t);
        y.push_back(0.85 * (1.0 - std::exp(-0.033 * t)));
    }
    const auto fit = feed::fit_first_order(x, y);
    REQUIRE(fit);
    CHECK(fit->plateau == Approx(0.85).epsilon(1e-9));
    CHECK(fit->rate_per_day == Approx(0.033).epsilon(1e-9));
}

TEST_CASE("points that fix no rate are refused with a reason") {
    using Points = std::vector<double>;
    CHECK_FALSE(feed::fit_first_order(Points{1, 2}, Points{1, 2}));
    CHECK_FALSE(feed::fit_first_order(Points{1, 2, 3}, Points{1, 2}));
    CHECK_FALSE(feed::fit_first_order(Points{3, 3, 3}, Points{1, 2, 3}));
    CHECK_FALSE(feed::fit_first_order(Points{0, 1, 2}, Points{0, 1, 2}));
    const auto line = feed::fit_first_order(Points{1, 2, 3, 4}, Points{1, 2, 3, 4});
    REQUIRE_FALSE(line);
    CHECK(line.errors()[0].message.find("flatten") != std::string::npos);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const auto bad = feed::fit_first_order(Points{1, 2, 3}, Points{1, nan, 3});
    REQUIRE_FALSE(bad);
    CHECK(bad.errors()[0].code == feed::ErrorCode::not_a_number);
}
