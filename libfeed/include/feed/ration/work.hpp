#pragma once
#include <algorithm>
#include <array>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/bed/act_step.hpp"
#include "feed/bed/completed.hpp"
#include "feed/bed/look_limits.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/forecast/ranges.hpp"
#include "feed/ration/ration.hpp"

// What a ration is decided from, and everything it is worked out with.
namespace feed {

/// What was seen, smelt or counted that stands until a later look says otherwise.
struct StandingAlarm {
    std::optional<Hazard> hazard;  ///< what it tells of; nothing where it may be several things
    std::string what;              ///< "the worms are leaving"
    Level level = Level::act;      ///< act: a step and no food; watch: half of the ration
    int days_ago = 0;
};

/// A bed too alkaline for worms: where ammonia is set free and skin burns.
inline constexpr std::string_view too_alkaline = "it was too alkaline for worms";
/// Quicklime, hydrated lime or a cleaner went in and no pH was measured since.
inline constexpr std::string_view got_what_burns = "something that burns worms went in";
/// Whether an alarm, or the reason made of it, is that: neither bedding nor air mends it.
constexpr bool tells_of_alkali(std::string_view what) noexcept {
    return what == too_alkaline || what == got_what_burns;
}

/// What a look found of feedings of which over half is still there.
struct SeenLeft {
    double wet_kg = 0.0;  ///< today, as the wet scraps it stands for
    RationDay half_gone;  ///< days from today until half of each should be gone
};

/// What a ration is decided from.
struct RationInput {
    Bed bed;  ///< as it stands today, with its earlier feedings and what was seen
    std::vector<StandingAlarm> alarms;
    std::vector<StandingAlarm> unanswered;  ///< older ones, since when nobody looked
    std::vector<ThingAtHand> things;
    std::optional<Date> date;  ///< today
    std::optional<Area> spread;
    std::optional<Ranged> soft_food_kg;       ///< left of the earlier feedings, where looks tell it
    std::optional<int> temperature_days_old;  ///< since it was measured; nothing: only said
    std::optional<SeenLeft> seen_left;  ///< where a look found over half of a feeding still there
    ParameterRanges ranges = published_ranges();  ///< this bin's own rates where learned
    std::optional<Duration> away;                 ///< nobody looks for so long from today on
    std::vector<SoftLeft> new_food;  ///< course of food from today on, where looks tell it
    std::size_t looks_learned_from = 0;
    int silent_days = 0;           ///< since the last entry of the diary; 0 where it has none
    bool step_done_today = false;  ///< the bed wanted a step this morning, and it was helped
    int begins_in_days = 0;  ///< until the day on which the bed was said to be so; 0 when past
    UnitSystem units = UnitSystem::metric;
};

namespace detail {

/// Whether the bed is so alkaline that its worms do not live, by what was said or measured. The
/// other end is the row of sour.
inline bool is_too_alkaline(const Bed& bed) noexcept {
    return bed.ph && *bed.ph >= limits::highest_ph.value;
}
/// Whether that was measured so long ago that the answer is to measure it again.
inline bool is_ph_old(const Bed& bed) noexcept {
    return in_days(bed.ph_age) > limits::standing_alarm.value;
}

/// Calls `take(feedstock, days)` for everything that went in so many days ago, is never fed, and is
/// taken to be there still.
template <class Take>
void for_each_barred_in(const Bed& bed, const Take& take) {
    for (const Feeding& feeding : bed.earlier) {
        const double days = -in_days(feeding.day);
        if (days > limits::barred_stays.value || days < 0.0) continue;
        for (const Portion& portion : feeding.portions)
            if (barred_in(*portion.feedstock, Place::worm_bed)) take(*portion.feedstock, days);
    }
}

/// Days since something went in that is never fed and burns, where no pH was measured later.
inline std::optional<int> days_since_it_burns(const Bed& bed) {
    std::optional<int> last;
    for_each_barred_in(bed, [&](const Feedstock& f, double days) {
        if (!f.has(Caution::caustic) || (bed.ph && in_days(bed.ph_age) < days)) return;
        const int whole = static_cast<int>(days);
        last = std::min(last.value_or(whole), whole);
    });
    return last;
}

/// All that stands: what was seen, and a pH of the bed that no food and no step would mend.
inline std::vector<StandingAlarm> alarms_of(const RationInput& in) {
    std::vector<StandingAlarm> alarms = in.alarms;
    if (const auto ago = days_since_it_burns(in.bed))
        alarms.push_back({Hazard::ammonia, std::string(got_what_burns), Level::act, *ago});
    if (is_too_alkaline(in.bed) && !is_ph_old(in.bed))
        alarms.push_back({Hazard::ammonia, std::string(too_alkaline), Level::act,
                          static_cast<int>(in_days(in.bed.ph_age))});
    return alarms;
}

/// Everything a ration is worked out with.
struct RationWork {
    const RationInput& in;
    CompletedBed bed;
    BedNumbers numbers;
    FeedingPlace place;
    HazardNumbers idle;
    StepMaterials materials;
    std::vector<StandingAlarm> alarms;
    std::vector<ThingAtHand> things;  ///< without what is taken out; with what is offered
    double week_kg = 0.0;
    double soft_kg = 0.0;
    double allowed = 1.0;  ///< share of what there is room for: less while the bed is watched
};

inline ThingAtHand offered(std::shared_ptr<const Feedstock> feedstock) {
    ThingAtHand thing;
    thing.label = feedstock->name;
    thing.feedstock = std::move(feedstock);
    thing.at_hand = false;
    return thing;
}

inline bool any_of_part(std::span<const ThingAtHand> things, Part part) {
    return std::any_of(things.begin(), things.end(),
                       [&](const ThingAtHand& thing) { return part_of(*thing.feedstock) == part; });
}

/// Sets aside what is never fed, and what is poured; the rest is what may go in.
inline void set_aside(RationWork& work, Ration& ration) {
    for (const ThingAtHand& thing : work.in.things) {
        const Feedstock& f = *thing.feedstock;
        if (barred_in(f, Place::worm_bed)) {
            ration.take_out.push_back(take_out(f, thing.label));
        } else if (part_of(f) != Part::poured_water) {
            work.things.push_back(thing);
            if (work.things.back().label.empty()) work.things.back().label = f.name;
        } else if (!is_plain_water(f) && thing.most) {
            ration.rest.push_back({thing, *thing.most, false});  // a drink is no water of ours
        }
    }
}

/// Joins what is listed twice, so that each thing has one amount.
inline void join_repeated(std::vector<ThingAtHand>& things) {
    for (std::size_t i = 0; i < things.size(); ++i) {
        for (std::size_t j = i + 1; j < things.size();) {
            if (!same_material(*things[i].feedstock, *things[j].feedstock)) {
                ++j;
                continue;
            }
            if (things[i].most && things[j].most)
                things[i].most = *things[i].most + *things[j].most;
            else
                things[i].most.reset();
            things[i].amount.reset();
            things[i].first = things[i].first || things[j].first;
            things.erase(things.begin() + static_cast<std::ptrdiff_t>(j));
        }
    }
}

/// Whether a bedding may be mixed in as it is: nothing touchy, and dry.
inline bool is_plain_dry_bedding(const Feedstock& f) {
    constexpr double still_dry = 0.25;  // water by wet mass (judgement): nothing soaked, no manure
    const auto& moisture = f[Property::moisture_wet];
    return part_of(f) == Part::bedding && f.stance == Stance::feed && !f.most_wet_kg_per_kg_worms &&
           moisture && moisture->value <= still_dry;
}

/// The materials of a step. Bedding: the first at hand without a cap of which there is enough, else
/// the one that the bed was made of, else the house bedding, both offered as such. Lime: the first
/// at hand that is ground, else eggshell.
/// @param of_bed  the bedding that the bed was made of.
inline StepMaterials step_materials_of(std::span<const ThingAtHand> things,
                                       std::span<const Portion> of_bed, double contents_m3) {
    std::shared_ptr<const Feedstock> bedding;
    std::shared_ptr<const Feedstock> lime;
    double most_bedding_kg = solver::infinity;
    double most_lime_kg = solver::infinity;
    constexpr double worth_stirring_in_kg = 0.01;
    for (const ThingAtHand& thing : things) {
        const Feedstock& f = *thing.feedstock;
        const double there = thing.most ? thing.most->in_kilograms() : solver::infinity;
        if (!lime && is_ground_lime(f) && there >= worth_stirring_in_kg) {
            lime = thing.feedstock;
            most_lime_kg = there;
        }
        if (bedding || part_of(f) != Part::bedding || f.most_wet_kg_per_kg_worms) continue;
        const double wanted = limits::step_bedding_share.value * contents_m3 * loose_kg_per_m3(f);
        if (there < 0.5 * wanted) continue;
        bedding = thing.feedstock;
        most_bedding_kg = there;
    }
    for (const Portion& portion : of_bed) {
        if (!bedding && is_plain_dry_bedding(*portion.feedstock)) bedding = portion.feedstock;
    }
    StepMaterials with = step_materials(std::move(bedding));
    with.most_bedding_kg = most_bedding_kg;
    if (lime) with.lime = std::move(lime);
    with.most_lime_kg = most_lime_kg;
    return with;
}

/// Days since a temperature was measured that is too old to act on; 0 where it is not.
inline int stale_temperature_days(const RationInput& in) noexcept {
    const int old = in.temperature_days_old.value_or(0);
    return static_cast<double>(old) > limits::fresh_temperature.value ? old : 0;
}

/// While one of these is at watch, half of the ration goes in.
inline constexpr std::array<Hazard, 5> watched_hazards{Hazard::wet, Hazard::dry, Hazard::sour,
                                                       Hazard::salty, Hazard::airless};

inline RationWork work_of(const RationInput& in, Ration& ration) {
    RationWork work{in, completed(in.bed, in.units), {}, {}, {}, {}, alarms_of(in), {}};
    CheckOptions options;
    options.units = in.units;
    options.until_next = days(limits::usual_interval.value);
    options.soft_food_kg = in.soft_food_kg;
    work.numbers = bed_numbers(in.bed, work.bed, options);
    const double surface = work.numbers.surface_m2;
    const double spread = in.spread
                              ? std::clamp(in_square_metres(*in.spread), 1e-4 * surface, surface)
                              : limits::usual_spread_share.value * surface;
    work.place = feeding_place(work.numbers, spread);
    work.idle = hazard_numbers(work.place, Load{});
    if (stale_temperature_days(in) > 0) {
        for (const Hazard hazard : {Hazard::hot, Hazard::cold})
            work.idle[hazard].level = std::min(work.idle[hazard].level, Level::watch);
    }
    set_aside(work, ration);
    join_repeated(work.things);
    work.materials = step_materials_of(work.things, in.bed.bedding, work.numbers.contents_m3);
    work.week_kg = 7.0 * work.place.rules.start_wet_kg_per_day;
    work.soft_kg = work.numbers.soft_food_kg.value;
    for (const Hazard hazard : watched_hazards) {
        if (work.idle[hazard].level == Level::watch)
            work.allowed = limits::watched_ration_share.value;
    }
    for (const StandingAlarm& alarm : work.alarms) {
        if (alarm.level == Level::watch) work.allowed = limits::watched_ration_share.value;
    }
    return work;
}

}  // namespace detail
}  // namespace feed
