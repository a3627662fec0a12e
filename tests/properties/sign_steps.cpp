// Whoever notices something and asks what to do gets the amounts of today's ration: there is one
// answer for one bed, whichever verb is asked. Random invented beds that something is raised in.
#include <array>
#include <catch2.hpp>
#include <optional>
#include <ration_kitchen.hpp>
#include <string>
#include <vector>

#include "feed/ration/signs.hpp"

using namespace feed;

namespace {

/// A cause, the hazard that it is, and a sign that it is among the causes of.
struct Trouble {
    Cause cause;
    Hazard hazard;
    Sign sign;
    bool noted;  ///< as a smell, which the ration answers as one
};
constexpr std::array<Trouble, 6> troubles{{
    {Cause::too_wet, Hazard::wet, Sign::streams, false},
    {Cause::too_dry, Hazard::dry, Sign::dry, false},
    {Cause::too_sour, Hazard::sour, Sign::sour_smell, false},
    {Cause::salty, Hazard::salty, Sign::worms_climbing, false},
    {Cause::ammonia, Hazard::ammonia, Sign::ammonia_smell, true},
    {Cause::packed, Hazard::airless, Sign::rotten_smell, true},
}};

/// What goes in beside food, in the order in which a step names it.
std::vector<PutIn> materials_of(const Ration& ration) {
    std::vector<PutIn> all;
    for (const Part part : {Part::bedding, Part::amendment, Part::poured_water}) {
        for (const PutIn& put : ration.put_in) {
            if (put.part == part) all.push_back(put);
        }
    }
    return all;
}

std::optional<Diagnosis> diagnosis(const SignsAnswer& answer, Cause cause) {
    for (const Diagnosis& one : answer.causes) {
        if (one.cause == cause) return one;
    }
    return std::nullopt;
}

/// Dry to streaming, now and then sour or salty.
void trouble_the(kitchen::Dice& dice, Bed& bed) {
    constexpr std::array<Squeeze, 5> wetness{Squeeze::crumbly, Squeeze::damp, Squeeze::drops,
                                             Squeeze::many_drops, Squeeze::streams};
    bed.moisture.reset();
    bed.bedding.clear();
    bed.squeeze = wetness[dice.below(wetness.size())];
    if (dice.below(3) == 0) bed.ph = dice.between(4.0, 7.0);
    bed.temperature = celsius(dice.between(16.0, 24.0));
    if (dice.below(3) == 0)
        bed.earlier.push_back(
            {days(-2), {kitchen::portion("soy-sauce", dice.between(0.02, 0.4))}, {}, {}});
}

}  // namespace

TEST_CASE("a new bin gets what its ration says") {
    kitchen::Dice dice(14);
    const auto table = kitchen::whole_table();
    int fed = 0;
    int waits = 0;
    for (int i = 0; i < 60; ++i) {
        kitchen::Case c = kitchen::random_case(dice, table);
        c.bed.age = days(dice.between(0.5, 14.0));
        const RationInput in = kitchen::input_of(c, UnitSystem::metric);
        const Ration today = ration(in);
        const auto found =
            diagnosis(causes_of(in, std::vector<Sign>{Sign::worms_climbing}), Cause::new_bin);
        if (!found) continue;
        INFO("bed " << i << ": " << found->remedy.text << " Ration: " << kitchen::told(today));
        REQUIRE(found->remedy.feed_now.in_kilograms() == today.scraps.in_kilograms());
        REQUIRE(found->remedy.text.find("week 1") == std::string::npos);
        ++(today.scraps.in_kilograms() > 0.0 ? fed : waits);
    }
    CHECK(fed > 5);
    CHECK(waits > 5);
}

TEST_CASE("the step for a sign has the amounts of the ration of the same bed") {
    kitchen::Dice dice(1010);
    const auto table = kitchen::whole_table();
    std::array<int, troubles.size()> judged{};
    int with_food = 0;
    for (int i = 0; i < 160; ++i) {
        kitchen::Case c = kitchen::random_case(dice, table);
        trouble_the(dice, c.bed);
        const UnitSystem units = dice.below(3) == 0 ? UnitSystem::us : UnitSystem::metric;
        const RationInput as_said = kitchen::input_of(c, units);
        for (std::size_t t = 0; t < troubles.size(); ++t) {
            const Trouble& trouble = troubles[t];
            RationInput in = as_said;
            if (trouble.noted) in.alarms.push_back({trouble.hazard, "it smelled", Level::act, 0});
            const Ration today = ration(in);
            const bool raised = is_raised(today.before[static_cast<std::size_t>(trouble.hazard)]);
            if (!raised && !trouble.noted) continue;
            const auto found = diagnosis(causes_of(as_said, std::vector<Sign>{trouble.sign}, units),
                                         trouble.cause);
            if (!found) continue;
            const SignStep& step = found->remedy;
            INFO("bed " << i << ", " << found->name << ": " << step.text
                        << " Ration: " << kitchen::told(today));
            REQUIRE(step.feed_now.in_kilograms() == today.scraps.in_kilograms());
            const auto materials = materials_of(today);
            if (materials.empty()) {
                REQUIRE(step.add.in_kilograms() == 0.0);
            } else {
                REQUIRE(step.material == materials.front().thing.feedstock->id);
                REQUIRE(step.add.in_kilograms() == materials.front().wet_mass.in_kilograms());
            }
            // Each of them stands in the text, and nothing of food where the ration has none.
            for (const PutIn& put : materials) {
                const double kg = put.wet_mass.in_kilograms();
                REQUIRE(step.text.find(put.part == Part::poured_water ? words::volume(kg, units)
                                       : put.part == Part::amendment
                                           ? words::pinch_or_mass(kg, units)
                                           : words::mass(kg, units)) != std::string::npos);
            }
            REQUIRE((step.text.find("Feed nothing today") == std::string::npos) ==
                    (today.scraps.in_kilograms() > 0.0));
            ++judged[t];
            with_food += today.scraps.in_kilograms() > 0.0 ? 1 : 0;
        }
    }
    for (std::size_t t = 0; t < troubles.size(); ++t) {
        CAPTURE(t, judged[t]);
        CHECK(judged[t] > 5);
    }
    CHECK(with_food > 5);
}
