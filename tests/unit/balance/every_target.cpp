// Each property that a target can be of, alone: two ingredients, one of them free, and the amount
// that follows by hand from the definition of the property (docs/balance.md).
#include <string>

#include "answers.hpp"
#include "catch2.hpp"
#include "feed/balance/balance.hpp"
#include "materials.hpp"

using feed::Property;
using feed::TargetProperty;
using feed_test::Approx;
using feed_test::datum;
using feed_test::exactly;
using feed_test::free_amount;
using feed_test::kg;
using feed_test::target;

namespace {

/// Wet scraps, 500 kg/m3 loose; a dry bedding, 60 kg/m3 loose.
feed::Feedstock wet_scraps() {
    return feed_test::material("scraps", 80, 42, 2);
}
feed::Feedstock shreds() {
    return feed_test::bedding("shreds", 10, 45, 0.3);
}

/// 2 kg of scraps and the least shreds that bring a property down to (or up to) `level`; then that
/// much of the shreds and the least scraps that bring it back to the same level.
void check_edge(TargetProperty property, const feed::Feedstock& first,
                const feed::Feedstock& second, double level, bool upper, double least) {
    CAPTURE(std::string(feed::kind(property).key), level, upper);
    const auto edge = [&](bool high) {
        return high ? target(property, std::nullopt, level) : target(property, level, std::nullopt);
    };
    feed::BalanceProblem problem;
    problem.objective = feed::Objective::least_added;
    problem.entries = {exactly(first, 2.0), free_amount(second)};
    problem.targets = {edge(upper)};
    const auto there = feed_test::solved(problem);
    CHECK(kg(there, 1) == Approx(least).epsilon(1e-9));
    REQUIRE(there.reached.size() == 1);
    // The air is asked of the tightest packing, and told of the usual one: never less than asked.
    if (property == TargetProperty::free_air_space)
        CHECK(there.reached[0].quantity.value > level);
    else
        CHECK(there.reached[0].quantity.value == Approx(level).epsilon(1e-9));
    CHECK(there.reached[0].inside);
    CHECK(there.reached[0].binding);

    problem.entries = {free_amount(first), exactly(second, least)};
    problem.targets = {edge(!upper)};
    CHECK(kg(feed_test::solved(problem), 0) == Approx(2.0).epsilon(1e-9));
}

}  // namespace

TEST_CASE("acid is grams of citric acid in a wet kilogram") {
    auto sour = wet_scraps();
    sour[Property::titratable_acidity_wet] = datum(0.006);
    // 2 kg x 6 g/kg = 12 g in 6 kg.
    check_edge(TargetProperty::acid_g_citric_per_wet_kg, sour, shreds(), 2.0, true, 4.0);
}

TEST_CASE("salt is sodium as sodium chloride in the wet mass") {
    auto salty = wet_scraps();
    salty[Property::sodium_wet] = datum(0.002);
    auto little = shreds();
    little[Property::sodium_wet] = datum(0.0005);
    // 2.54 g salt a gram of sodium (58.44 / 22.99): 0.508 % and 0.127 %, wanted 0.3 %.
    check_edge(TargetProperty::salt_wet_fraction, salty, little, 0.003, true,
               2.0 * (0.00508 - 0.003) / (0.003 - 0.00127));
}

TEST_CASE("fat is in the wet mass, from that of the dry mass or as it is given") {
    auto fatty = wet_scraps();
    fatty[Property::fat_dry] = datum(0.10);
    // A fifth is dry, so 2 % of the wet mass: 40 g in 8 kg is 0.5 %.
    check_edge(TargetProperty::fat_wet_fraction, fatty, shreds(), 0.005, true, 6.0);
    fatty[Property::fat_dry].reset();
    fatty[Property::fat_wet] = datum(0.02);
    check_edge(TargetProperty::fat_wet_fraction, fatty, shreds(), 0.005, true, 6.0);
}

TEST_CASE("free air space is what water and solids leave of the settled volume") {
    auto wet = wet_scraps();
    wet[Property::bulk_density_settled] = datum(700.0);
    auto loose = shreds();
    loose[Property::bulk_density_settled] = datum(90.0);
    // Densities of water, organic matter and ash 1000, 1600, 2500 kg/m3 (Richard et al. 2004); the
    // tightest packing takes 15 %. A tenth of the dry mass is ash. Litres a wet kilogram:
    const auto full = [](double moisture) {
        return 1000.0 * (moisture / 1000.0 + (1.0 - moisture) * (0.9 / 1600.0 + 0.1 / 2500.0));
    };
    const auto lacking = [](double settled_l, double full_l) {
        return 0.4 * settled_l - (settled_l - full_l);
    };
    const double least =
        2.0 * lacking(850.0 / 700.0, full(0.8)) / -lacking(850.0 / 90.0, full(0.1));
    check_edge(TargetProperty::free_air_space, wet, loose, 0.4, false, least);
    // Without a settled density scraps lie 1.35 times as dense as loose, bedding 1.5 times (a
    // judgement of the table of assumed values): 675 and 90 kg/m3.
    const double assumed =
        2.0 * lacking(850.0 / 675.0, full(0.8)) / -lacking(850.0 / 90.0, full(0.1));
    check_edge(TargetProperty::free_air_space, wet_scraps(), shreds(), 0.4, false, assumed);
}

TEST_CASE("bedding for scraps is in loose litres") {
    // 4 L of scraps want 6 L of shreds.
    check_edge(TargetProperty::bedding_l_per_scraps_l, wet_scraps(), shreds(), 1.5, false, 0.36);
}

TEST_CASE("totals are the sums themselves") {
    const auto with_total = [](TargetProperty property, double total) {
        feed::BalanceProblem problem;
        problem.objective = feed::Objective::least_added;
        problem.entries = {exactly(wet_scraps(), 2.0), free_amount(shreds())};
        problem.targets = {target(property, total, total)};
        return kg(feed_test::solved(problem), 1);
    };
    CHECK(with_total(TargetProperty::total_wet_kg, 5.0) == Approx(3.0).epsilon(1e-9));
    // 4 L and 1000 / 60 L a kilogram: 8 L more.
    CHECK(with_total(TargetProperty::total_volume_l, 12.0) == Approx(0.48).epsilon(1e-9));
}

TEST_CASE("water is poured only near the least that will do") {
    feed::BalanceProblem problem;
    problem.objective = feed::Objective::closest_to_aims;
    problem.entries = {exactly(shreds(), 1.0), free_amount(feed_test::water())};
    // 0.9 kg dry in 2 kg is 55 %, in 1.8 kg is 50 %; the aim would take 3.5 kg more.
    problem.targets = {target(TargetProperty::moisture, 0.5, 0.9, 0.8)};
    CHECK(kg(feed_test::solved(problem), 1) == Approx(3.5).epsilon(1e-9));
    problem.targets.push_back(target(TargetProperty::water_over_least, std::nullopt, 1.25));
    const auto held = feed_test::solved(problem);
    // The least is 0.8 kg of water.
    CHECK(kg(held, 1) == Approx(1.0).epsilon(1e-9));
    REQUIRE(held.reached.size() == 2);
    CHECK(held.reached[1].quantity.value == Approx(1.25).epsilon(1e-9));
    CHECK(held.reached[1].inside);
}
