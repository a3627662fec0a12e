#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/completed.hpp"
#include "feed/diary/diary.hpp"

// What diaries record over some time, summed by bin, by group, by month and by week.
namespace feed {

/// Sums of the entries of diaries. Masses are wet, as they were written down.
struct Totals {
    int feedings = 0;         ///< entries of food: feedings, and days with a weight alone
    double scraps_kg = 0.0;   ///< a weight of a day without a feeding counts as scraps
    double bedding_kg = 0.0;  ///< with feedings and by itself
    double lime_kg = 0.0;     ///< lime, grit and other amendments
    double water_kg = 0.0;    ///< poured and sprinkled
    double kept_kg = 0.0;     ///< kept out of the rubbish: scraps, and bedding that was waste
    double castings_l = 0.0;  ///< harvested; worms and all is no harvest

    Totals& operator+=(const Totals& other) noexcept {
        feedings += other.feedings;
        scraps_kg += other.scraps_kg;
        bedding_kg += other.bedding_kg;
        lime_kg += other.lime_kg;
        water_kg += other.water_kg;
        kept_kg += other.kept_kg;
        castings_l += other.castings_l;
        return *this;
    }
};

/// Bedding that a site would else throw away: paper, card and leaves. What is bought, such as coir
/// and straw, is not (a judgement, grade D).
inline bool is_waste_bedding(const Feedstock& f) {
    constexpr std::array<std::string_view, 11> begin{
        "boxboard",   "cardboard", "coffee-filter", "egg-carton", "kraft",      "leaves",
        "mixed-mail", "newspaper", "paper",         "pizza-box",  "toilet-roll"};
    for (const std::string_view one : begin) {
        if (std::string_view(f.id).substr(0, one.size()) == one) return true;
    }
    return false;
}

/// What one entry of a diary adds.
struct DayTotals {
    std::int64_t day = 0;
    std::string by;  ///< who wrote it, or empty
    Totals totals;
};

namespace detail {

inline void add_portion(const Portion& portion, Totals& totals) {
    const Feedstock& f = *portion.feedstock;
    const double kg = portion.wet_mass.in_kilograms();
    switch (part_of(f)) {
        case Part::scraps:
            totals.scraps_kg += kg;
            totals.kept_kg += kg;
            break;
        case Part::bedding:
            totals.bedding_kg += kg;
            if (is_waste_bedding(f)) totals.kept_kg += kg;
            break;
        case Part::amendment:
            totals.lime_kg += kg;
            break;
        case Part::poured_water:
            totals.water_kg += kg;
            break;
    }
}

/// What was done to the bed itself. A share of the bed is that of the bed on the day before.
inline void add_change(const Diary& diary, const Observation& seen, Totals& totals) {
    const BedChange change = bed_change_of(seen);
    for (const Portion& portion : change.bedding)
        add_portion(portion, totals);
    totals.water_kg += change.water_kg;
    if (change.worms_went_too) return;
    totals.castings_l += 1000.0 * change.taken_m3;
    if (!(change.taken_share > 0.0)) return;
    const Bed before = bed_on(diary, date_of(day_number(seen.date) - 1));
    totals.castings_l +=
        change.taken_share * in_litres(completed(before, UnitSystem::metric).contents);
}

}  // namespace detail

/// What each entry of a diary from one day to another adds, both included; entries that add nothing
/// are left out. Threads: pure.
inline std::vector<DayTotals> day_totals(const Diary& diary, Date since, Date until) {
    const std::int64_t first = day_number(since);
    const std::int64_t last = day_number(until);
    const auto is_in = [&](Date date) {
        return day_number(date) >= first && day_number(date) <= last;
    };
    std::vector<DayTotals> days;
    for (const DatedFeeding& feeding : diary.feedings) {
        if (!is_in(feeding.date)) continue;
        DayTotals one{day_number(feeding.date), feeding.by, {}};
        one.totals.feedings = 1;
        for (const Portion& portion : feeding.portions)
            detail::add_portion(portion, one.totals);
        days.push_back(std::move(one));
    }
    for (const Observation& seen : diary.observations) {
        if (!is_in(seen.date)) continue;
        DayTotals one{day_number(seen.date), seen.by, {}};
        bool fed = false;
        for (const DatedFeeding& feeding : diary.feedings)
            fed = fed || feeding.date == seen.date;
        if (seen.weight_in && !fed) {
            one.totals.feedings = 1;
            one.totals.scraps_kg = seen.weight_in->in_kilograms();
            one.totals.kept_kg = one.totals.scraps_kg;
        }
        const bool changed = !seen.bedding.empty() || !seen.action.empty();
        if (changed) detail::add_change(diary, seen, one.totals);
        if (one.totals.feedings > 0 || changed) days.push_back(std::move(one));
    }
    return days;
}

/// One of several bins whose diaries are summed.
struct TotalledBin {
    std::string name;
    std::string group;  ///< who feeds it; empty: each entry is that of who wrote it
    const Diary* diary = nullptr;
};

/// A sum with its name.
struct NamedTotals {
    std::string name;
    Totals totals;
};

/// What diaries record, in all and parted in four ways; each way sums to the whole.
struct DiaryTotals {
    Date since;  ///< first and last day with an entry
    Date until;
    Totals all;
    std::vector<NamedTotals> bins;    ///< in the order of the input
    std::vector<NamedTotals> groups;  ///< in the order in which they first come; "" is nobody's
    std::vector<NamedTotals> months;  ///< by their first days, "2026-05-01", oldest first
    std::vector<NamedTotals> weeks;   ///< by their Mondays, oldest first
};

namespace detail {

inline void add_named(std::vector<NamedTotals>& list, const std::string& name, const Totals& totals,
                      bool in_order) {
    std::size_t at = 0;
    while (at < list.size() && list[at].name != name && (!in_order || list[at].name < name))
        ++at;
    if (at == list.size() || list[at].name != name)
        list.insert(list.begin() + static_cast<std::ptrdiff_t>(at), {name, {}});
    list[at].totals += totals;
}

}  // namespace detail

/// Sums the diaries of some bins from one day to another, both included. Threads: pure.
inline DiaryTotals totals_of(std::span<const TotalledBin> bins, Date since, Date until) {
    DiaryTotals sum{until, since, {}, {}, {}, {}, {}};
    for (const TotalledBin& bin : bins) {
        sum.bins.push_back({bin.name, {}});
        for (const DayTotals& one : day_totals(*bin.diary, since, until)) {
            const Date date = date_of(one.day);
            if (one.day < day_number(sum.since)) sum.since = date;
            if (one.day > day_number(sum.until)) sum.until = date;
            sum.all += one.totals;
            sum.bins.back().totals += one.totals;
            detail::add_named(sum.groups, bin.group.empty() ? one.by : bin.group, one.totals,
                              false);
            detail::add_named(sum.months, text(Date{date.year, date.month, 1}), one.totals, true);
            const std::int64_t since_monday = (((one.day + 3) % 7) + 7) % 7;  // day 0: a Thursday
            detail::add_named(sum.weeks, text(date_of(one.day - since_monday)), one.totals, true);
        }
    }
    return sum;
}

}  // namespace feed
