#pragma once
// The state of a bed on a day, from its description, its feedings and its looks. Every verb starts
// from it; none makes its own.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "feed/bed/bed.hpp"
#include "feed/bed/completed.hpp"
#include "feed/bed/look_limits.hpp"
#include "feed/diary/alarms.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/diary/course_evidence.hpp"
#include "feed/diary/diary.hpp"
#include "feed/diary/own_course.hpp"
#include "feed/forecast/ranges.hpp"

namespace feed {

/// What is left of one feeding.
struct FoodLeft {
    std::size_t feeding = 0;  ///< index into the feedings of the diary
    Date fed_on;
    WetMass scraps;
    Ranged share_left;   ///< of its dry matter
    Ranged soft_left;    ///< of its labile part
    Ranged soft_wet_kg;  ///< the labile part left, as the wet scraps it stands for
    bool looked_at = false;
    std::optional<bool> seen_gone;  ///< what the last look at it found
    /// Days from today until half of it should be gone, where its last look found less than half
    /// gone: typical, earliest and latest.
    std::optional<std::array<int, 3>> half_gone_in;
};

/// The bed on a day.
struct BedToday {
    Bed bed;  ///< as of that day; each earlier feeding has its `soft_left`
    Date day;
    std::vector<FoodLeft> food;  ///< by date
    Ranged soft_food_wet_kg;     ///< of all feedings together
    std::vector<Alarm> alarms;
    std::vector<Alarm> unanswered;  ///< alarms of over a week ago, since when nobody looked
    /// Days since the temperature was measured; nothing where it was only said.
    std::optional<int> temperature_days_old;
    /// Rates of a forecast from here: this bin's own where looks taught them.
    ParameterRanges ranges = published_ranges();
    /// Soft share left of new food by days since it was fed; goes into ForecastOptions.
    std::vector<SoftLeft> new_food;
    std::size_t looks_learned_from = 0;

    bool has(AlarmKind kind) const noexcept {
        return std::any_of(alarms.begin(), alarms.end(),
                           [&](const Alarm& one) { return one.kind == kind; });
    }
    bool must_act() const noexcept {
        return std::any_of(alarms.begin(), alarms.end(),
                           [](const Alarm& one) { return one.level == Level::act; });
    }
};

struct BedTodayOptions {
    decay::TemperatureResponse response = decay::TemperatureResponse::haug;
};

namespace detail {

/// The look at a feeding that counts: the last up to a day.
inline std::optional<std::size_t> last_look_at(const CourseEvidence& evidence,
                                               std::size_t feeding) {
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < evidence.looks.size(); ++i) {
        if (evidence.looks[i].feeding != feeding) continue;
        if (!last || evidence.looks[i].days >= evidence.looks[*last].days) last = i;
    }
    return last;
}

/// What was seen, moved on to today with the bin's own rate: the logarithm of the labile exponent.
inline CourseLeft moved_on(const CourseLook& look, const CourseFeeding& feeding,
                           double effective_since, const Ranged& rate_per_day) {
    const LeftTable table(feeding.pool_shares);
    const double error = look.weighed ? 0.10 : 0.16;
    const double low = std::max(look.low, 0.0);
    const double high = std::min(look.high, 1.0);
    const auto exponent_at = [&](double share) {
        double below = -12.0;
        double above = 7.0;
        for (int i = 0; i < 50; ++i) {
            const double middle = 0.5 * (below + above);
            (table.exact(middle) > share ? below : above) = middle;
        }
        return std::exp(0.5 * (below + above));
    };
    const double pace = std::exp(feeding.log_rate) * effective_since;
    const double y = exponent_at(0.5 * (low + high)) + rate_per_day.value * pace;
    const double least = exponent_at(std::min(high + error, 1.0)) + rate_per_day.low * pace;
    const double most = exponent_at(std::max(low - error, 0.0)) + rate_per_day.high * pace;
    const auto soft = [](double exponent) { return std::exp(-exponent); };
    const auto share = [&](double exponent) { return table.exact(std::log(exponent)); };
    return {{share(y), share(most), share(least)}, {soft(y), soft(most), soft(least)}};
}

/// A look sets the state: "gone" leaves nothing soft, and where all other experience says
/// otherwise it is the look that holds.
inline CourseLeft set_by_look(CourseLeft learned, const CourseLook& look,
                              const CourseFeeding& feeding, bool seen_gone, double effective_since,
                              const Ranged& rate_per_day) {
    if (seen_gone) {
        learned.soft = Ranged(0.0);
        learned.share = {std::min(learned.share.value, gone_share), 0.0,
                         std::min(learned.share.high, gone_share)};
        return learned;
    }
    const CourseLeft seen = moved_on(look, feeding, effective_since, rate_per_day);
    const bool agrees = learned.soft.value >= seen.soft.low && learned.soft.value <= seen.soft.high;
    return agrees ? learned : seen;
}

inline std::optional<int> temperature_age(const Diary& diary, std::int64_t today) {
    std::optional<int> age;
    for (const Observation& look : diary.observations) {
        const std::int64_t seen = day_number(look.date);
        if (look.temperatures.empty() || seen > today) continue;
        if (diary.bed_date && seen < day_number(*diary.bed_date)) continue;
        const int days_old = static_cast<int>(today - seen);
        if (!age || days_old < *age) age = days_old;
    }
    return age;
}

/// How far ahead the course of food is told.
inline constexpr int days_ahead = 45;
/// Of ordinary scraps; the soft part does not depend on them.
inline constexpr std::array<double, 3> usual_pools{0.70, 0.25, 0.05};

/// The days from today on, for the course of each feeding.
class DaysAhead {
public:
    DaysAhead(const EffectiveTime& time, std::int64_t zero) : time_(&time), zero_(zero) {}

    /// Soft share left from today on of a feeding of the day `from`.
    std::vector<SoftLeft> of(const OwnCourse& course, std::size_t feeding,
                             std::int64_t from) const {
        std::vector<double> days;
        std::vector<double> effective;
        for (int day = 0; day < days_ahead; ++day) {
            days.push_back(static_cast<double>(zero_ + day - from));
            effective.push_back(time_->between(from, zero_ + day));
        }
        std::vector<SoftLeft> soft;
        for (const CourseLeft& left : course.left_on(feeding, days, effective))
            soft.push_back({left.soft.value, left.soft.low, left.soft.high});
        return soft;
    }

private:
    const EffectiveTime* time_;
    std::int64_t zero_;
};

/// Draws a course to where a look has set it: the rest of the way in the same proportion.
inline void start_at(std::vector<SoftLeft>& ahead, const SoftLeft& today) {
    const SoftLeft reckoned = ahead.front();
    const auto drawn = [](double one, double was, double is) {
        return was > 0.0 ? std::min(one * is / was, is) : is;
    };
    for (SoftLeft& one : ahead)
        one = {drawn(one.value, reckoned.value, today.value),
               drawn(one.low, reckoned.low, today.low), drawn(one.high, reckoned.high, today.high)};
}

/// Days until half of a feeding should be gone; nothing where it is, or where what is left of it is
/// slow food that takes longer than the course is told for.
/// @param soft_ahead  soft share left by day, from today on.
inline std::optional<std::array<int, 3>> days_to_half(const CourseFeeding& feeding,
                                                      const std::vector<SoftLeft>& soft_ahead) {
    const LeftTable table(feeding.pool_shares);
    double below = -12.0;
    double above = 7.0;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (below + above);
        (table.exact(middle) > 0.5 ? below : above) = middle;
    }
    const double soft_at_half = std::exp(-std::exp(0.5 * (below + above)));
    const auto first = [&](double SoftLeft::*end) {
        int day = 0;
        for (const SoftLeft& soft : soft_ahead) {
            if (soft.*end <= soft_at_half) break;
            ++day;
        }
        return day;
    };
    const int day = first(&SoftLeft::value);
    if (day == 0 || day >= static_cast<int>(soft_ahead.size())) return std::nullopt;
    return std::array<int, 3>{day, first(&SoftLeft::low), first(&SoftLeft::high)};
}

/// "Not gone", without how much: half of it may be there still, so for so many days nobody feeds on
/// it.
inline constexpr int not_gone_days = static_cast<int>(limits::not_gone.value);

/// Days for which a look that says only "not gone" holds; 0 where it says more, or is older.
inline int days_not_gone(const Observation& seen, std::int64_t today) noexcept {
    const bool only = seen.gone == FoodGone::no && !seen.share_gone && !seen.left;
    return only ? static_cast<int>(
                      std::max<std::int64_t>(0, not_gone_days - (today - day_number(seen.date))))
                : 0;
}

/// Days until half of a feeding should be gone; where it was said to be not gone lately, at least
/// until that is to be looked at again.
/// @param not_gone  see days_not_gone.
inline std::optional<std::array<int, 3>> waited_for(const CourseFeeding& feeding,
                                                    const std::vector<SoftLeft>& soft_ahead,
                                                    int not_gone) {
    const auto half = days_to_half(feeding, soft_ahead);
    if (half || not_gone == 0) return half;
    return std::array<int, 3>{not_gone, not_gone, not_gone + not_gone_days};
}

/// Whether all of what a look says lies at half or above.
inline bool found_over_half(const CourseLook& look) noexcept {
    return look.low >= 0.5 - 1e-9;
}

/// Pools of the labile part: what a forecast counts as soft food.
inline double labile_share(const CourseFeeding& feeding) noexcept {
    return feeding.pool_shares[0];
}

}  // namespace detail

/// The bed as it is on a day: the description, with what looks up to that day replaced (squeeze,
/// moisture, pH, temperature); what is left of each feeding, learned from this bin's own looks and
/// set by the last look at it; the alarms that stand.
/// @param said   the bed as described on `diary.bed_date`.
/// @param diary  feedings and looks, any order; those after `day` are left out. A feeding on `day`
///               itself is not yet in the bed.
/// Time: at most 50 ms for 26 weeks of looks (see OwnCourse). Threads: pure.
inline BedToday bed_today(const Bed& said, const Diary& diary, Date day,
                          const BedTodayOptions& options = {}) {
    BedToday today;
    today.day = day;
    const std::int64_t zero = day_number(day);
    Diary until = diary;
    until.bed = said;
    today.bed = bed_on(until, day);
    std::optional<double> age;
    if (today.bed.age) age = in_days(*today.bed.age);
    const SpeciesLimits& limits = limits_of(said.species.value_or(Species::eisenia_fetida));
    today.alarms = alarms_on(diary, day, limits, age);
    today.unanswered = unanswered_alarms_on(diary, day, limits, age);
    today.temperature_days_old = detail::temperature_age(diary, zero);
    DiarySpan span = span_of(diary).value_or(DiarySpan{zero, zero});
    span.first = std::min(span.first, zero);
    span.last = std::max(span.last, zero + detail::days_ahead);
    const detail::EffectiveTime time(until, span, options.response);
    const CourseEvidence evidence = course_evidence_of(diary, zero, time);
    std::vector<CourseFeeding> feedings = evidence.feedings;
    feedings.push_back({detail::usual_pools, 0.0});
    const std::size_t new_food = feedings.size() - 1;
    const OwnCourse course(std::move(feedings), evidence.looks);
    const detail::DaysAhead ahead(time, zero);
    today.new_food = ahead.of(course, new_food, zero);
    today.looks_learned_from = evidence.looks.size();
    const Ranged rate = course.rate_per_day();
    today.ranges = own_ranges(course);
    for (const std::size_t i : detail::feedings_by_day(diary)) {
        const DatedFeeding& fed = diary.feedings[i];
        const std::int64_t from = day_number(fed.date);
        if (from >= zero) continue;
        SoftLeft soft{0.0, 0.0, 0.0};
        std::vector<SoftLeft> soft_ahead{soft};
        const double wet_kg = scraps_of(fed.portions).in_kilograms();
        if (wet_kg > 0.0 && zero - from <= longest_watch_days) {
            const double age_days = static_cast<double>(zero - from);
            CourseLeft left = course.left(i, age_days, time.between(from, zero));
            const bool some = left.soft.high > 0.005;
            if (some) soft_ahead = ahead.of(course, i, from);
            FoodLeft food;
            bool over_half = false;
            int not_gone = 0;
            if (const auto at = detail::last_look_at(evidence, i)) {
                const CourseLook& look = evidence.looks[*at];
                const Observation& seen = diary.observations[evidence.observation[*at]];
                if (seen.gone != FoodGone::unsaid) food.seen_gone = seen.gone == FoodGone::yes;
                food.looked_at = true;
                not_gone = detail::days_not_gone(seen, zero);
                over_half = detail::found_over_half(look) || not_gone > 0;
                left = detail::set_by_look(left, look, evidence.feedings[i],
                                           food.seen_gone.value_or(false),
                                           time.between(day_number(seen.date), zero), rate);
            }
            food.feeding = i;
            food.fed_on = fed.date;
            food.scraps = wet_kilograms(wet_kg);
            food.share_left = left.share;
            food.soft_left = left.soft;
            food.soft_wet_kg = (wet_kg * detail::labile_share(evidence.feedings[i])) * left.soft;
            today.soft_food_wet_kg += food.soft_wet_kg;
            soft = {left.soft.value, left.soft.low, left.soft.high};
            if (!some) soft_ahead.assign(1, soft);
            detail::start_at(soft_ahead, soft);
            if (over_half)
                food.half_gone_in = detail::waited_for(evidence.feedings[i], soft_ahead, not_gone);
            today.food.push_back(food);
        }
        // bed_on lists the feedings by date too, those of one day in their order.
        const double days_ago = static_cast<double>(from - zero);
        for (Feeding& earlier : today.bed.earlier) {
            if (earlier.soft_left || in_days(earlier.day) != days_ago) continue;
            if (scraps_of(earlier.portions).in_kilograms() != wet_kg) continue;
            earlier.soft_left = soft;
            earlier.soft_ahead = std::move(soft_ahead);
            break;
        }
    }
    return today;
}

}  // namespace feed
