#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/bed/load.hpp"
#include "feed/diary/bed_change.hpp"
#include "feed/diary/date.hpp"
#include "feed/diary/more_than_holds.hpp"
#include "feed/diary/observation.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/sorted.hpp"

namespace feed {

/// A feeding with its date.
struct DatedFeeding {
    Date date;
    std::vector<Portion> portions;
    std::string by;
    std::string note;
};

/// The record of one bin: the bed on a day, what went in and what was seen. Entries stand in the
/// order in which they were written; gaps and slips are allowed (see `slips_of`).
struct Diary {
    std::string name;
    Bed bed;
    std::optional<Date> bed_date;  ///< nothing: the day of the first entry
    std::vector<DatedFeeding> feedings;
    std::vector<Observation> observations;
};

/// Something in a diary that does not add up. Pointed out, never refused.
struct Slip {
    bool of_feeding = false;  ///< true: a feeding; false: an observation
    std::size_t entry = 0;    ///< index of the entry
    std::string text;         ///< one sentence
};

/// Wet mass of the scraps of a feeding, bedding and water not counted.
inline WetMass scraps_of(std::span<const Portion> portions) noexcept {
    double wet_kg = 0.0;
    for (const Portion& portion : portions) {
        if (part_of(*portion.feedstock) == Part::scraps) wet_kg += portion.wet_mass.in_kilograms();
    }
    return wet_kilograms(wet_kg);
}

/// Wet mass of all portions of a feeding.
inline WetMass whole_of(std::span<const Portion> portions) noexcept {
    double wet_kg = 0.0;
    for (const Portion& portion : portions)
        wet_kg += portion.wet_mass.in_kilograms();
    return wet_kilograms(wet_kg);
}

/// First and last day that a diary speaks of, or nothing when it has no dated entry.
struct DiarySpan {
    std::int64_t first = 0;
    std::int64_t last = 0;
};
inline std::optional<DiarySpan> span_of(const Diary& diary) noexcept {
    std::optional<DiarySpan> span;
    const auto add = [&](Date date) {
        const std::int64_t day = day_number(date);
        if (!span) span = DiarySpan{day, day};
        span->first = std::min(span->first, day);
        span->last = std::max(span->last, day);
    };
    if (diary.bed_date) add(*diary.bed_date);
    for (const DatedFeeding& feeding : diary.feedings)
        add(feeding.date);
    for (const Observation& observation : diary.observations)
        add(observation.date);
    return span;
}

namespace detail {

/// Observations by date; those of one day in their order.
inline std::vector<std::size_t> observations_by_day(const Diary& diary) {
    return order_by(diary.observations,
                    [](const Observation& look) { return day_number(look.date); });
}

/// What was done to the bed from the day it was described up to a day.
/// @param seen_day   of the last look at its wetness: what went in before it is in what was seen.
/// @param worms_from  from that day on what goes out takes of the worms as they are known.
/// @param bed        with its earlier feedings.
inline void apply_changes(const Diary& diary, std::int64_t until, std::int64_t seen_day,
                          std::int64_t worms_from, Bed& bed) {
    for (const std::size_t i : observations_by_day(diary)) {
        const Observation& seen = diary.observations[i];
        const std::int64_t day = day_number(seen.date);
        if (day > until || (diary.bed_date && day < day_number(*diary.bed_date))) continue;
        if (seen.bedding.empty() && seen.action.empty()) continue;
        apply_change(bed, bed_change_of(seen), day >= seen_day, day >= worms_from,
                     static_cast<double>(day - until));
    }
}

/// Water poured in with feedings since the bed's wetness was last looked at, kg: what is poured
/// dries first, so that nobody is asked for the same water again on the next day.
inline double poured_since_kg(const Bed& bed, std::int64_t seen_day, std::int64_t today) {
    if (seen_day == INT64_MIN) return 0.0;  // the bed is as it is described now
    double poured_kg = 0.0;
    double on = 0.0;
    std::optional<double> a_day_kg;
    for (const Feeding& feeding : bed.earlier) {
        double kg = 0.0;
        for (const Portion& portion : feeding.portions) {
            if (part_of(*portion.feedstock) == Part::poured_water)
                kg += portion.wet_mass.in_kilograms();
        }
        const double day = in_days(feeding.day);
        if (!(kg > 0.0) || static_cast<double>(today) + day < static_cast<double>(seen_day))
            continue;
        if (!a_day_kg) {
            const CompletedBed whole = completed(bed);
            a_day_kg = in_square_metres(whole.surface) *
                       evaporation_of(whole.lid, whole.ventilation).value;
        }
        poured_kg = std::max(0.0, poured_kg - *a_day_kg * (day - on)) + kg;
        on = day;
    }
    return a_day_kg ? std::max(0.0, poured_kg + *a_day_kg * on) : 0.0;
}

}  // namespace detail

/// The bed on a day, with every feeding before that day as an earlier one.
/// The squeeze test, moisture, pH, temperature and weight of the worms of the last look up to that
/// day replace what the bed said, each if it was seen. Bedding that was added and castings that
/// were harvested since it was described change its contents, and water given since the last look
/// at its wetness is in it; what was poured with feedings, less what dries.
inline Bed bed_on(const Diary& diary, Date date) {
    Bed bed = diary.bed;
    const std::int64_t zero = day_number(date);
    if (bed.age && diary.bed_date)
        bed.age = days(std::max(
            0.0, in_days(*bed.age) + static_cast<double>(zero - day_number(*diary.bed_date))));
    std::int64_t squeeze_day = diary.bed_date ? day_number(*diary.bed_date) : INT64_MIN;
    std::int64_t ph_day = squeeze_day;
    std::int64_t worms_day = squeeze_day;
    std::int64_t worms_from = squeeze_day;  // from which a change takes of the worms as known
    std::int64_t temperature_day = squeeze_day;
    for (const Observation& seen : diary.observations) {
        const std::int64_t day = day_number(seen.date);
        if (day > zero) continue;
        if ((seen.squeeze || seen.moisture) && day >= squeeze_day) {
            squeeze_day = day;
            bed.squeeze = seen.squeeze;
            bed.moisture = seen.moisture;
        }
        if (seen.worm_weight && day >= worms_day) {
            worms_day = day;
            worms_from = day + 1;
            bed.worms = {};
            bed.worms.wet_mass = seen.worm_weight;
            bed.worms.known = WormsKnown::weighed;
        }
        if (seen.ph && day >= ph_day) {
            ph_day = day;
            bed.ph = seen.ph;
        }
        if (!seen.temperatures.empty() && day >= temperature_day) {
            temperature_day = day;
            double sum = 0.0;
            for (const PlacedTemperature& one : seen.temperatures)
                sum += in_kelvin(one.temperature);
            bed.temperature = kelvin(sum / static_cast<double>(seen.temperatures.size()));
        }
    }
    if (bed.ph && ph_day != INT64_MIN)
        bed.ph_age = days(static_cast<double>(std::max<std::int64_t>(0, zero - ph_day)));
    for (const DatedFeeding& feeding : diary.feedings) {
        const std::int64_t day = day_number(feeding.date);
        if (day < zero)
            bed.earlier.push_back({days(static_cast<double>(day - zero)), feeding.portions});
    }
    detail::sort_by(bed.earlier, [](const Feeding& feeding) { return in_days(feeding.day); });
    detail::apply_changes(diary, zero, squeeze_day, worms_from, bed);
    bed.water_added = bed.water_added + kilograms(detail::poured_since_kg(bed, squeeze_day, zero));
    return bed;
}

namespace detail {

/// Everything that went in, by day: feedings, and weights of site records on days without one.
struct DayWeight {
    std::int64_t day = 0;
    double wet_kg = 0.0;
};

inline std::vector<DayWeight> weights_in(const Diary& diary) {
    std::vector<DayWeight> fed;
    for (const DatedFeeding& feeding : diary.feedings)
        fed.push_back({day_number(feeding.date), whole_of(feeding.portions).in_kilograms()});
    sort_by(fed, [](const DayWeight& one) { return one.day; });
    const std::size_t feedings = fed.size();
    for (const Observation& seen : diary.observations) {
        if (!seen.weight_in) continue;
        const std::int64_t day = day_number(seen.date);
        const auto end = fed.begin() + static_cast<std::ptrdiff_t>(feedings);
        const auto at = std::lower_bound(
            fed.begin(), end, day, [](const DayWeight& a, std::int64_t d) { return a.day < d; });
        const bool both = at != end && at->day == day;
        if (!both) fed.push_back({day, seen.weight_in->in_kilograms()});
    }
    sort_by(fed, [](const DayWeight& one) { return one.day; });
    return fed;
}

inline std::string kilograms_text(double kg) {
    return significant(kg, 3) + " kg";
}

/// Running totals: each against the one before and what went in between, so that one slip is said
/// once and not at every later entry.
inline void add_total_slips(const Diary& diary, std::vector<Slip>& slips) {
    const std::vector<DayWeight> fed = weights_in(diary);
    std::vector<double> cumulative{0.0};
    for (const DayWeight& one : fed)
        cumulative.push_back(cumulative.back() + one.wet_kg);
    const auto fed_until = [&](std::int64_t day) {
        const auto after =
            std::upper_bound(fed.begin(), fed.end(), day,
                             [](std::int64_t d, const DayWeight& a) { return d < a.day; });
        return cumulative[static_cast<std::size_t>(after - fed.begin())];
    };
    bool any = false;
    double total_before = 0.0;
    double fed_before = 0.0;
    for (std::size_t i = 0; i < diary.observations.size(); ++i) {
        const Observation& seen = diary.observations[i];
        if (!seen.running_total) continue;
        const double total = seen.running_total->in_kilograms();
        const double fed_now = fed_until(day_number(seen.date));
        const double grown = total - total_before;
        const double entered = fed_now - fed_before;
        // One part in a hundred is the scale's own rounding.
        const double slack = 0.01 * std::max(total, fed_now) + 0.01;
        if (any && total < total_before - slack) {
            slips.push_back({false, i,
                             "The running total falls from " + kilograms_text(total_before) +
                                 " to " + kilograms_text(total) + "."});
        } else if (any && std::fabs(grown - entered) > slack) {
            slips.push_back({false, i,
                             "The running total grows by " + kilograms_text(grown) + ", but " +
                                 kilograms_text(entered) + " were entered since the last total."});
        }
        any = true;
        total_before = total;
        fed_before = fed_now;
    }
}

/// Entries of more than the bin holds.
inline void add_room_slips(const Diary& diary, std::vector<Slip>& slips) {
    const auto add = [&](bool of_feeding, std::size_t entry, Date date, const std::string& what) {
        if (!what.empty())
            slips.push_back({of_feeding, entry, "On " + text(date) + " " + what + "."});
    };
    const BedContainer& container = diary.bed.container;
    for (std::size_t i = 0; i < diary.feedings.size(); ++i)
        add(true, i, diary.feedings[i].date,
            more_than_holds(container, diary.feedings[i].portions));
    for (std::size_t i = 0; i < diary.observations.size(); ++i)
        add(false, i, diary.observations[i].date,
            more_than_holds(container, diary.observations[i]));
}

}  // namespace detail

/// What in a diary does not add up: dates out of order, more than the bin holds, running totals,
/// two weights for one day, more leftovers than food, pooling against a dry squeeze, temperatures
/// that look like degrees Fahrenheit. In the order of the entries, feedings first. n log n.
inline std::vector<Slip> slips_of(const Diary& diary) {
    std::vector<Slip> slips;
    for (std::size_t i = 1; i < diary.feedings.size(); ++i) {
        if (day_number(diary.feedings[i].date) < day_number(diary.feedings[i - 1].date))
            slips.push_back({true, i,
                             "The feeding of " + text(diary.feedings[i].date) +
                                 " stands after one of " + text(diary.feedings[i - 1].date) + "."});
    }
    detail::add_room_slips(diary, slips);
    std::vector<detail::DayWeight> by_day;
    for (const DatedFeeding& feeding : diary.feedings)
        by_day.push_back({day_number(feeding.date), whole_of(feeding.portions).in_kilograms()});
    detail::sort_by(by_day, [](const detail::DayWeight& one) { return one.day; });
    for (std::size_t i = 0; i < diary.observations.size(); ++i) {
        const Observation& seen = diary.observations[i];
        const std::string on = "On " + text(seen.date) + " ";
        if (i > 0 && day_number(seen.date) < day_number(diary.observations[i - 1].date))
            slips.push_back({false, i,
                             "The look of " + text(seen.date) + " stands after one of " +
                                 text(diary.observations[i - 1].date) + "."});
        if (seen.weight_in) {
            double fed_kg = 0.0;
            bool fed = false;
            const std::int64_t day = day_number(seen.date);
            for (auto at = std::lower_bound(by_day.begin(), by_day.end(), day,
                                            [](const auto&a, std::int64_t d) { return a.day < d; });
                 at != by_day.end() && at->day == day; ++at) {
                fed_kg += at->wet_kg;
                fed = true;
            }
            const double said_kg = seen.weight_in->in_kilograms();
            if (fed && std::fabs(said_kg - fed_kg) > 0.05 * fed_kg + 0.01)
                slips.push_back({false, i,
                                 on + "the weight in is " + detail::kilograms_text(said_kg) +
                                     ", but the feeding of that day adds up to " +
                                     detail::kilograms_text(fed_kg) + "."});
        }
        if (seen.gone == FoodGone::yes && seen.share_gone && *seen.share_gone < 0.5)
            slips.push_back(
                {false, i, on + "the food is called gone and yet less than half gone."});
        if (seen.pooling.value_or(false) && seen.squeeze && *seen.squeeze <= Squeeze::damp)
            slips.push_back({false, i,
                             on +
                                 "water stands in the bin and yet a handful feels dry or damp: two "
                                 "places, or a slip."});
        for (const PlacedTemperature& one : seen.temperatures) {
            if (in_celsius(one.temperature) > 45.0)
                slips.push_back({false, i,
                                 on + significant(in_celsius(one.temperature), 3) +
                                     " C would have killed the worms: is it in degrees "
                                     "Fahrenheit?"});
        }
    }
    detail::add_total_slips(diary, slips);
    return slips;
}

}  // namespace feed
