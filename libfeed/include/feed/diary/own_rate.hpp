#pragma once
// How much this bin has shown that it clears, from its feedings and looks.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "feed/bed/bed_numbers.hpp"
#include "feed/bed/completed.hpp"
#include "feed/bed/feeding_rules.hpp"
#include "feed/bed/look_limits.hpp"
#include "feed/diary/diary.hpp"
#include "feed/diary/evidence.hpp"

namespace feed {

namespace own_rate_rule {

/// Judgements (grade D), to be moved by evidence.
inline constexpr double step_up = limits::step_up.value;  ///< at most, a feeding
inline constexpr double step_down =
    limits::step_down.value;  ///< for a feeding that is found half there after a week
inline constexpr int in_a_row = static_cast<int>(
    limits::in_a_row.value);  ///< feedings that were cleared in time before the first step
inline constexpr double full_share =
    limits::full_share.value;  ///< of a week's ration: less proves nothing
inline constexpr std::int64_t early_days = static_cast<std::int64_t>(
    limits::early_days.value);  ///< half gone by then is faster than once a week
inline constexpr double half_left_share = limits::half_left_share.value;
inline constexpr std::int64_t late_days = static_cast<std::int64_t>(limits::late_days.value);
inline constexpr double least_share = limits::least_own_share.value;  ///< of the published start

}  // namespace own_rate_rule

namespace detail {

/// What the last look at a feeding says: how much of it was gone, after how many days.
struct SeenGone {
    double share_gone = 0.0;
    std::int64_t after_days = 0;  ///< 0: never looked at
};

inline std::vector<SeenGone> seen_gone(const Diary& diary, const std::vector<std::size_t>& by_day,
                                       std::int64_t until) {
    std::vector<SeenGone> seen(diary.feedings.size());
    for (const Observation& look : diary.observations) {
        if (day_number(look.date) > until) continue;
        if (!look.left && !look.share_gone && look.gone != FoodGone::yes) continue;
        const auto index = feeding_of(diary, by_day, look);
        if (!index) continue;
        const DatedFeeding& fed = diary.feedings[*index];
        const double scraps_kg = scraps_of(fed.portions).in_kilograms();
        if (!(scraps_kg > 0.0)) continue;
        const double gone = look.gone == FoodGone::yes ? 1.0
                            : look.share_gone          ? *look.share_gone
                                              : 1.0 - look.left->in_kilograms() / scraps_kg;
        seen[*index] = {std::clamp(gone, 0.0, 1.0), day_number(look.date) - day_number(fed.date)};
    }
    return seen;
}

}  // namespace detail

/// Wet scraps for each mass of worms and day that this bin may have, by its own record until a day:
/// the published start, raised by at most 30 % for each feeding of half a week's ration or more
/// that was half gone within five days (at the full ration it takes seven), after two such in a
/// row; lowered by a fifth for each that was half there after a week; never above half the worms'
/// weight a day. Nothing where no look moves it, or where the keeper said a rate. Threads: pure. n
/// log n.
inline std::optional<Rate> own_rate_of(const Diary& diary, Date until) {
    if (diary.bed.own_feeding_rate) return std::nullopt;
    Bed settled = diary.bed;
    settled.age = days(10 * limits::ramp_full_days.value);
    const BedNumbers bed = bed_numbers(settled, completed(settled), {});
    const FeedingRules rules = feeding_rules(bed);
    const double worms = bed.worms_kg.value;
    const double start = rules.rules[rules.lowest].wet_kg_per_day / worms;
    const double most = limits::rate_half_daily.value;
    const std::vector<std::size_t> by_day = detail::feedings_by_day(diary);
    const auto seen = detail::seen_gone(diary, by_day, day_number(until));
    double rate = start;
    int cleared_in_a_row = 0;
    bool moved = false;
    for (const std::size_t i : by_day) {
        if (seen[i].after_days <= 0) continue;
        const double fed_kg = scraps_of(diary.feedings[i].portions).in_kilograms();
        const bool half_there = seen[i].share_gone < own_rate_rule::half_left_share &&
                                seen[i].after_days >= own_rate_rule::late_days;
        if (half_there) {
            cleared_in_a_row = 0;
            rate = std::max(own_rate_rule::least_share * start, own_rate_rule::step_down * rate);
            moved = true;
        } else if (fed_kg >= own_rate_rule::full_share * rate * worms * 7.0 &&
                   seen[i].share_gone >= own_rate_rule::half_left_share &&
                   seen[i].after_days <= own_rate_rule::early_days) {
            if (++cleared_in_a_row < own_rate_rule::in_a_row) continue;
            rate = std::min(most, own_rate_rule::step_up * rate);
            moved = true;
        }
    }
    if (!moved) return std::nullopt;
    return per_day(std::min(most, rate));
}

}  // namespace feed
