#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/feeding_rules.hpp"
#include "feed/blend/take_out.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/ration/caps.hpp"
#include "feed/ration/from_diary.hpp"
#include "feed/ration/household_scraps.hpp"
#include "feed/ration/ration.hpp"
#include "feed/ration/worm_growth.hpp"

// How many worms and what bin the scraps of a week need, and when the worms of a bin will have
// grown to them.
namespace feed {

namespace worm_start {

/// Nobody buys fewer, and nobody needs more to begin with: they multiply, and a new bin is fed
/// little for weeks (common practice).
inline constexpr double least_kg = 0.25;
inline constexpr double most_kg = 1.0;
/// Of the worms that all the scraps need, within these.
inline constexpr double share = 0.5;
/// From this share of them on, all of them.
inline constexpr double nearly_all = 0.75;
/// A usual tote, to say how large a surface is.
inline constexpr double tote_m2 = usual_containers[1].length_m * usual_containers[1].width_m;

}  // namespace worm_start

/// Worms and bin for the scraps of a week.
struct WormNeed {
    Species species = Species::eisenia_fetida;
    std::vector<TakeOut> take_out;
    double scraps_kg = 0.0;      ///< of a week that worms may have
    std::vector<Rest> too_much;  ///< what they may have of the touchy things in a week
    double kg_a_kg_week = 0.0;   ///< that a kg of worms takes in a week; 0: too cold or hot
    double worms_kg = 0.0;       ///< that take all of it
    double surface_m2 = 0.0;     ///< that takes all of it
    double start_kg = 0.0;       ///< to begin with
    double start_surface_m2 = 0.0;
    double start_takes_kg = 0.0;  ///< in a week, once the bin is settled
    WormGrowth growth;
};

/// What a bin can take, and its worms.
struct BinNow {
    Ration ration;  ///< of today
    Species species = Species::eisenia_fetida;
    Ranged worms_kg;
    double surface_m2 = 0.0;
    double most_kg = 0.0;           ///< in a week, however many worms
    std::vector<TakeOut> take_out;  ///< of the scraps that were asked for
    double scraps_kg = 0.0;         ///< of them what worms may have in a week
    std::vector<Rest> too_much;     ///< what they may have of the touchy things in a week
    double wanted_kg = 0.0;  ///< worms that take them; 0: nobody asked, or its surface is too small
    std::optional<int> weighed_days_ago;  ///< since the worms were weighed; nothing: never
    WormGrowth growth;
};

namespace detail {

/// Sorts out what is never fed, and leaves of what is touchy as much as so many worms may have.
/// Returns kg in a week.
inline double eaten_kg(std::span<const ThingAtHand> scraps, double worms_kg,
                       std::vector<Rest>* too_much) {
    KindShares kinds{};
    for (const ThingAtHand& thing : scraps) {
        const double cap = week_cap_kg(*thing.feedstock, worms_kg);
        for (std::size_t kind = 0; kind < kinds.size() && cap < solver::infinity; ++kind) {
            if (thing.feedstock->has(capped_together[kind]))
                kinds[kind] += thing.most->in_kilograms() / cap;
        }
    }
    double sum = 0.0;
    for (const ThingAtHand& thing : scraps) {
        const double there = thing.most->in_kilograms();
        const double cap = week_cap_kg(*thing.feedstock, worms_kg);
        double kept = std::min(there, cap);
        for (std::size_t kind = 0; kind < kinds.size() && cap < solver::infinity; ++kind) {
            if (thing.feedstock->has(capped_together[kind]) && kinds[kind] > 1.0)
                kept = std::min(kept, there / kinds[kind]);
        }
        sum += kept;
        if (too_much != nullptr && kept < 0.999 * there)
            too_much->push_back({thing, wet_kilograms(kept), true});
    }
    return sum;
}

/// What a ration gives in a week, once a bin is settled: for a kg of worms, and at most.
struct RuleOfWeek {
    double kg_a_kg = 0.0;
    double most_kg = 0.0;
};
inline RuleOfWeek rule_of_week(BedNumbers bed) {
    const double surface = bed.surface_m2;
    bed.rate_factor = bed.cold_factor;
    bed.worms_kg = Ranged(1.0);
    bed.surface_m2 = 1e6;
    const double by_worms = 7.0 * feeding_rules(bed).start_wet_kg_per_day;
    bed.worms_kg = Ranged(1e6);
    bed.surface_m2 = surface;
    return {by_worms, 7.0 * feeding_rules(bed).start_wet_kg_per_day};
}

/// What is fed of some scraps in a week, and the worms that take it. Fewer scraps need fewer worms,
/// which may have less of what is touchy: from above, until it stands. Worms that are there already
/// and are more than that may have more of what is touchy.
struct Fed {
    double kg = 0.0;
    double worms_kg = 0.0;
};
inline Fed fed_of(std::span<const ThingAtHand> scraps, double kg_a_kg, double there_kg,
                  std::vector<Rest>* too_much) {
    Fed fed{solver::infinity, 1e6};
    for (int i = 0; i < 500; ++i) {
        const double now = eaten_kg(scraps, fed.worms_kg, nullptr);
        if (fed.kg - now < 1e-6) break;
        fed.kg = now;
        fed.worms_kg = std::max(now / kg_a_kg, worm_start::least_kg);
    }
    if (there_kg > fed.worms_kg) {
        const double now = eaten_kg(scraps, there_kg, nullptr);
        if (now > fed.kg) fed = {now, there_kg};
    }
    if (too_much != nullptr) eaten_kg(scraps, fed.worms_kg, too_much);
    return fed;
}

inline std::vector<ThingAtHand> without_barred(std::span<const ThingAtHand> said,
                                               std::vector<TakeOut>& out) {
    std::vector<ThingAtHand> scraps;
    for (const ThingAtHand& thing : said) {
        if (barred_in(*thing.feedstock, Place::worm_bed))
            out.push_back(take_out(*thing.feedstock, thing.label));
        else if (part_of(*thing.feedstock) == Part::scraps && thing.most)
            scraps.push_back(thing);
    }
    return scraps;
}

/// Every span between two days on which the worms of a bed were known, but for those in which some
/// were taken out on purpose. What was not fed by the diary is taken as fed by the ration.
inline std::vector<WeighedTwice> weighed_twice(const Diary& diary, std::int64_t until,
                                               double kg_a_kg_day) {
    std::vector<WeighedTwice> spans;
    std::optional<std::int64_t> from;
    double from_kg = 0.0;
    if (diary.bed_date && (diary.bed.worms.wet_mass || diary.bed.worms.count)) {
        from = day_number(*diary.bed_date);
        from_kg = completed(diary.bed).worms.value.in_kilograms();
    }
    bool taken = false;
    for (const std::size_t i : observations_by_day(diary)) {
        const Observation& seen = diary.observations[i];
        const std::int64_t day = day_number(seen.date);
        if (day > until || (from && day < *from)) continue;
        taken = taken || (!seen.action.empty() && bed_change_of(seen).worms_went_too);
        if (!seen.worm_weight) continue;
        const double to_kg = seen.worm_weight->in_kilograms();
        if (from && day > *from && !taken && from_kg > 0.0 && to_kg > 0.0) {
            double fed_kg = 0.0;
            for (const DatedFeeding& feeding : diary.feedings) {
                const std::int64_t on = day_number(feeding.date);
                if (on >= *from && on < day) fed_kg += scraps_of(feeding.portions).in_kilograms();
            }
            const auto days = static_cast<double>(day - *from);
            const double by_ration = kg_a_kg_day * std::sqrt(from_kg * to_kg);
            spans.push_back({from_kg, to_kg, static_cast<int>(std::min(days, 3650.0)),
                             fed_kg > 0.0 ? fed_kg / days : by_ration});
        }
        from = day;
        from_kg = to_kg;
        taken = false;
    }
    return spans;
}

inline void after(std::optional<int>& day, int least) {
    if (day) day = std::max(*day, least);
}

}  // namespace detail

/// The scraps that a household is to expect, as things of a week.
inline std::vector<ThingAtHand> things_of(const HouseholdScraps& expected) {
    std::vector<ThingAtHand> things;
    for (std::size_t kind = 0; kind < expected.kinds_kg.size(); ++kind) {
        const auto row = find_id(HouseholdScraps::feedstock(kind));
        if (!row || !(expected.kinds_kg[kind].value > 0.0)) continue;
        ThingAtHand thing;
        thing.feedstock = std::make_shared<const Feedstock>(feedstock_at(*row));
        thing.label = std::string(HouseholdScraps::name(kind));
        thing.most = wet_kilograms(expected.kinds_kg[kind].value);
        things.push_back(std::move(thing));
    }
    return things;
}

/// Worms and bin for the scraps of a week, by the same rules as a ration: the lower of the worms'
/// weight a week and a pound a square foot a week. To begin with half of the worms, 250 g to 1 kg;
/// they grow to the rest. What is never fed is set aside, and of what is touchy no more is counted
/// than the worms may have. More scraps never need fewer worms. Threads: pure. Time: 10 ms.
/// @param said  `most` of each is the wet mass of a week.
/// @param bed   how warm it is, which worms; and how many to begin with where that is said.
inline WormNeed worm_need(std::span<const ThingAtHand> said, const Bed& bed = {}) {
    WormNeed need;
    const std::vector<ThingAtHand> scraps = detail::without_barred(said, need.take_out);
    const CompletedBed full = completed(bed);
    BedNumbers numbers = bed_numbers(bed, full, {});
    numbers.surface_m2 = 1.0;
    const detail::RuleOfWeek rule = detail::rule_of_week(numbers);
    need.species = full.species;
    need.kg_a_kg_week = rule.kg_a_kg;
    if (!(rule.kg_a_kg > 0.0)) return need;
    const bool said_start = bed.worms.wet_mass || bed.worms.count;
    const double there_kg = said_start ? full.worms.value.in_kilograms() : 0.0;
    const detail::Fed fed = detail::fed_of(scraps, rule.kg_a_kg, there_kg, &need.too_much);
    need.scraps_kg = fed.kg;
    if (!(fed.kg > 0.0)) return need;
    need.worms_kg = fed.worms_kg;
    need.surface_m2 = fed.kg / rule.most_kg;
    double low =
        std::clamp(worm_start::share * need.worms_kg, worm_start::least_kg, worm_start::most_kg);
    if (low > worm_start::nearly_all * need.worms_kg) low = need.worms_kg;
    need.start_kg = said_start ? there_kg : low;
    need.start_takes_kg = std::min(need.start_kg * rule.kg_a_kg, need.scraps_kg);
    need.start_surface_m2 = need.start_takes_kg / rule.most_kg;
    GrowthInput grow;
    grow.species = full.species;
    grow.celsius_low = in_celsius(full.temperature_low);
    grow.celsius_high = in_celsius(full.temperature_high);
    grow.surface_m2 = need.surface_m2;
    grow.worms_kg = Ranged(need.start_kg);
    grow.new_bed = true;
    grow.kg_a_kg_day = rule.kg_a_kg / 7.0;
    grow.scraps_kg_a_day = need.scraps_kg / 7.0;
    grow.wanted_kg = need.worms_kg;
    need.growth = worm_growth(grow);
    for (std::optional<int>* day : {&need.growth.earliest, &need.growth.day, &need.growth.latest})
        detail::after(*day, static_cast<int>(limits::ramp_full_days.value));
    return need;
}

/// What a bin can take: the ration's own numbers, and when its worms will have grown to the scraps
/// of a week. Threads: pure. Time: a ration and 10 ms; more with many weighings.
/// @param in     what the ration is decided from; its things are left alone.
/// @param diary  tells how its worms grew so far.
/// @param said   scraps of a week, as above; empty where nobody asks.
inline BinNow bin_now(const RationInput& in, const Diary& diary,
                      std::span<const ThingAtHand> said) {
    BinNow now;
    now.ration = ration(in);
    const CompletedBed full = completed(in.bed, in.units);
    const BedNumbers numbers = bed_numbers(in.bed, full, {});
    const detail::RuleOfWeek rule = detail::rule_of_week(numbers);
    now.species = full.species;
    now.worms_kg = numbers.worms_kg;
    now.surface_m2 = numbers.surface_m2;
    now.most_kg = rule.most_kg;
    GrowthInput grow;
    grow.species = full.species;
    grow.celsius_low = in_celsius(full.temperature_low);
    grow.celsius_high = in_celsius(full.temperature_high);
    grow.surface_m2 = now.surface_m2;
    grow.worms_kg = numbers.worms_kg;
    grow.new_bed = in.bed.age && in_days(*in.bed.age) < 21.0;
    grow.kg_a_kg_day = rule.kg_a_kg / 7.0;
    grow.most_kg_a_day = rule.most_kg / 7.0;
    if (!said.empty()) {
        const std::vector<ThingAtHand> scraps = detail::without_barred(said, now.take_out);
        const detail::Fed fed = detail::fed_of(scraps, std::max(rule.kg_a_kg, 1e-9),
                                               numbers.worms_kg.value, &now.too_much);
        now.scraps_kg = fed.kg;
        if (rule.kg_a_kg > 0.0 && fed.kg <= rule.most_kg * (1.0 + 1e-9))
            now.wanted_kg = fed.worms_kg;
        grow.scraps_kg_a_day = fed.kg / 7.0;
        grow.wanted_kg = now.wanted_kg > 0.0 ? now.wanted_kg : 1e9;
    }
    if (in.date) {
        const std::int64_t today = day_number(*in.date);
        grow.weighed = detail::weighed_twice(diary, today, grow.kg_a_kg_day);
        for (const Observation& seen : diary.observations) {
            const std::int64_t ago = today - day_number(seen.date);
            if (seen.worm_weight && ago >= 0 &&
                (!now.weighed_days_ago || ago < *now.weighed_days_ago))
                now.weighed_days_ago = static_cast<int>(std::min<std::int64_t>(ago, 36500));
        }
    }
    now.growth = worm_growth(grow);
    if (in.bed.age) {
        const double left = limits::ramp_full_days.value - in_days(*in.bed.age);
        for (std::optional<int>* day : {&now.growth.earliest, &now.growth.day, &now.growth.latest})
            detail::after(*day, static_cast<int>(std::clamp(left, 0.0, 84.0)));
    }
    return now;
}

}  // namespace feed
