#pragma once
// What a look is held against: the feeding it speaks of, its pools, and the time it went through.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "feed/bed/completed.hpp"
#include "feed/bed/look_limits.hpp"
#include "feed/diary/diary.hpp"
#include "feed/forecast/factors.hpp"
#include "feed/forecast/intake.hpp"
#include "feed/quantity/sorted.hpp"

namespace feed {

/// Days beyond which a leftover says nothing of the feeding it is ascribed to (D).
inline constexpr std::int64_t longest_watch_days = 200;

/// Largest share of the dry matter of a feeding that is still called gone (D).
inline constexpr double gone_share = limits::gone_share.value;

/// How a leftover was judged; each has its own usual error.
enum class LeftoverMethod : std::uint8_t {
    weighed,  ///< taken out, weighed, as a share of what was fed
    by_eye,   ///< "about half is gone"
    gone,     ///< the day on which the feeding was found to be gone
};

/// Usual error (standard deviation) of a share left, by how it was judged. Grade D: a weighed
/// leftover carries bed matter and its water changes; by eye people round to quarters; "gone" is
/// anywhere between nothing and a quarter.
constexpr double usual_error_of_share(LeftoverMethod method) noexcept {
    switch (method) {
        case LeftoverMethod::weighed:
            return 0.06;
        case LeftoverMethod::by_eye:
            return 0.12;
        case LeftoverMethod::gone:
            return 0.08;
    }
    return 0.12;
}

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
    return order_by(diary.feedings,
                    [](const DatedFeeding& feeding) { return day_number(feeding.date); });
}

}  // namespace detail

}  // namespace feed
