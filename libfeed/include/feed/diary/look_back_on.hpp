#pragma once
#include <algorithm>
#include <cstddef>
#include <optional>

#include "feed/diary/diary.hpp"
#include "feed/diary/evidence.hpp"
#include "feed/diary/look_back_check.hpp"
#include "feed/forecast/forecast.hpp"

namespace feed {

/// A look at the food and what the forecast of its feeding says for that day.
struct LookBackOn {
    LookBack said;
    WetMass scraps_fed;
    Date fed_on;
};

/// What should be left, on the day of a look, of the feeding it speaks of: the bed as it was on the
/// day of that feeding, followed until the look with the published rates.
/// Nothing when there is no such feeding, it had no scraps, or the look is of the same day or more
/// than a forecast (366 days) later. Time: one forecast. Threads: pure.
inline std::optional<LookBackOn> look_back_on(const Diary& diary, const Observation& look) {
    const auto by_day = detail::feedings_by_day(diary);
    const auto index = detail::feeding_of(diary, by_day, look);
    if (!index) return std::nullopt;
    const DatedFeeding& fed = diary.feedings[*index];
    const auto days_after = day_number(look.date) - day_number(fed.date);
    if (days_after < 1 || days_after > 366) return std::nullopt;
    const auto day = static_cast<std::size_t>(days_after);
    const Feeding feeding{days(0), fed.portions};
    ForecastOptions options;
    options.days = day;
    const Forecast f = forecast(bed_on(diary, fed.date), {&feeding, 1}, options);
    LookBackOn found;
    found.fed_on = fed.date;
    found.scraps_fed = scraps_of(fed.portions);
    double fed_kg = 0.0;
    for (const ForecastPortion& portion : f.portions) {
        if (!portion.is_scraps) continue;
        fed_kg += portion.wet_kg;
        found.said.share_left += portion.wet_kg * f.share_left(portion, day);
        found.said.share_left_low += portion.wet_kg * f.least_left(portion, day);
        found.said.share_left_high += portion.wet_kg * f.most_left(portion, day);
    }
    if (!(fed_kg > 0.0)) return std::nullopt;
    found.said.share_left /= fed_kg;
    found.said.share_left_low /= fed_kg;
    found.said.share_left_high /= fed_kg;
    found.said.day = static_cast<int>(day);
    return found;
}

}  // namespace feed
