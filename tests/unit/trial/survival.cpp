#include "feed/trial/survival.hpp"

#include <array>

#include "catch2.hpp"

using feed::TimeToGone;
using feed_test::Approx;
using Times = std::vector<TimeToGone>;

namespace {

Times times(const std::vector<double>& days, const std::vector<int>& gone) {
    Times made;
    for (std::size_t i = 0; i < days.size(); ++i)
        made.push_back({days[i], gone[i] != 0});
    return made;
}

Times with_censored(const std::vector<double>& gone, const std::vector<double>& censored) {
    Times made;
    for (const double day : gone)
        made.push_back({day, true});
    for (const double day : censored)
        made.push_back({day, false});
    return made;
}

// Freireich et al. 1963, remission in weeks.
const Times& six_mp() {
    static const Times data = with_censored({6, 6, 6, 7, 10, 13, 16, 22, 23},
                                            {6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35});
    return data;
}
const Times& placebo() {
    static const Times data =
        with_censored({1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23}, {});
    return data;
}

/// The curve at a day: the share after the last step not later than it.
double share_at(const std::vector<feed::SurvivalStep>& curve, double day) {
    double share = 1.0;
    for (const feed::SurvivalStep& step : curve) {
        if (step.days <= day) share = step.share_left;
    }
    return share;
}

feed::LogRank compare(const Times& first, const Times& second) {
    const std::array<std::span<const TimeToGone>, 2> groups{first, second};
    return feed::log_rank(groups);
}

}  // namespace

TEST_CASE("the textbook Kaplan-Meier table of 6-MP is reproduced") {
    struct Row {
        double t;
        std::size_t n, d;
        double s, se, h;
    };
    const Row rows[] = {
        {6, 21, 3, 0.857143, 0.076360, 0.142857},  {7, 17, 1, 0.806723, 0.086935, 0.201681},
        {10, 15, 1, 0.752941, 0.096350, 0.268347}, {13, 12, 1, 0.690196, 0.106815, 0.351681},
        {16, 11, 1, 0.627451, 0.114054, 0.442590}, {22, 7, 1, 0.537815, 0.128234, 0.585447},
        {23, 6, 1, 0.448179, 0.134591, 0.752114}};
    const auto curve = feed::kaplan_meier(six_mp());
    REQUIRE(curve.size() == std::size(rows));
    for (std::size_t i = 0; i < curve.size(); ++i) {
        CHECK(curve[i].days == rows[i].t);
        CHECK(curve[i].watched == rows[i].n);
        CHECK(curve[i].gone == rows[i].d);
        CHECK(curve[i].share_left == Approx(rows[i].s).margin(5e-7).epsilon(0));
        REQUIRE(curve[i].standard_error);
        CHECK(*curve[i].standard_error == Approx(rows[i].se).margin(5e-7).epsilon(0));
        CHECK(curve[i].cumulative_hazard == Approx(rows[i].h).margin(5e-7).epsilon(0));
    }
    CHECK(feed::median_days(curve) == 23.0);
    const auto rival = feed::kaplan_meier(placebo());
    CHECK(feed::median_days(rival) == 8.0);
    CHECK(share_at(rival, 8) == Approx(0.380952).margin(5e-7).epsilon(0));
    CHECK(rival.back().share_left == 0.0);
    CHECK_FALSE(rival.back().standard_error.has_value());
}

// R survdiff: observed 21 / 9, expected 10.7 / 19.3, chi-square 16.8, p 4.17e-05.
TEST_CASE("the log-rank test of the leukaemia trial uses the variance form") {
    const feed::LogRank test = compare(placebo(), six_mp());
    CHECK(test.observed[0] == 21.0);
    CHECK(test.observed[1] == 9.0);
    CHECK(test.expected[0] == Approx(10.749499).margin(5e-7).epsilon(0));
    CHECK(test.expected[1] == Approx(19.250501).margin(5e-7).epsilon(0));
    CHECK(test.variance[0] == Approx(6.2569606).margin(5e-8).epsilon(0));
    CHECK(test.chi_square == Approx(16.792941).margin(5e-7).epsilon(0));
    CHECK(test.p_value == Approx(4.17e-5).margin(5e-8).epsilon(0));
}

// Bland & Altman 2004 (BMJ 328:1073) data; z = -2.73799, p = 0.00618 from SciPy's documentation;
// the paper's own 6.88 is the short-cut sum.
TEST_CASE("the glioma log-rank is reproduced") {
    const Times astrocytoma = with_censored(
        {6, 13, 21, 30, 37, 38, 49, 50, 63, 79, 86, 98, 202, 219}, {31, 47, 80, 82, 82, 149});
    const Times glioblastoma =
        with_censored({10, 10, 12, 13, 14, 15, 16, 17, 18, 20, 24, 24, 25,  28,
                       30, 33, 35, 37, 40, 40, 46, 48, 76, 81, 82, 91, 112, 181},
                      {34, 40, 70});
    const feed::LogRank test = compare(astrocytoma, glioblastoma);
    CHECK(std::sqrt(test.chi_square) == Approx(2.73799).margin(5e-6).epsilon(0));
    CHECK(test.p_value == Approx(0.00618).margin(5e-6).epsilon(0));
    CHECK(test.expected[0] == Approx(22.481157).margin(5e-7).epsilon(0));
    CHECK(test.variance[0] == Approx(9.595027).margin(5e-7).epsilon(0));
    const double short_cut = std::pow(14 - test.expected[0], 2) / test.expected[0] +
                             std::pow(28 - test.expected[1], 2) / test.expected[1];
    CHECK(short_cut == Approx(6.88).margin(5e-3).epsilon(0));
}

// Klein & Moeschberger, exercise 7.7: three groups of rats.
TEST_CASE("three groups are compared with their covariance") {
    const Times first = with_censored({20, 21, 23, 24, 24, 26, 26, 27, 28, 30}, {});
    const Times second = with_censored({26, 28, 29, 29, 30, 30, 31, 31, 32}, {35});
    const Times third = with_censored({31, 32, 34, 35, 36, 38, 38, 39}, {42, 42});
    const std::array<std::span<const TimeToGone>, 3> groups{first, second, third};
    const feed::LogRank test = feed::log_rank(groups);
    const double expected[] = {2.656485, 7.600097, 16.743418};
    const double covariance[] = {1.9706489, -0.9545184, -1.016130,  -0.9545184, 4.5471241,
                                 -3.592606, -1.0161305, -3.5926057, 4.608736};
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(test.expected[i] == Approx(expected[i]).margin(5e-7).epsilon(0));
    for (std::size_t i = 0; i < 9; ++i)
        CHECK(test.variance[i] == Approx(covariance[i]).margin(6e-7).epsilon(0));
    CHECK(test.chi_square == Approx(33.38033).margin(5e-6).epsilon(0));
    CHECK(test.degrees == 2);
    CHECK(test.p_value == Approx(5.64e-8).margin(5e-11).epsilon(0));
}

// Small sets with printed curves, from teaching texts (collected in SciPy's survival tests).
TEST_CASE("small Kaplan-Meier sets give their printed curves") {
    const auto b = feed::kaplan_meier(
        times({8, 12, 26, 14, 21, 27, 8, 32, 20, 40}, {1, 1, 1, 1, 1, 1, 0, 0, 0, 0}));
    const double b_days[] = {8, 12, 14, 20, 21, 26, 27, 32, 40};
    const double b_left[] = {0.9, 0.788, 0.675, 0.675, 0.54, 0.405, 0.27, 0.27, 0.27};
    for (std::size_t i = 0; i < 9; ++i)
        CHECK(share_at(b, b_days[i]) == Approx(b_left[i]).margin(5.1e-4).epsilon(0));

    const auto e =
        feed::kaplan_meier(times({3, 5, 8, 10, 5, 5, 8, 12, 15, 14, 2, 11, 10, 9, 12, 5, 8, 11},
                                 {1, 1, 1, 0, 1, 0, 1, 1, 0, 0, 1, 1, 0, 0, 1, 1, 1, 1}));
    const double e_days[] = {2, 3, 5, 8, 9, 10, 11, 12, 14, 15};
    const double e_left[] = {0.944, 0.889, 0.722, 0.542, 0.542, 0.542, 0.361, 0.181, 0.181, 0.181};
    for (std::size_t i = 0; i < 10; ++i)
        CHECK(share_at(e, e_days[i]) == Approx(e_left[i]).margin(5.1e-4).epsilon(0));

    const auto d = feed::kaplan_meier(
        times({24, 3, 11, 19, 24, 13, 14, 2, 18, 17, 24, 21, 12, 1, 10, 23, 6, 5, 9, 17},
              {0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 1}));
    CHECK(share_at(d, 1) == Approx(0.95).margin(5.1e-4).epsilon(0));
    CHECK(share_at(d, 14) == Approx(0.76).margin(5.1e-4).epsilon(0));
    CHECK(share_at(d, 23) == Approx(0.507).margin(5.1e-4).epsilon(0));
    CHECK(1.959964 * d.back().standard_error.value() == Approx(0.341).margin(5.1e-4).epsilon(0));

    const auto a = feed::kaplan_meier(
        times({37, 43, 47, 56, 60, 62, 71, 77, 80, 81}, {0, 0, 1, 1, 0, 0, 0, 1, 1, 1}));
    CHECK(share_at(a, 47) == Approx(0.875));
    CHECK(share_at(a, 71) == Approx(0.75));
    CHECK(share_at(a, 80) == Approx(0.25));
    CHECK(a.back().share_left == 0.0);
}

// The course text compares sets B and C and prints 6.151 for the short-cut sum from rounded
// expectations; the variance form of the same data is 6.916.
TEST_CASE("two small sets compare as in the course text") {
    const Times b = times({8, 12, 26, 14, 21, 27, 8, 32, 20, 40}, {1, 1, 1, 1, 1, 1, 0, 0, 0, 0});
    const Times c = times({33, 28, 41, 48, 48, 25, 37, 48, 25, 43}, {1, 1, 1, 0, 0, 0, 0, 0, 0, 0});
    const feed::LogRank test = compare(b, c);
    CHECK(test.expected[0] == Approx(2.620603).margin(5e-7).epsilon(0));
    CHECK(test.expected[1] == Approx(6.379397).margin(5e-7).epsilon(0));
    const double short_cut = std::pow(6 - test.expected[0], 2) / test.expected[0] +
                             std::pow(3 - test.expected[1], 2) / test.expected[1];
    CHECK(short_cut == Approx(6.151).margin(5e-3).epsilon(0));
    CHECK(test.chi_square == Approx(6.915982).margin(5e-7).epsilon(0));
}

// Printed quantiles of the chi-square distribution (any statistical table): 95 % points.
TEST_CASE("the chi-square tail has the tabled quantiles") {
    const double points[] = {3.841, 5.991, 7.815, 9.488, 11.070, 12.592};
    for (std::size_t degrees = 1; degrees <= 6; ++degrees)
        CHECK(feed::chi_square_above(points[degrees - 1], degrees) ==
              Approx(0.05).margin(2e-5).epsilon(0));
}

TEST_CASE("a comparison that can tell nothing says so") {
    const Times never = with_censored({}, {5, 6});
    const feed::LogRank test = compare(never, never);
    CHECK(test.degrees == 0);
    CHECK(test.p_value == 1.0);
    const feed::LogRank lonely = compare(with_censored({3, 4}, {}), {});
    CHECK(lonely.degrees == 0);
    CHECK(feed::kaplan_meier({}).empty());
}
