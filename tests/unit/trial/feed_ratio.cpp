#include "feed/trial/feed_ratio.hpp"

#include <limits>
#include <vector>

#include "catch2.hpp"
#include "feed/trial/normal_interval.hpp"

using feed_test::Approx;

namespace {

feed::TrialLayout pairs(std::size_t bins) {
    const auto layout = feed::draw_layout({feed::TrialKind::choice, 2, bins, 1, 1, false}, 5);
    REQUIRE(layout);
    return *layout;
}

}  // namespace

// Tables of the normal distribution (Abramowitz & Stegun 1964, 26.1): shares above 1.959964, 3 and,
// as -log10, above 10 (23.11805) and 20 (88.56010).
TEST_CASE("the chance above a point has the tabled values") {
    CHECK(std::exp(feed::detail::log_normal_above(1.959963984540054)) == Approx(0.025));
    CHECK(std::exp(feed::detail::log_normal_above(3.0)) == Approx(0.001349898031630095));
    CHECK(feed::detail::log_normal_above(10.0) / std::log(10.0) == Approx(-23.11805).epsilon(1e-6));
    CHECK(feed::detail::log_normal_above(20.0) / std::log(10.0) == Approx(-88.56010).epsilon(1e-6));
    CHECK(feed::detail::log_normal_above(-40.0) == Approx(0.0).margin(1e-300));
}

TEST_CASE("slope and bend of the chance are its derivatives") {
    const double endless = std::numeric_limits<double>::infinity();
    const double ends[][2] = {
        {-endless, 0.4}, {0.2, 0.9}, {1.1, endless}, {-3.0, -2.5}, {4.0, 4.1}};
    for (const auto& end : ends) {
        for (const double mean : {-1.0, 0.3, 2.0}) {
            const auto at = [&](double m) {
                return feed::detail::log_chance_in(end[0], end[1], m, 0.4);
            };
            const double h = 1e-5;
            const auto here = at(mean);
            const double slope = (at(mean + h).value - at(mean - h).value) / (2 * h);
            const double bend = (at(mean + h).slope - at(mean - h).slope) / (2 * h);
            CHECK(here.slope == Approx(slope).epsilon(1e-5).margin(1e-8));
            CHECK(here.bend == Approx(bend).epsilon(1e-4).margin(1e-7));
        }
    }
}

// Before any look only the prior speaks: the median ratio is 1 and the 90 % interval is
// exp(+-1.644854 x 0.7).
TEST_CASE("a trial without looks gives the prior") {
    const auto layout = pairs(3);
    const std::vector<feed::PlotInterval> nothing(layout.plots.size());
    const auto ratio = feed::feed_ratios(layout, nothing).at(0);
    CHECK(ratio.ratio == Approx(1.0).epsilon(1e-3));
    CHECK(ratio.low == Approx(std::exp(-1.644854 * 0.7)).epsilon(5e-3));
    CHECK(ratio.high == Approx(std::exp(1.644854 * 0.7)).epsilon(5e-3));
    CHECK(ratio.surety_first_quicker == Approx(0.5).margin(1e-3));
    CHECK(ratio.log_sd == Approx(0.7).epsilon(5e-3));
}

TEST_CASE("swapping the names of two feeds turns the ratio over") {
    auto layout = pairs(4);
    std::vector<feed::PlotInterval> looks;
    for (const auto& plot : layout.plots) {
        const double day = (*plot.feed == 0 ? 6.0 : 12.0) + 3.0 * static_cast<double>(plot.bin);
        looks.push_back({day - 3.0, day});
    }
    looks[1].by_days.reset();
    const auto one = feed::feed_ratios(layout, looks).at(0);
    for (auto& plot : layout.plots)
        plot.feed = 1 - *plot.feed;
    const auto other = feed::feed_ratios(layout, looks).at(0);
    CHECK(one.ratio * other.ratio == Approx(1.0).epsilon(1e-3));
    CHECK(one.low * other.high == Approx(1.0).epsilon(1e-3));
    CHECK(one.surety_first_quicker + other.surety_first_quicker == Approx(1.0).margin(1e-4));
    CHECK(one.next_first_quicker + other.next_first_quicker == Approx(1.0).margin(1e-4));
    CHECK(one.ratio < 1.0);
}

// With a true ratio of 1.5 and a known log sd of 0.35 between like portions, the quicker goes first
// with chance Phi(ln 1.5 / (0.35 sqrt 2)) = 0.794.
TEST_CASE("the chance of going first next time does not grow with what is known") {
    const auto layout = pairs(24);
    feed::RatioPrior narrow;
    narrow.spread_log_sd = 0.01;
    std::vector<feed::PlotInterval> looks;
    for (const auto& plot : layout.plots) {
        // Fine looks at exact quantiles, the same for both feeds.
        const double z = 1.6 * (static_cast<double>(plot.bin) - 11.5) / 11.5;
        const double other = (plot.bin % 2 == 0 ? 1.0 : -1.0) * 0.25;
        const double day = 10.0 * std::exp((*plot.feed == 0 ? 0.0 : std::log(1.5)) + 0.35 * z +
                                           (*plot.feed == 0 ? other : -other));
        looks.push_back({0.99 * day, 1.01 * day});
    }
    const auto ratio = feed::feed_ratios(layout, looks, narrow).at(0);
    CHECK(ratio.ratio == Approx(1.0 / 1.5).epsilon(0.02));
    CHECK(ratio.surety_first_quicker > 0.999);
    CHECK(ratio.next_first_quicker == Approx(0.794).margin(0.02));
}
