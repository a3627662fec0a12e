#include "feed/trial/power.hpp"

#include "catch2.hpp"

using feed_test::Approx;

namespace {

feed::PowerSetting every(double step, double last) {
    feed::PowerSetting setting;
    for (double day = step; day <= last; day += step)
        setting.look_days.push_back(day);
    return setting;
}

double power(std::size_t feeds, std::size_t bins, double ratio, double spread, double step = 3.0) {
    const auto layout = feed::draw_layout({feed::TrialKind::choice, feeds, bins, 1, 1, false}, 11);
    REQUIRE(layout);
    return feed::power_of(*layout, every(step, 60.0), ratio, spread, 600);
}

}  // namespace

// Simulations made before, by other code: 300 to 400 trials a cell (standard error up to 2.5 in
// 100), looks every 3 days, log sd 0.35; and every 2 days for the last three. Read to 5 points;
// ours have a standard error of 2.
TEST_CASE("power agrees with simulations made elsewhere") {
    CHECK(power(2, 8, 2.0, 0.35) == Approx(0.89).margin(0.08).epsilon(0));
    CHECK(power(2, 12, 1.5, 0.35) == Approx(0.68).margin(0.08).epsilon(0));
    CHECK(power(3, 6, 2.0, 0.35) == Approx(0.82).margin(0.08).epsilon(0));
    CHECK(power(4, 12, 1.3, 0.35) == Approx(0.34).margin(0.08).epsilon(0));
    CHECK(power(2, 8, 1.5, 0.2, 2.0) == Approx(0.87).margin(0.08).epsilon(0));
    CHECK(power(2, 8, 1.5, 0.5, 2.0) == Approx(0.24).margin(0.08).epsilon(0));
}

TEST_CASE("a trial that cannot reach the limit has no power at all") {
    CHECK(power(2, 3, 2.0, 0.35) == 0.0);
}

TEST_CASE("like feeds are called clear at most five times in a hundred") {
    CHECK(power(2, 8, 1.0, 0.35) <= 0.05 + 3 * 0.009);
    CHECK(power(4, 6, 1.0, 0.35) <= 0.05 + 3 * 0.009);
}

TEST_CASE("the table has nine cells and says how far it is") {
    const auto layout = feed::draw_layout({feed::TrialKind::choice, 2, 6, 1, 1, false}, 11);
    REQUIRE(layout);
    std::size_t last = 0;
    const auto table =
        feed::power_table(*layout, every(3.0, 60.0), [&](std::size_t done) { last = done; });
    CHECK(last == 9);
    CHECK(table[1][2] > table[1][0]);
    CHECK(table[0][1] > table[2][1]);
}
