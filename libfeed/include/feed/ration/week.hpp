#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "feed/diary/diary.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/ration/ration.hpp"

// What a week of several bins is planned from, and the plan.
namespace feed {

/// One bin of several: its diary, and who feeds it.
struct WeekBin {
    std::string name;
    std::string group;  ///< who feeds it; may be empty
    Diary diary;
};

/// Something at hand, or expected on a day of the week.
struct WeekThing {
    ThingAtHand thing;
    int from = 0;                         ///< day from which it is there, 0 (today) to 6
    int until = 6;                        ///< last day on which it is still good to feed
    bool kept = true;                     ///< true: it would keep longer than the week
    std::optional<std::size_t> stock_of;  ///< the bin in whose stock it lies; nothing: in none
    std::string container;                ///< where in the stock; may be empty
};

/// Days that soft scraps keep in a closed caddy before they reek, the day they come included
/// (common practice; kitchens empty a caddy about twice a week).
inline constexpr int fresh_days = 4;
/// Scraps drier than this keep: bran, dried grounds, crumbs (common practice).
inline constexpr double keeps_below_moisture = 0.2;
inline constexpr int week_days = 7;

/// Whether a feedstock keeps for weeks as it is: bedding, lime, what is dry or lies in the freezer,
/// and dung in a covered heap outdoors.
inline bool keeps_for_weeks(const Feedstock& f) {
    if (part_of(f) != Part::scraps) return true;
    if (is_frozen(f) || !may_be_frozen(f)) return true;
    const auto& moisture = f[Property::moisture_wet];
    return moisture && moisture->value < keeps_below_moisture;
}

/// A thing that comes on a day, with the days on which it is good to feed.
/// @param from  0 (today) to 6.
/// @param frozen  kept in the freezer, whatever it is.
inline WeekThing week_thing(ThingAtHand thing, int from, bool frozen = false) {
    WeekThing one;
    one.kept = frozen || keeps_for_weeks(*thing.feedstock);
    one.from = from;
    one.until = one.kept ? week_days - 1 : std::min(week_days - 1, from + fresh_days - 1);
    one.thing = std::move(thing);
    return one;
}

/// What is said to be there today and lies in a stock too.
struct SaidTwice {
    std::string label;
    double said_kg = 0.0;
    double in_stock_kg = 0.0;
};

/// What a week is planned from.
struct WeekInput {
    std::vector<WeekBin> bins;
    std::vector<WeekThing> things;
    std::vector<SaidTwice> said_twice;  ///< counted once, as said
    Date today;
    int most_openings = 2;  ///< of a bin in the week, 1 to 3
    UnitSystem units = UnitSystem::metric;
};

/// One opening of one bin: what its ration says on that day, of what the week allots to it.
struct WeekOpening {
    int day = 0;  ///< from today
    Ration ration;
};

/// The week of one bin.
struct WeekOfBin {
    std::string name;
    std::string group;
    /// What the bin's own ration says today; where it is act first or wait, nothing goes in before
    /// its day.
    Ration today;
    std::vector<WeekOpening> openings;  ///< by day
};

/// Something that no bin takes this week.
struct WeekRest {
    WeekThing thing;
    WetMass wet_mass;
};

/// What the week takes of one material out of the stock of one bin.
struct WeekFromStock {
    std::size_t bin = 0;    ///< of the plan: in whose file it stands
    ThingAtHand thing;      ///< as it was put by
    std::string container;  ///< where the oldest of it is; may be empty
    WetMass wet_mass;
    /// Of it, for other bins: their notes do not know of this stock, so it is noted as taken.
    WetMass to_others;
};

/// Who gets what on which day of a week. Masses are as printed; each opening is a ration.
struct WeekPlan {
    Date today;
    std::vector<TakeOut> take_out;
    std::vector<WeekOfBin> bins;  ///< in the order of the input
    std::vector<WeekRest> rest;   ///< scraps, in the order of the input
    std::vector<WeekFromStock> from_stock;
    std::vector<SaidTwice> said_twice;  ///< as in the input
    WetMass there;                      ///< scraps that may be fed
    WetMass used;                       ///< of them, by the rations
    double shared_kg = 0.0;  ///< of them, by the linear problem before anything was rounded
    bool verified = false;   ///< the problem's answer was proved to be the most
};

}  // namespace feed
