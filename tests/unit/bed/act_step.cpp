#include "feed/bed/act_step.hpp"

#include <array>
#include <catch2.hpp>
#include <string>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

namespace {

/// The bed without food, over its whole surface.
HazardNumbers judge_now(const Bed& bed) {
    const BedNumbers n = kitchen::numbers(bed);
    return hazard_numbers(feeding_place(n, n.surface_m2), Load{});
}

ActStep step_for(const Bed& bed, std::initializer_list<Hazard> hazards,
                 UnitSystem units = UnitSystem::metric) {
    std::array<bool, hazard_count> raised{};
    for (const Hazard hazard : hazards)
        raised[static_cast<std::size_t>(hazard)] = true;
    const BedNumbers n = kitchen::numbers(bed);
    return act_step(feeding_place(n, n.surface_m2), step_materials(kitchen::card().share()), raised,
                    units);
}

}  // namespace

TEST_CASE("a wet bed gets bedding, at most a tenth of its volume") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::streams;
    const ActStep step = step_for(bed, {Hazard::wet});
    // A tenth of 41.8 L at 45 kg/m3 loose, rounded down to two figures.
    CHECK(step.bedding_kg == Approx(0.18));
    CHECK(step.water_kg == 0.0);
    CHECK(step.lime_kg == 0.0);
    // Water 0.96 of 28.215 kg and 0.05 x 0.18; capacity 28.215 + 3 x 0.95 x 0.18.
    CHECK(step.after[Hazard::wet].value.value ==
          Approx((0.96 * 28.215 + 0.009) / (28.215 + 0.513)));
}

TEST_CASE("a dry bed gets as much water as lifts it over the limit, and no more than a day's") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::crumbly;
    const ActStep step = step_for(bed, {Hazard::dry});
    // To 0.45 of 28.215 kg with a week's 0.4389 kg of drying it needs 6.1 kg; a day gets 2.09 kg.
    CHECK(step.water_kg == Approx(2.0).margin(0.1));
    CHECK(step.bedding_kg == 0.0);
}

TEST_CASE("a sour bed gets lime, none where its strip shows 7 or more") {
    Bed bed = kitchen::tote();
    bed.ph = 4.8;
    const ActStep step = step_for(bed, {Hazard::sour});
    CHECK(step.lime_kg > 0.0);
    CHECK(step.after[Hazard::sour].value.value < judge_now(bed)[Hazard::sour].value.value);
    bed.ph = 7.2;
    CHECK(step_for(bed, {Hazard::sour}).lime_kg == 0.0);
}

TEST_CASE("a step raises nothing that was not raised") {
    kitchen::Dice dice(11);
    const auto table = kitchen::whole_table();
    int steps = 0;
    for (int i = 0; i < 500; ++i) {
        const Bed bed = kitchen::random_household(dice, table).bed;
        const HazardNumbers before = judge_now(bed);
        std::array<bool, hazard_count> raised{};
        for (std::size_t h = 0; h < hazard_count; ++h)
            raised[h] = is_raised(before.of[h].level);
        const BedNumbers n = kitchen::numbers(bed);
        const ActStep step = act_step(feeding_place(n, n.surface_m2), step_materials(nullptr),
                                      raised, i % 2 == 0 ? UnitSystem::metric : UnitSystem::us);
        if (step.any()) ++steps;
        const auto worse = kitchen::raised_by(before, step.after);
        INFO("bed " << i << ": " << (worse.empty() ? std::string() : std::string(text(worse[0]))));
        REQUIRE(worse.empty());
    }
    CHECK(steps > 100);
}
