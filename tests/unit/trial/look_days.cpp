#include "feed/trial/look_days.hpp"

#include "catch2.hpp"

using Days = std::vector<int>;
using feed::TrialQuestion;

TEST_CASE("looks are daily, then near the expected days, then every third day") {
    const std::vector<double> expected{10.0};
    const auto days = feed::look_days_of(TrialQuestion::gone, expected, 20, 30);
    // 5.5, 7.5, 10, 13.5, 18 rounded; then those of 7, 10, 13 ... that are not next to one.
    CHECK(days == Days{1, 2, 3, 4, 6, 8, 10, 14, 16, 18, 20});
}

TEST_CASE("fewer looks keep the days that tell most") {
    const std::vector<double> expected{10.0, 20.0};
    CHECK(feed::look_days_of(TrialQuestion::gone, expected, 30, 4) == Days{8, 10, 20, 30});
    CHECK(feed::look_days_of(TrialQuestion::found, expected, 14, 4) == Days{1, 2, 3, 14});
    CHECK(feed::look_days_of(TrialQuestion::gone, {}, 14, 1) == Days{14});
}

TEST_CASE("the last day leaves time for the slowest") {
    const std::vector<double> expected{10.0, 20.0};
    CHECK(feed::usual_last_day(TrialQuestion::gone, expected) == 40);
    CHECK(feed::usual_last_day(TrialQuestion::gone, {}) == 7);
    CHECK(feed::usual_last_day(TrialQuestion::found, expected) == 14);
}
