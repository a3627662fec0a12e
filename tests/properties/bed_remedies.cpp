// Remedies are computed, and what they promise holds when a keeper takes them.
#include <algorithm>
#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <cmath>
#include <optional>
#include <vector>

using namespace feed;
using feed_test::Approx;

namespace {

/// Hazards that stand higher after a step, but hunger where the step is not against it.
std::vector<Hazard> raised(const CheckResult& before, const CheckResult& after,
                           std::optional<Hazard> against) {
    std::vector<Hazard> found;
    for (std::size_t h = 0; h < hazard_count; ++h) {
        const auto hazard = static_cast<Hazard>(h);
        if (hazard == against || hazard == Hazard::underfed) continue;
        const Level was = before.hazards[h].level;
        const Level is = after.hazards[h].level;
        if (was != Level::unknown && is != Level::unknown && is > was) found.push_back(hazard);
    }
    return found;
}

bool is_raised(const HazardFinding& finding) {
    return finding.level == Level::watch || finding.level == Level::act;
}

/// The part of a feeding that random steps find, over either surface, for all hazards at once; -1
/// where they find none. Knows nothing of how the joint remedy is found.
double best_share_by_chance(const kitchen::Household& h, const CheckResult& result,
                            kitchen::Dice& dice, std::vector<Hazard> stays) {
    const CompletedBed bed = completed(h.bed);
    const BedNumbers n = bed_numbers(h.bed, bed, {});
    const DecayedShares decayed = decayed_shares(n.horizon_days);
    const Load feeding = load_of(h.feeding, decayed);
    const RemedyMaterials with = detail::remedy_materials({}, decayed);
    const bool may_lime = n.ph.value_or(0.0) < 7.0 &&
                          hazard_numbers(n, feeding, n.surface_m2 / 3.0).limed_ammonia_g_per_kg <=
                              limits::free_ammonia_nitrogen.watch;
    const double room = bed.free_room.value() / with.bedding_per_kg.settled_m3;
    double best = -1.0;
    for (int i = 0; i < 3000; ++i) {
        // Half of the steps are pure: nothing of one kind, so that the corners are met too.
        const auto some = [&](double most) {
            return dice.below(2) == 0 ? 0.0 : most * std::pow(dice.between(0.0, 1.0), 3.0);
        };
        const double share = dice.below(4) == 0 ? 1.0 : dice.between(0.0, 1.0);
        if (share <= best) continue;
        Load load;
        load.add(feeding, share);
        load.add(with.bedding_per_kg, some(room));
        const Load undiluted = load;
        load.add(with.water_per_kg, some(2.0 * n.dry_kg));
        if (may_lime) load.add(with.lime_per_kg, some(0.2 * n.surface_m2));
        if (load.settled_m3 > bed.free_room.value()) continue;
        const double spread = dice.below(2) == 0 ? n.surface_m2 : n.surface_m2 / 3.0;
        const HazardNumbers judged = hazard_numbers(n, load, spread);
        bool good = true;
        for (std::size_t k = 0; k < hazard_count; ++k) {
            const auto hazard = static_cast<Hazard>(k);
            const bool counts = hazard != Hazard::underfed &&
                                result.hazards[k].level != Level::unknown &&
                                std::find(stays.begin(), stays.end(), hazard) == stays.end();
            good = good && (!counts || judged.of[k].level == Level::none);
            // Water and lime make a feeding heavier, but take no salt, fat or ammonia away.
            const bool by_mass =
                hazard == Hazard::salty || hazard == Hazard::greasy || hazard == Hazard::ammonia;
            good = good && (!counts || !by_mass ||
                            hazard_number(hazard, n, undiluted, spread).level == Level::none);
        }
        if (good) best = share;
    }
    return best;
}

}  // namespace

TEST_CASE("in random households a joint remedy clears all it names and raises nothing") {
    kitchen::Dice dice(53);
    const auto table = kitchen::whole_table();
    int offered = 0;
    int found = 0;
    int with_additions = 0;
    for (int i = 0; i < 600; ++i) {
        const kitchen::Household h = kitchen::random_household(dice, table);
        CheckOptions options;
        if (i % 2 == 1) options.units = UnitSystem::us;
        const CheckResult result = check(h.bed, h.feeding, options);
        const auto count = std::count_if(result.hazards.begin(), result.hazards.end(), is_raised);
        if (count >= 2) {
            const bool helpless = std::all_of(
                result.hazards.begin(), result.hazards.end(), [](const HazardFinding& f) {
                    return !is_raised(f) || !f.remedy.hazard_gone || f.hazard == Hazard::underfed;
                });
            REQUIRE(result.together.has_value() != helpless);
        }
        if (!result.together) continue;
        ++offered;
        const JointRemedy& together = *result.together;
        INFO("household " << i << ": " << together.text);
        REQUIRE_FALSE(together.text.empty());
        if (!together.found) continue;
        ++found;
        if (!together.additions.empty()) ++with_additions;
        const CheckResult after = kitchen::check_after(h.bed, h.feeding, together, options);
        for (const Hazard hazard : together.clears) {
            INFO(text(hazard));
            REQUIRE(is_raised(result[hazard]));
            REQUIRE(after[hazard].level == Level::none);
        }
        for (const Hazard hazard : together.stays)
            REQUIRE(is_raised(result[hazard]));
        REQUIRE(together.clears.size() + together.stays.size() == static_cast<std::size_t>(count));
        REQUIRE(raised(result, after, std::nullopt).empty());
    }
    CHECK(offered > 200);
    CHECK(found > offered / 2);
    CHECK(with_additions > 50);
}

TEST_CASE("no random steps do what a joint remedy says cannot be done, nor keep more of the food") {
    kitchen::Dice dice(57);
    const auto table = kitchen::whole_table();
    int compared = 0;
    for (int i = 0; i < 120; ++i) {
        const kitchen::Household h = kitchen::random_household(dice, table);
        const CheckResult result = check(h.bed, h.feeding);
        if (!result.together || !result.together->cut_down.empty()) continue;
        const JointRemedy& together = *result.together;
        std::vector<Hazard> stays = together.stays;
        if (!together.found) {
            for (const HazardFinding& finding : result.hazards) {
                if (is_raised(finding) && !finding.remedy.hazard_gone)
                    stays.push_back(finding.hazard);
            }
        }
        const double by_chance = best_share_by_chance(h, result, dice, stays);
        INFO("household " << i << ": " << together.text);
        ++compared;
        if (!together.found) {
            REQUIRE(by_chance < 0.0);
            continue;
        }
        // A bed with a hazard that no step takes away is not fed at all.
        if (!together.stays.empty()) continue;
        // A surface is only changed for a fiftieth more, food is rounded down to two figures, and
        // less than a tenth is not laid.
        const double share = together.feed_now.in_kilograms() / kitchen::scraps_kg(h.feeding);
        REQUIRE((by_chance <= share + 0.12 || by_chance <= 0.1));
    }
    CHECK(compared > 40);
}

TEST_CASE("in random households a remedy taken as printed takes its hazard away") {
    kitchen::Dice dice(31);
    const auto table = kitchen::whole_table();
    int taken = 0;
    int refused = 0;
    for (int i = 0; i < 400; ++i) {
        const kitchen::Household h = kitchen::random_household(dice, table);
        CheckOptions options;
        if (i % 2 == 1) options.units = UnitSystem::us;
        const CheckResult result = check(h.bed, h.feeding, options);
        for (const HazardFinding& finding : result.hazards) {
            if (finding.level != Level::watch && finding.level != Level::act) {
                REQUIRE(finding.remedy.kind == RemedyKind::none);
                continue;
            }
            INFO("household " << i << ": " << text(finding.hazard) << ": " << finding.why << " -> "
                              << finding.remedy.text);
            REQUIRE_FALSE(finding.remedy.text.empty());
            if (!finding.remedy.hazard_gone) {
                ++refused;
                // Feeding nothing at all must not have helped either.
                if (finding.hazard != Hazard::salty && finding.hazard != Hazard::greasy)
                    REQUIRE(check(h.bed, {})[finding.hazard].level != Level::none);
                continue;
            }
            ++taken;
            const double added = finding.remedy.add.in_kilograms();
            if (added > 0.0) {
                // What is printed is what was judged, in either system of units.
                const bool water = finding.remedy.kind == RemedyKind::add_water;
                const std::string printed =
                    water ? words::volume(added, options.units) : words::mass(added, options.units);
                REQUIRE(finding.remedy.text.find(printed) != std::string::npos);
                REQUIRE(added == Approx(water ? detail::rounded_volume(added, true, options.units)
                                              : detail::rounded_mass(added, true, options.units))
                                     .epsilon(1e-9));
            }
            const CheckResult after = kitchen::check_after(h.bed, h.feeding, finding);
            REQUIRE(after[finding.hazard].level == Level::none);
            // The whole bed was judged again: what the step raises is said, and nothing else is.
            // An open lid is tried for as long as said, here for the whole time.
            if (finding.remedy.kind == RemedyKind::open_lid) continue;
            REQUIRE(raised(result, after, finding.hazard) == finding.remedy.raises);
        }
    }
    CHECK(taken > 400);
    CHECK(refused < taken);
}

TEST_CASE("a check says the same twice and in any order of other checks") {
    kitchen::Dice dice(77);
    const auto table = kitchen::whole_table();
    const kitchen::Household first = kitchen::random_household(dice, table);
    const kitchen::Household second = kitchen::random_household(dice, table);
    const CheckResult once = check(first.bed, first.feeding);
    check(second.bed, second.feeding);
    const CheckResult again = check(first.bed, first.feeding);
    for (std::size_t h = 0; h < hazard_count; ++h) {
        CHECK(once.hazards[h].value.value == again.hazards[h].value.value);
        CHECK(once.hazards[h].why == again.hazards[h].why);
        CHECK(once.hazards[h].remedy.text == again.hazards[h].remedy.text);
    }
}
