#include "feed/bed/feeding_rules.hpp"

#include <catch2.hpp>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

namespace {
constexpr double pound = kilograms_per_pound;
constexpr double square_foot = metres_per_foot * metres_per_foot;

BedNumbers stocked(double pounds_per_square_foot) {
    BedNumbers bed = kitchen::numbers(kitchen::tote());
    bed.surface_m2 = square_foot;
    bed.worms_kg = Ranged(pounds_per_square_foot * pound);
    return bed;
}
double pounds_a_week(const FeedingRule& rule) {
    return 7.0 * rule.wet_kg_per_day / pound;
}
}  // namespace

TEST_CASE("the rules clash as keepers' texts do") {
    // Stocked at 1 lb a square foot: the daily half asks for 3.5 lb a square foot a week, not 1;
    // the weekly rule agrees with the surface rule.
    const FeedingRules rules = feeding_rules(stocked(1.0));
    CHECK(pounds_a_week(rules.rules[2]) == Approx(3.5));
    CHECK(pounds_a_week(rules.rules[1]) == Approx(1.0));
    CHECK(pounds_a_week(rules.rules[0]) == Approx(1.0));
    // The daily half and the surface rule agree only near 0.29 lb of worms a square foot.
    const FeedingRules thin = feeding_rules(stocked(0.2857));
    CHECK(pounds_a_week(thin.rules[2]) == Approx(pounds_a_week(thin.rules[1])).epsilon(0.001));
}

TEST_CASE("one pound a square foot a week is 4.88 kg a square metre a week") {
    CHECK(7.0 * limits::rate_by_surface.value == Approx(4.88).epsilon(0.001));
}

TEST_CASE("the loads of the surface tested follow from rate and stocking") {
    CHECK(limits::rate_best_castings.value * 1.6 == Approx(limits::rate_by_surface_tested.value));
    CHECK(limits::rate_most_worms.value * 1.6 == Approx(limits::rate_by_surface_tested.high));
}

TEST_CASE("the lower rule is the start") {
    const FeedingRules crowded = feeding_rules(stocked(2.0));
    CHECK(crowded.lowest == 1);  // the surface is short
    CHECK(crowded.start_wet_kg_per_day == crowded.rules[1].wet_kg_per_day);
    const FeedingRules sparse = feeding_rules(stocked(0.5));
    CHECK(sparse.lowest == 0);  // the worms are few
    for (const FeedingRule& rule : sparse.rules)
        CHECK(sparse.start_wet_kg_per_day <= rule.wet_kg_per_day);
    CHECK(sparse.most_wet_kg_per_day >= sparse.start_wet_kg_per_day);
}

TEST_CASE("the keeper's own record takes over") {
    BedNumbers bed = stocked(1.0);
    bed.own_rate = 0.2;
    CHECK(feeding_rules(bed).own_record);
    CHECK(feeding_rules(bed).start_wet_kg_per_day == Approx(0.2 * pound));
}

TEST_CASE("the keeper's own record is no leave to feed past what is published") {
    // At a pound a square foot the surface that was tested, 1.2 kg a square metre and day, decides.
    BedNumbers bed = stocked(1.0);
    bed.own_rate = 0.4;
    CHECK(feeding_rules(bed).start_wet_kg_per_day == Approx(1.2 * 0.09290304));
    // On a wide surface half of the worms' weight a day does.
    bed.surface_m2 *= 10.0;
    bed.own_rate = 0.9;
    CHECK(feeding_rules(bed).start_wet_kg_per_day == Approx(0.5 * pound));
}

TEST_CASE("a new bin and a cold bin start lower") {
    CHECK(ramp_share(days(3)) == 0.25);
    CHECK(ramp_share(days(49)) == Approx(0.625));
    CHECK(ramp_share(days(100)) == 1.0);
    const SpeciesLimits& red = limits_of(Species::eisenia_fetida);
    CHECK(temperature_share(red, celsius(4)) == 0.0);  // keepers: ate nothing at 39 F
    CHECK(temperature_share(red, celsius(20)) == 1.0);
    CHECK(temperature_share(red, celsius(36)) == 0.0);
    CHECK(temperature_share(red, celsius(10)) == Approx(6.0 / 11.0));
}

TEST_CASE("the sentence says which rule was taken and why, with cold and age") {
    Bed bed = kitchen::tote();
    bed.age = days(20);
    bed.temperature = celsius(12);
    const BedNumbers n = kitchen::numbers(bed);
    const std::string said = words::feeding_rules_sentence(n, feeding_rules(n));
    CHECK(said.find("71 g (the worms' weight a week)") != std::string::npos);
    CHECK(said.find("250 g (half the worms' weight a day)") != std::string::npos);
    CHECK(said.find("the lowest, times 0.73 for 12 C, times 0.31 for a new bin, is the start, "
                    "because") != std::string::npos);
}
