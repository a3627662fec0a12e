#pragma once
// From the looks of a diary to evidence on the rates of its bin.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "feed/bed/completed.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/diary/diary.hpp"
#include "feed/forecast/factors.hpp"
#include "feed/forecast/intake.hpp"
#include "feed/forecast/ranges.hpp"

namespace feed {

/// Days beyond which a leftover says nothing of the feeding it is ascribed to (D).
inline constexpr std::int64_t longest_watch_days = 200;

/// What the looks of a diary say of its bin, and which could not be used.
struct DiaryEvidence {
    std::vector<LeftoverEvidence> looks;
    std::vector<std::size_t> observation;  ///< for each look the index of its observation
    std::vector<Slip> unused;              ///< looks at leftovers that no feeding explains
};

namespace detail {

/// Effective days gone through from the first day of a diary to each later day: prefix sums of the
/// daily factor, with the temperature carried forward from one look to the next.
class EffectiveTime {
public:
    EffectiveTime(const Diary& diary, const DiarySpan& span, decay::TemperatureResponse response) {
        const CompletedBed bed = completed(diary.bed);
        const double moisture = bed.moisture.value.value();
        const double dry_kg = bed.dry_mass.value.in_kilograms();
        const double air = decay::free_air_space(
            std::max(in_litres(bed.contents), 1e-9), in_kilograms(bed.water.value),
            (1.0 - limits::bed_ash.value) * dry_kg, limits::bed_ash.value * dry_kg);
        const double common = decay::moisture_factor(moisture) * decay::air_factor(air);
        first_ = span.first;
        const auto count = static_cast<std::size_t>(span.last - span.first) + 2;
        std::vector<double> seen_c(count, -1000.0);
        for (const Observation& look : diary.observations) {
            if (look.temperatures.empty()) continue;
            double sum = 0.0;
            for (const PlacedTemperature& one : look.temperatures)
                sum += in_celsius(one.temperature);
            seen_c[static_cast<std::size_t>(day_number(look.date) - first_)] =
                sum / static_cast<double>(look.temperatures.size());
        }
        until_.assign(count, 0.0);
        double now_c = in_celsius(bed.temperature);
        for (std::size_t day = 0; day + 1 < count; ++day) {
            if (seen_c[day] > -999.0) now_c = seen_c[day];
            until_[day + 1] = until_[day] + common * decay::temperature_factor(now_c, response);
        }
    }
    double between(std::int64_t from, std::int64_t to) const {
        return until_[static_cast<std::size_t>(to - first_)] -
               until_[static_cast<std::size_t>(from - first_)];
    }

private:
    std::int64_t first_ = 0;
    std::vector<double> until_;
};

/// Pool shares of the scraps of a feeding, weighted by their volatile solids; nothing without any.
inline std::optional<std::array<double, 3>> scraps_pools(const DatedFeeding& feeding) {
    std::array<double, 3> shares{};
    double organic_kg = 0.0;
    for (const Portion& portion : feeding.portions) {
        const Feedstock& feedstock = *portion.feedstock;
        if (part_of(feedstock) != Part::scraps) continue;
        const Load load = load_of(feedstock, portion.wet_mass.in_kilograms(), {});
        const auto& ash = feedstock[Property::ash_dry];
        const double organic = load.dry_kg.value * (1.0 - (ash ? ash->value : 0.06));
        const std::array<double, 3> own = pool_shares(feedstock);
        for (std::size_t p = 0; p < 3; ++p)
            shares[p] += organic * own[p];
        organic_kg += organic;
    }
    if (!(organic_kg > 0.0)) return std::nullopt;
    for (double& share : shares)
        share /= organic_kg;
    return shares;
}

/// The feeding a look speaks of: the one named, else the last before it.
inline std::optional<std::size_t> feeding_of(const Diary& diary,
                                             const std::vector<std::size_t>& by_day,
                                             const Observation& look) {
    const std::int64_t wanted =
        look.of_feeding ? day_number(*look.of_feeding) : day_number(look.date) - 1;
    const auto after = std::upper_bound(by_day.begin(), by_day.end(), wanted,
                                        [&](std::int64_t day, std::size_t feeding) {
                                            return day < day_number(diary.feedings[feeding].date);
                                        });
    if (after == by_day.begin()) return std::nullopt;
    const std::size_t found = *(after - 1);
    if (look.of_feeding && day_number(diary.feedings[found].date) != wanted) return std::nullopt;
    return found;
}

/// Feedings by date; those of one day in their order.
inline std::vector<std::size_t> feedings_by_day(const Diary& diary) {
    std::vector<std::size_t> order(diary.feedings.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return day_number(diary.feedings[a].date) < day_number(diary.feedings[b].date);
    });
    return order;
}

inline LeftoverMethod method_of(const Observation& look) noexcept {
    if (look.left) return LeftoverMethod::weighed;
    return look.share_gone ? LeftoverMethod::by_eye : LeftoverMethod::gone;
}

}  // namespace detail

/// Every look at leftovers as evidence. A weighed leftover counts as the share of the wet scraps
/// fed (its moisture is taken to be that of the food; D); "gone" counts as half of the share that
/// is still called gone. Time: n log n plus the days the diary spans.
inline DiaryEvidence evidence_of(
    const Diary& diary, decay::TemperatureResponse response = decay::TemperatureResponse::haug) {
    DiaryEvidence found;
    const auto span = span_of(diary);
    if (!span) return found;
    const detail::EffectiveTime time(diary, *span, response);
    const std::vector<std::size_t> by_day = detail::feedings_by_day(diary);
    for (std::size_t i = 0; i < diary.observations.size(); ++i) {
        const Observation& look = diary.observations[i];
        if (!look.left && !look.share_gone && look.gone != FoodGone::yes) continue;
        const auto feeding = detail::feeding_of(diary, by_day, look);
        const std::int64_t seen = day_number(look.date);
        if (!feeding) {
            found.unused.push_back(
                {false, i,
                 "The look of " + text(look.date) + " speaks of leftovers, but " +
                     (look.of_feeding ? "there is no feeding of " + text(*look.of_feeding)
                                      : std::string("there is no feeding before it")) +
                     "."});
            continue;
        }
        const DatedFeeding& fed = diary.feedings[*feeding];
        const std::int64_t from = day_number(fed.date);
        const auto pools = detail::scraps_pools(fed);
        if (!pools || seen <= from || seen - from > longest_watch_days) {
            found.unused.push_back(
                {false, i,
                 "The look of " + text(look.date) + " says nothing of the feeding of " +
                     text(fed.date) +
                     (pools ? ": the time between does not fit." : ": it had no scraps.")});
            continue;
        }
        LeftoverEvidence evidence;
        const LeftoverMethod method = detail::method_of(look);
        evidence.pool_shares = *pools;
        evidence.effective_days.fill(time.between(from, seen));
        evidence.standard_error = usual_error_of_share(method);
        evidence.feeding = *feeding;
        evidence.label = "The look of " + text(look.date);
        if (method == LeftoverMethod::weighed)
            evidence.share_left =
                look.left->in_kilograms() / scraps_of(fed.portions).in_kilograms();
        else if (method == LeftoverMethod::by_eye)
            evidence.share_left = 1.0 - *look.share_gone;
        else
            evidence.share_left = 0.5 * gone_share;
        if (evidence.share_left > 1.2) {
            found.unused.push_back({false, i,
                                    "On " + text(look.date) + " more was weighed than was fed on " +
                                        text(fed.date) + ": bed matter, or a slip."});
            continue;
        }
        found.looks.push_back(std::move(evidence));
        found.observation.push_back(i);
    }
    return found;
}

/// The ranges of a forecast with the rates of a calibrated bin.
inline ParameterRanges calibrated(ParameterRanges ranges, const Calibration& calibration) {
    for (const RateChange& change : calibration.rates) {
        ranges.value[change.parameter] = change.after_per_day;
        ranges.low[change.parameter] = change.after_low_per_day;
        ranges.high[change.parameter] = change.after_high_per_day;
    }
    return ranges;
}

}  // namespace feed
