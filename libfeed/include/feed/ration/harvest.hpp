#pragma once
// When to harvest castings, how much to expect, by which way, and the bed afterwards.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/bed_today.hpp"
#include "feed/forecast/harvest.hpp"
#include "feed/ration/bed_work.hpp"
#include "feed/ration/from_diary.hpp"
#include "feed/ration/usual_week.hpp"

namespace feed {

/// How castings and worms are parted.
enum class HarvestWay : std::uint8_t { aside, light, trays, half };
inline constexpr std::array<std::string_view, 4> harvest_way_words{"aside", "light", "trays",
                                                                   "half"};
constexpr std::string_view text(HarvestWay way) noexcept {
    return harvest_way_words[static_cast<std::size_t>(way)];
}

/// What a way takes of the bed and keeps of the worms.
struct HarvestWayKind {
    HarvestWay way;
    double share;       ///< of the bed that comes out
    Factor worms_kept;  ///< share of the worms that stays in the bin
    int least_days;     ///< from the first step to the harvest
    int most_days;
};
inline constexpr std::array<HarvestWayKind, 4> harvest_ways{{
    {HarvestWay::aside,
     0.5,
     {0.90, 0.70, 0.97, "kg/kg", Grade::d,
      "food on one side draws most worms there in a few weeks (county page, Grand Traverse, "
      "Michigan); how many is common practice"},
     14,
     21},
    {HarvestWay::light,
     2.0 / 3.0,
     {0.95, 0.85, 0.99, "kg/kg", Grade::d,
      "worms go to the middle of small heaps, away from light (county page, Grand Traverse, "
      "Michigan); how many is common practice; most cocoons go with the castings"},
     0,
     0},
    {HarvestWay::trays,
     0.5,
     {0.90, 0.70, 0.97, "kg/kg", Grade::d,
      "most worms climb to the food above in a couple of weeks (common practice)"},
     14,
     28},
    {HarvestWay::half,
     0.5,
     {0.50, 0.40, 0.60, "kg/kg", Grade::d,
      "what comes out takes its worms along (county page, Grand Traverse, Michigan, which takes "
      "two thirds out so)"},
     0,
     0},
}};
constexpr const HarvestWayKind& kind_of(HarvestWay way) noexcept {
    return harvest_ways[static_cast<std::size_t>(way)];
}

/// A harvest of the diary: what came out, and what was to be expected.
struct PastHarvest {
    int days_ago = 0;
    double taken_l = 0.0;
    double expected_l = 0.0;
};

/// What was learned from harvests: a factor on the amount.
struct HarvestRecord {
    std::vector<PastHarvest> harvests;
    double factor = 1.0;
    double log_sd = 0.0;  ///< of the next harvest about what is expected
};

/// When a bed is ready.
struct HarvestTime {
    std::optional<int> day;       ///< from today; nothing within a year
    std::optional<int> earliest;  ///< at the fast end of every range
    std::optional<int> latest;    ///< at the slow end; nothing: later than a year
    bool by_room = false;         ///< the bin is full before the castings are ready
    double turned = 0.0;          ///< castings as a share of the dry matter today
    double cn_ratio = 0.0;        ///< of the bed today
    double age_days = 0.0;
    bool age_known = false;
    double depth_m = 0.0;
    bool from_diary = false;  ///< feeding goes on as the diary says; else by the week's ration
};

/// Castings to expect of one way on the day of the harvest.
struct Castings {
    Ranged volume_l;
    Ranged wet_kg;
};

struct HarvestAnswer {
    HarvestTime time;
    HarvestWay way = HarvestWay::aside;  ///< that is taken here
    Castings castings;                   ///< by that way
    HarvestRecord record;
    Ration ration;  ///< of the bed as it stands: its step or look goes before a harvest
    /// As if the bed of today were harvested and filled up; as it stands where something comes
    /// first.
    BedAfter after;
    bool less = false;       ///< less is taken out of it, because more would raise something
    bool too_small = false;  ///< nothing can be taken out today without raising something
};

namespace limits {

/// Above this C:N what comes out still holds much bedding: it is let stand before it is used
/// (common practice, from memory; finished compost comes near 10, Cornell compost chemistry).
inline constexpr double ripe_most_cn = 20.0;
/// Nobody harvests a bin of less than two months (keepers: 2 to 4 months; Oregon city page: 3 to
/// 6).
inline constexpr double harvest_least_days = 60.0;
/// Of what comes out of a harvest, by keeper and bin: spread of the logarithm before any was
/// measured (dry density 100 to 200 kg/m3, more or less taken), and from one harvest to the next
/// (judgement).
inline constexpr double harvest_bin_log_sd = 0.35;
inline constexpr double harvest_each_log_sd = 0.25;

}  // namespace limits

namespace detail {

/// How far ahead a harvest is looked for.
inline constexpr std::size_t harvest_days = 365;

/// The bed of the days ahead, at most a year, in which feeding goes on as usual.
inline Forecast usual_ahead(const RationInput& in, std::size_t most_days, bool& from_diary) {
    ForecastOptions options;
    options.days = std::min(most_days, harvest_days);
    options.ranges = in.ranges;
    options.new_food = in.new_food;
    options.units = in.units;
    const std::vector<Portion> week = usual_week(in, from_diary);
    std::vector<Feeding> feedings;
    for (std::size_t day = 7; day < options.days; day += 7)
        feedings.push_back({days(static_cast<double>(day)), week, {}, {}});
    return forecast(in.bed, feedings, options);
}

inline std::optional<int> first_ready(const std::vector<double>& turned, double age_days) {
    for (std::size_t day = 0; day < turned.size(); ++day) {
        if (turned[day] < harvest_castings_share) continue;
        if (age_days + static_cast<double>(day) < limits::harvest_least_days) continue;
        return static_cast<int>(day);
    }
    return std::nullopt;
}

inline HarvestTime harvest_time(const CompletedBed& bed, int stacked, const Forecast& year) {
    HarvestTime time;
    time.turned = year.castings_share.value.front();
    time.cn_ratio = year.cn_ratio.value.front();
    time.age_days = in_days(bed.age);
    time.age_known = bed.age_given;
    time.depth_m = in_metres(bed.depth_of_contents);
    const double age = time.age_days;
    time.day = first_ready(year.castings_share.value, age);
    time.earliest = first_ready(year.castings_share.high, age);
    time.latest = first_ready(year.castings_share.low, age);
    const double most_l =
        1000.0 * std::max(1, stacked) * in_square_metres(bed.surface) * in_metres(bed.inside.depth);
    const auto full = [&](const std::vector<double>& volume_l) -> std::optional<int> {
        for (std::size_t day = 0; day < volume_l.size(); ++day) {
            if (volume_l[day] < 0.95 * most_l) continue;
            if (age + static_cast<double>(day) >= limits::harvest_least_days)
                return static_cast<int>(day);
        }
        return std::nullopt;
    };
    const auto sooner = [](std::optional<int> a, std::optional<int> b) {
        return a && b ? std::optional(std::min(*a, *b)) : (a ? a : b);
    };
    const std::optional<int> room = full(year.volume_l.value);
    time.by_room = room && (!time.day || *room < *time.day);
    time.day = sooner(time.day, room);
    time.earliest = sooner(sooner(time.earliest, full(year.volume_l.high)), time.day);
    time.latest = sooner(time.latest, full(year.volume_l.low));
    if (time.latest && time.day) time.latest = std::max(*time.latest, *time.day);
    return time;
}

/// Share of the bed that a way takes out of a bin with so many trays.
inline double share_of(HarvestWay way, int stacked) noexcept {
    if (way == HarvestWay::trays) return 1.0 / std::max(2, stacked);
    return kind_of(way).share;
}

/// Castings in a bed by volume, L.
inline double castings_l(double dry_kg) noexcept {
    return 1000.0 * dry_kg / usual::dry_density_settled.value;
}

}  // namespace detail

/// The harvests of a diary before a day, each with what the bed of that day led to expect.
/// Linear in the harvests: a forecast of one day for each.
inline HarvestRecord harvest_record(const Diary& diary, Date today) {
    HarvestRecord record;
    double log_sum = 0.0;
    for (const Observation& seen : diary.observations) {
        const auto ago = static_cast<int>(day_number(today) - day_number(seen.date));
        if (ago < 0 || seen.action.empty()) continue;
        const BedChange change = bed_change_of(seen);
        if (!(change.taken_m3 > 0.0)) continue;
        Diary until = diary;
        until.observations.clear();
        for (const Observation& other : diary.observations) {
            if (day_number(other.date) < day_number(seen.date)) until.observations.push_back(other);
        }
        ForecastOptions one_day;
        one_day.days = 1;
        const Bed bed = bed_on(until, seen.date);
        const Forecast then = forecast(bed, {}, one_day);
        const HarvestWay way = bed.container.stacked > 1 ? HarvestWay::trays : HarvestWay::aside;
        const double expected_l = detail::share_of(way, bed.container.stacked) *
                                  detail::castings_l(then.castings_in_bed_dry_kg.value.front());
        if (!(expected_l > 0.0)) continue;
        record.harvests.push_back({ago, 1000.0 * change.taken_m3, expected_l});
        log_sum += std::log(1000.0 * change.taken_m3 / expected_l);
    }
    const double each = limits::harvest_each_log_sd * limits::harvest_each_log_sd;
    const double bins = limits::harvest_bin_log_sd * limits::harvest_bin_log_sd;
    const double left = 1.0 / (1.0 / bins + static_cast<double>(record.harvests.size()) / each);
    record.factor = std::exp(left * log_sum / each);
    record.log_sd = std::sqrt(left + each);
    return record;
}

/// When the castings of a bed are ready, where feeding goes on as usual.
/// @param most_days  that are looked at, at most a year. Time: a forecast of so many days.
inline HarvestTime harvest_time(const RationInput& in,
                                std::size_t most_days = detail::harvest_days) {
    bool from_diary = false;
    const Forecast year = detail::usual_ahead(in, most_days, from_diary);
    HarvestTime time =
        detail::harvest_time(completed(in.bed, in.units), in.bed.container.stacked, year);
    time.from_diary = from_diary;
    return time;
}

/// When to harvest, how much to expect, and the bed afterwards.
/// @param in      the bed as it stands, what is at hand.
/// @param record  from harvest_record.
/// @param wanted  the way; nothing: trays where there are, else the food moved aside.
/// Errors: none. Threads: pure. Time: a forecast of a year and three rations.
inline HarvestAnswer harvest(const RationInput& in, const HarvestRecord& record = {},
                             std::optional<HarvestWay> wanted = std::nullopt) {
    HarvestAnswer answer;
    answer.record = record;
    if (answer.record.harvests.empty())
        answer.record.log_sd = std::hypot(limits::harvest_bin_log_sd, limits::harvest_each_log_sd);
    const int stacked = in.bed.container.stacked;
    answer.way = wanted.value_or(stacked > 1 ? HarvestWay::trays : HarvestWay::aside);
    const CompletedBed bed = completed(in.bed, in.units);
    bool from_diary = false;
    const Forecast year = detail::usual_ahead(in, detail::harvest_days, from_diary);
    answer.time = detail::harvest_time(bed, stacked, year);
    answer.time.from_diary = from_diary;
    answer.ration = ration(in);

    const double share = detail::share_of(answer.way, stacked);
    constexpr double two_sided_90 = 1.645;
    const double wide = std::exp(two_sided_90 * answer.record.log_sd);
    const double most_l = share * in_litres(bed.contents);
    const auto expected_on = [&](int day) {
        const auto at = static_cast<std::size_t>(day);
        return share * answer.record.factor *
               detail::castings_l(year.castings_in_bed_dry_kg.value[at]);
    };
    const double expected_l = expected_on(answer.time.day.value_or(0));
    answer.castings.volume_l = {expected_l, expected_l / wide, expected_l * wide};
    const double a_litre_kg = detail::settled_bed_kg_per_l();
    answer.castings.wet_kg = a_litre_kg * answer.castings.volume_l;

    if (is_left_alone(answer.ration)) {
        answer.after = bed_after(in, {});
        return answer;
    }
    // Food that is moved aside stays, so a bed with much of it may be too small afterwards.
    const double today_l = std::min(expected_on(0), most_l);
    for (const double smaller : {1.0, 2.0 / 3.0, 0.5, 1.0 / 3.0, 0.2}) {
        BedChange change;
        if (answer.way == HarvestWay::half) {
            const auto told =
                std::find_if(detail::shares_told.begin(), detail::shares_told.end() - 1,
                             [&](double one) { return one <= smaller * share + 1e-9; });
            change.taken_share = *told;
            change.worms_went_too = true;
        } else {
            change.taken_m3 = detail::rounded_volume(smaller * today_l, false, in.units) / 1000.0;
        }
        const double out_m3 = std::max(change.taken_m3, change.taken_share * bed.contents.value());
        fill_up(in, out_m3, change);
        answer.after = bed_after(in, std::move(change));
        answer.less = smaller < 1.0;
        if (answer.after.worse().empty()) return answer;
    }
    answer.too_small = true;
    answer.after = bed_after(in, {});
    return answer;
}

/// The same for a diary: its own harvests set the amount.
inline HarvestAnswer harvest_of(const Diary& diary, const RationInput& in,
                                std::optional<HarvestWay> wanted = std::nullopt) {
    return harvest(in, in.date ? harvest_record(diary, *in.date) : HarvestRecord{}, wanted);
}

}  // namespace feed
