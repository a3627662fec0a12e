#pragma once
// On which days to look at the plots of a trial.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "feed/trial/design.hpp"

namespace feed {

/// Every portion is expected to be found within so many days (D; median about two).
inline constexpr int days_until_found = 4;

namespace detail {

inline void add_day(std::vector<int>& days, int day, int last, std::size_t most) {
    if (day < 1 || day > last || days.size() >= most) return;
    if (std::find(days.begin(), days.end(), day) == days.end()) days.push_back(day);
}

}  // namespace detail

/// The last day of a trial for which nobody named one: twice as long as the slowest feed is
/// expected to take, so that a slow one is seen to go; at least a week, at most 120 days; two weeks
/// where only finding is asked for.
inline int usual_last_day(TrialQuestion question, std::span<const double> expected_days) {
    if (question == TrialQuestion::found) return 14;
    double slowest = 0.0;
    for (const double day : expected_days)
        slowest = std::max(slowest, day);
    return static_cast<int>(std::lround(std::clamp(2.0 * slowest, 7.0, 120.0)));
}

/// Days to look: daily until all are found, then days near those on which each feed is expected to
/// be gone, then every third day until the last. Where the keeper grants fewer looks, the days that
/// tell most stay: for `found` the first days, for `gone` those near the expected ones.
/// @param expected_days  for each feed; may be empty.
/// @param last_day       at least 1.
/// @param granted        at least 1: the most looks.
/// @return rising, the last one `last_day`.
inline std::vector<int> look_days_of(TrialQuestion question, std::span<const double> expected_days,
                                     int last_day, std::size_t granted) {
    std::vector<int> days;
    detail::add_day(days, last_day, last_day, granted);
    const auto daily = [&] {
        for (int day = 1; day <= days_until_found; ++day)
            detail::add_day(days, day, last_day, granted);
    };
    const auto expected = [&] {
        for (const double share : {1.0, 0.75, 1.35, 0.55, 1.8}) {
            for (const double day : expected_days)
                detail::add_day(days, static_cast<int>(std::lround(share * day)), last_day,
                                granted);
        }
    };
    if (question == TrialQuestion::found) {
        daily();
        expected();
    } else {
        expected();
        daily();
    }
    for (int day = days_until_found + 3; day < last_day; day += 3) {
        // A look within a day of another adds next to nothing.
        const bool near = std::any_of(days.begin(), days.end(),
                                      [&](int known) { return std::abs(known - day) <= 1; });
        if (!near) detail::add_day(days, day, last_day, granted);
    }
    std::sort(days.begin(), days.end());
    return days;
}

}  // namespace feed
