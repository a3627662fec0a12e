#include "feed/trial/comparison.hpp"

#include <limits>
#include <memory>

#include "catch2.hpp"
#include "feed/feedstock/table.hpp"

using feed::TimeToGone;
using feed::TrialArm;
using feed_test::Approx;

// Freireich et al. 1963, weeks in remission, read as days to gone: medians 23 and 8, chi-square
// 16.79, p 4.17e-05.
TEST_CASE("two feeds are compared with their censored times") {
    TrialArm slow{"whole", {}};
    for (const double t : {6.0, 6.0, 6.0, 7.0, 10.0, 13.0, 16.0, 22.0, 23.0})
        slow.times.push_back({t, true});
    for (const double t : {6.0, 9.0, 10.0, 11.0, 17.0, 19.0, 20.0, 25.0, 32.0, 32.0, 34.0, 35.0})
        slow.times.push_back({t, false});
    TrialArm fast{"chopped", {}};
    for (const double t : {1.0, 1.0, 2.0,  2.0,  3.0,  4.0,  4.0,  5.0,  5.0,  8.0, 8.0,
                           8.0, 8.0, 11.0, 11.0, 12.0, 12.0, 15.0, 17.0, 22.0, 23.0})
        fast.times.push_back({t, true});
    const auto result = feed::compare_arms(std::vector{slow, fast});
    REQUIRE(result);
    CHECK(result->median_days[0] == 23.0);
    CHECK(result->median_days[1] == 8.0);
    CHECK(result->test.chi_square == Approx(16.792941).margin(5e-7).epsilon(0));
    CHECK(result->text.find("chopped: half of the feedings gone by day 8") != std::string::npos);
    CHECK(result->text.find("less than once in 20000 times") != std::string::npos);
}

TEST_CASE("a small trial says that it is small") {
    const TrialArm a{"a", {{3, true}, {4, true}, {9, false}}};
    const TrialArm b{"b", {{5, true}, {8, true}, {9, false}}};
    const auto result = feed::compare_arms(std::vector{a, b});
    REQUIRE(result);
    CHECK(result->text.find("cannot be told from luck") != std::string::npos);
    const TrialArm watched{"c", {{9, false}}};
    const auto nothing = feed::compare_arms(std::vector{watched, watched});
    REQUIRE(nothing);
    CHECK(nothing->text.find("keep watching") != std::string::npos);
}

TEST_CASE("a trial without two watched feeds is refused, with all its problems") {
    const TrialArm good{"good", {{3, true}}};
    const TrialArm empty{"empty", {}};
    const TrialArm bad{"bad", {{std::numeric_limits<double>::quiet_NaN(), true}}};
    CHECK_FALSE(feed::compare_arms(std::vector{good}));
    const auto both = feed::compare_arms(std::vector{empty, bad});
    REQUIRE_FALSE(both);
    REQUIRE(both.errors().size() == 2);
    CHECK(both.errors()[0].field == "times of empty");
    CHECK(both.errors()[1].field == "times of bad");
}

TEST_CASE("the arms of a trial are read from a diary") {
    const auto portion = [](std::string_view id, double wet_kg) {
        return feed::Portion{
            std::make_shared<const feed::Feedstock>(feed::feedstock_at(*feed::find_id(id))),
            feed::wet_kilograms(wet_kg)};
    };
    feed::Diary diary;
    diary.feedings = {{{2026, 5, 1}, {portion("banana-peel", 0.3)}, "", ""},
                      {{2026, 5, 10}, {portion("carrot", 0.3)}, "", ""},
                      {{2026, 5, 20}, {portion("banana-peel", 0.3)}, "", ""},
                      {{2026, 5, 30}, {portion("banana-peel", 0.3)}, "", ""}};
    const auto look = [&](feed::Date date, double share_gone) {
        feed::Observation seen;
        seen.date = date;
        seen.share_gone = share_gone;
        diary.observations.push_back(seen);
    };
    look({2026, 5, 4}, 0.5);
    look({2026, 5, 7}, 0.9);
    look({2026, 5, 14}, 0.4);
    look({2026, 5, 19}, 0.6);
    look({2026, 5, 24}, 0.7);
    const TrialArm peel = feed::arm_of(diary, "banana-peel", "peel");
    REQUIRE(peel.times.size() == 2);
    CHECK(peel.times[0].days == 6.0);
    CHECK(peel.times[0].gone);
    CHECK(peel.times[1].days == 4.0);
    CHECK_FALSE(peel.times[1].gone);
    const TrialArm carrot = feed::arm_of(diary, "carrot", "carrot");
    REQUIRE(carrot.times.size() == 1);
    CHECK(carrot.times[0].days == 9.0);
    CHECK_FALSE(carrot.times[0].gone);
}
