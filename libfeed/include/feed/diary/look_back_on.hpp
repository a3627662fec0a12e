#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "feed/diary/bed_today.hpp"
#include "feed/diary/diary.hpp"
#include "feed/diary/evidence.hpp"
#include "feed/diary/look_back_check.hpp"

namespace feed {

/// A look at the food and what this bin should have left on that day.
struct LookBackOn {
    LookBack said;
    WetMass scraps_fed;
    Date fed_on;
    /// Soft food of all feedings left on that day, as a share of what they brought; feedings of
    /// which nothing soft is left do not count.
    double all_left = 0.0;
};

/// What should be left, on the day of a look, of the feeding it speaks of: the course of this bin
/// as its earlier looks taught it. Nothing when there is no such feeding, it had no scraps, or the
/// look is of the same day or more than `longest_watch_days` later. Time: as bed_today. Threads:
/// pure.
inline std::optional<LookBackOn> look_back_on(const Diary& diary, const Observation& look) {
    const auto by_day = detail::feedings_by_day(diary);
    const auto index = detail::feeding_of(diary, by_day, look);
    if (!index) return std::nullopt;
    const DatedFeeding& fed = diary.feedings[*index];
    const std::int64_t from = day_number(fed.date);
    const std::int64_t seen = day_number(look.date);
    if (seen <= from || seen - from > longest_watch_days) return std::nullopt;
    if (!(scraps_of(fed.portions).in_kilograms() > 0.0)) return std::nullopt;
    // What was known before this look.
    Diary before = diary;
    std::erase_if(before.observations,
                  [&](const Observation& other) { return day_number(other.date) >= seen; });
    const BedToday then = bed_today(diary.bed, before, look.date);
    LookBackOn found;
    found.fed_on = fed.date;
    found.scraps_fed = scraps_of(fed.portions);
    double soft_fed_kg = 0.0;
    double soft_left_kg = 0.0;
    for (const FoodLeft& food : then.food) {
        if (food.soft_left.value > 0.05) {
            soft_left_kg += food.soft_wet_kg.value;
            soft_fed_kg += food.soft_wet_kg.value / food.soft_left.value;
        }
        if (food.feeding != *index) continue;
        found.said.share_left = food.share_left.value;
        found.said.share_left_low = food.share_left.low;
        found.said.share_left_high = food.share_left.high;
        found.said.day = static_cast<int>(seen - from);
    }
    if (!found.said.day) return std::nullopt;
    if (soft_fed_kg > 0.0) found.all_left = soft_left_kg / soft_fed_kg;
    return found;
}

}  // namespace feed
