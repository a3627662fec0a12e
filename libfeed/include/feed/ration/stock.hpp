#pragma once
#include <algorithm>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/diary.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/ration/ration.hpp"
#include "feed/ration/week.hpp"

// What is kept for later: what was put by, less what was fed and taken since.
namespace feed {

/// An entry of the stock: what was put by on a day, or taken out for something else.
struct StockEntry {
    Date date;
    std::vector<ThingAtHand> put;  ///< each with its mass
    std::vector<Portion> taken;
    std::string container;  ///< where it is; may be empty
};

/// How something in the stock keeps.
enum class StockKeep : std::uint8_t { fresh, frozen, dry };

/// What is left of one thing that was put by.
struct StockItem {
    ThingAtHand thing;  ///< its mass: what is left
    Date since;
    std::string container;
    StockKeep keep = StockKeep::dry;
    int good_days =
        0;  ///< fresh: days from today on that it is still good, below 0 where it is past
};

namespace detail {

/// Something that leaves the stock: fed, laid on as bedding, or taken for something else.
struct StockTaking {
    std::int64_t day = 0;
    const Feedstock* what = nullptr;
    double kg = 0.0;
};

inline StockItem item_of(const StockEntry& entry, const ThingAtHand& thing, Date today) {
    StockItem item{thing, entry.date, entry.container, StockKeep::fresh, 0};
    if (is_frozen(*thing.feedstock))
        item.keep = StockKeep::frozen;
    else if (keeps_for_weeks(*thing.feedstock))
        item.keep = StockKeep::dry;
    else
        item.good_days =
            static_cast<int>(day_number(entry.date) + fresh_days - 1 - day_number(today));
    return item;
}

/// Takes from the items of a kind, the oldest first.
inline void take_from(std::vector<StockItem>& items, const StockTaking& taking) {
    double kg = taking.kg;
    for (StockItem& item : items) {
        const Feedstock& f = *item.thing.feedstock;
        if (f.id != taking.what->id || f.prepared_as != taking.what->prepared_as ||
            day_number(item.since) > taking.day)
            continue;
        const double before = item.thing.most->in_kilograms();
        const double taken = std::min(before, kg);
        kg -= taken;
        item.thing.most = wet_kilograms(before - taken);
        if (item.thing.amount && before > 0.0)
            item.thing.amount->count *= (before - taken) / before;
    }
}

}  // namespace detail

/// What is in the stock on a day, the oldest first. What was fed, or laid on as bedding, of the
/// same material since it was put by came from the stock, the oldest first; frozen food only where
/// frozen food was fed. What has run out is left out. Threads: pure.
inline std::vector<StockItem> stock_on(std::span<const StockEntry> stock, const Diary& diary,
                                       Date today) {
    const std::int64_t now = day_number(today);
    std::vector<StockItem> items;
    std::vector<detail::StockTaking> takings;
    std::vector<BedChange> changes;  // they own what they name
    const auto take_all = [&](Date date, std::span<const Portion> portions) {
        if (day_number(date) > now) return;
        for (const Portion& one : portions)
            takings.push_back({day_number(date), one.feedstock.get(), one.wet_mass.in_kilograms()});
    };
    for (const StockEntry& entry : stock) {
        if (day_number(entry.date) > now) continue;
        for (const ThingAtHand& thing : entry.put) {
            if (thing.most) items.push_back(detail::item_of(entry, thing, today));
        }
        take_all(entry.date, entry.taken);
    }
    for (const DatedFeeding& feeding : diary.feedings)
        take_all(feeding.date, feeding.portions);
    for (const Observation& seen : diary.observations) {
        if (seen.bedding.empty()) continue;
        changes.push_back(bed_change_of(seen));
        take_all(seen.date, changes.back().bedding);
    }
    detail::sort_by(items, [](const StockItem& one) { return day_number(one.since); });
    detail::sort_by(takings, [](const detail::StockTaking& one) { return one.day; });
    for (const detail::StockTaking& taking : takings)
        detail::take_from(items, taking);
    std::vector<StockItem> left;
    for (StockItem& item : items) {
        if (item.thing.most->in_kilograms() >= 0.001) left.push_back(std::move(item));
    }
    return left;
}

/// Juice that comes out of so much of a frozen thing when it thaws, kg (about litres): a share of
/// its water (preparation.hpp, grade D). Nothing where its moisture is not known.
struct ThawedJuice {
    double value_kg = 0.0;
    double low_kg = 0.0;
    double high_kg = 0.0;
};
inline std::optional<ThawedJuice> thawed_juice(const Feedstock& f, double wet_kg) {
    const auto& moisture = f[Property::moisture_wet];
    if (!moisture) return std::nullopt;
    const PreparationFactor& share = drained_share_after_thawing;
    return ThawedJuice{wet_kg * moisture->value * share.value, wet_kg * moisture->low * share.low,
                       wet_kg * moisture->high * share.high};
}

/// Days that a diary is looked back at for how fast bedding goes.
inline constexpr std::int64_t bedding_use_days = 56;

/// Wet bedding of one material that goes in a day, from the diary of the last eight weeks; nothing
/// with fewer than two uses a week apart. Threads: pure.
inline std::optional<double> bedding_a_day_kg(const Diary& diary, const Feedstock& f, Date today) {
    const std::int64_t now = day_number(today);
    std::int64_t first = now;
    std::int64_t last = now - bedding_use_days;
    double kg = 0.0;
    const auto add = [&](Date date, std::span<const Portion> portions) {
        const std::int64_t day = day_number(date);
        if (day > now || day < now - bedding_use_days) return;
        for (const Portion& one : portions) {
            if (one.feedstock->id != f.id) continue;
            kg += one.wet_mass.in_kilograms();
            first = std::min(first, day);
            last = std::max(last, day);
        }
    };
    for (const DatedFeeding& feeding : diary.feedings)
        add(feeding.date, feeding.portions);
    for (const Observation& seen : diary.observations) {
        if (seen.bedding.empty()) continue;
        const BedChange change = bed_change_of(seen);
        add(seen.date, change.bedding);
    }
    if (last - first < 7) return std::nullopt;
    return kg / static_cast<double>(now - first + 1);
}

}  // namespace feed
