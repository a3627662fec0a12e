#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "feed/bed/act_step.hpp"
#include "feed/bed/completed.hpp"
#include "feed/blend/take_out.hpp"
#include "feed/diary/date.hpp"
#include "feed/diary/diary.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/ration/from_diary.hpp"
#include "feed/ration/plan.hpp"
#include "feed/ration/ration.hpp"

// A new worm bin: bedding, water, grit and castings to set it up, the day the worms go in, and the
// first rations, each reckoned with the bed and the ration of every other verb.
namespace feed {

namespace new_bed {

/// A bed keeps less than this of damp bedding neither damp nor cool.
inline constexpr Factor least_depth{
    0.075, 0.05,     0.10,
    "m",   Grade::d, "at least 3 in of bedding is kept (keeper's page, New York) (judgement)"};
/// From here on more depth is a wish: newspaper strips 8 in deep to begin (club table, Maine).
inline constexpr Factor good_depth{
    0.20, 0.10, 0.30, "m", Grade::d, "8 in of bedding to begin (club table, Maine) (judgement)"};
/// Of that depth, from which on a bed serves as it is.
inline constexpr double serving_share = 0.75;
/// What worms bear only a little of (oak leaves, peat, needles) is at most so much of a new bed.
inline constexpr Factor touchy_share{0.25,  0.1,      0.35,
                                     "L/L", Grade::d, "of the volume of a new bed (judgement)"};
/// Surface for which a handful of soil is grit enough: one or two handfuls on 16 x 20 in (city
/// page, Euless, Texas), 0.21 m2.
inline constexpr Factor surface_per_handful{
    0.14, 0.10, 0.21, "m2", Grade::d, "1 or 2 handfuls of soil on 0.21 m2 (city page, Texas)"};
/// Bedding stands damp so long before the worms go in: water takes a night to soak in.
inline constexpr int quiet_days = 1;
/// Bedding that warms by itself (hay, green chips) stands so long (judgement).
inline constexpr int heating_days = 7;
/// The first rations that are told, from the day the worms go in.
inline constexpr int told_days = 21;

}  // namespace new_bed

/// What a new bin is set up from.
struct NewBinInput {
    Bed bed;  ///< container, worms, temperature; bedding, wetness and age are what is planned
    std::vector<ThingAtHand> bedding;  ///< at hand; empty: torn cardboard from the house
    Date date;                         ///< the day of setting it up
    UnitSystem units = UnitSystem::metric;
};

/// Whether there is bedding enough.
enum class BedDepth : std::uint8_t { serves, shallow, too_shallow };
inline constexpr std::array<std::string_view, 3> bed_depth_words{"serves", "shallow",
                                                                 "too_shallow"};
constexpr std::string_view text(BedDepth depth) noexcept {
    return bed_depth_words[static_cast<std::size_t>(depth)];
}

/// One of the first rations: a day on which something goes in.
struct FirstRation {
    int day = 0;  ///< from the day of setting up
    Ration ration;
};

/// A new bin as it is set up. Masses are as printed, and the bed is as printed.
struct NewBin {
    std::vector<TakeOut> take_out;
    std::vector<PutIn> bedding;
    double water_kg = 0.0;             ///< to begin with
    double more_water_kg = 0.0;        ///< bit by bit on top of it, where the fist asks for it
    Ranged wetness;                    ///< water over what the bedding holds, with that water
    Length depth_at_hand = metres(0);  ///< of the bedding at hand alone
    Length depth = metres(0);          ///< as it is set up
    Length aimed_depth = metres(0);
    BedDepth depth_serves = BedDepth::serves;
    std::vector<PutIn> missing;          ///< bedding to get, up to the aimed depth; at most one
    int grit_handfuls = 1;               ///< of garden soil, sand or ground eggshell
    int castings_handfuls = 1;           ///< of old castings, compost or soil
    std::vector<std::string> heating;    ///< labels of bedding that warms by itself when damp
    int worms_in = new_bed::quiet_days;  ///< days from setting up
    Bed bed;                             ///< on the day the worms go in
    Date bed_date;
    std::vector<FirstRation> rations;  ///< of the first three weeks with worms
    std::vector<Assumption> assumed;
};

namespace detail {

/// The row of the table that a soaked bedding is made from, as it is sold. Nothing where it is as
/// dry as that: it is as it is sold.
inline std::optional<std::size_t> sold_form(const Feedstock& bedding) {
    const auto row = bedding.sold_as.empty() ? std::nullopt : find_id(bedding.sold_as);
    if (!row) return std::nullopt;
    const Feedstock sold = feedstock_at(*row);
    const auto& dry = sold[Property::moisture_wet];
    const auto& wet = bedding[Property::moisture_wet];
    return dry && wet && wet->value > dry->high ? row : std::nullopt;
}

/// One bedding of a new bin: what a kilogram of it fills, drinks and brings, and how much goes in.
struct BeddingShare {
    ThingAtHand thing;
    double settled_m3 = 0.0;  ///< a kg
    double capacity_kg = 0.0;
    Ranged capacity_range;
    double water_kg = 0.0;
    double most_m3 = 0.0;  ///< there is, or may go in
    double kg = 0.0;

    double volume_m3() const noexcept { return kg * settled_m3; }
};

inline BeddingShare bedding_share(ThingAtHand thing, double bed_m3) {
    BeddingShare share;
    const Feedstock& f = *thing.feedstock;
    const Contribution one = contribution_of(f);
    share.settled_m3 = one[Addend::settled_m3].value;
    share.capacity_range = one[Addend::capacity_kg];
    share.capacity_kg = share.capacity_range.value;
    share.water_kg = one[Addend::water_kg].value;
    share.most_m3 = thing.most ? thing.most->in_kilograms() * share.settled_m3 : bed_m3;
    if (f.stance == Stance::feed_little)
        share.most_m3 = std::min(share.most_m3, new_bed::touchy_share.value * bed_m3);
    share.thing = std::move(thing);
    return share;
}

/// Fills the bed with equal volumes of each bedding as far as there is of it.
inline void fill_evenly(std::vector<BeddingShare>& shares, double bed_m3, UnitSystem units) {
    double low = 0.0;
    double high = bed_m3;
    for (int i = 0; i < 60; ++i) {
        const double level = 0.5 * (low + high);
        double sum = 0.0;
        for (const BeddingShare& share : shares)
            sum += std::min(level, share.most_m3);
        (sum < bed_m3 ? low : high) = level;
    }
    for (BeddingShare& share : shares) {
        const double exact = std::min(high, share.most_m3) / share.settled_m3;
        const double there = share.thing.most ? share.thing.most->in_kilograms() : 1e9;
        // Nobody leaves a twentieth of a bag.
        const bool all = exact >= 0.95 * there && share.thing.feedstock->stance == Stance::feed;
        share.kg = all ? there : std::min(there, rounded_mass(exact, false, units));
    }
}

/// Dry card that takes up what the bedding at hand holds too much of.
inline void dry_with_card(std::vector<BeddingShare>& shares, double bed_m3, UnitSystem units) {
    double water = 0.0;
    double capacity = 0.0;
    for (const BeddingShare& share : shares) {
        water += share.kg * share.water_kg;
        capacity += share.kg * share.capacity_kg;
    }
    const double aim = limits::wetness_aim.value;
    if (water <= limits::wetness_aim.high * capacity) return;
    BeddingShare card = bedding_share(offered(step_materials(nullptr).bedding), bed_m3);
    card.kg = rounded_mass((water - aim * capacity) / (aim * card.capacity_kg - card.water_kg),
                           true, units);
    shares.push_back(std::move(card));
}

/// Sets aside what is never fed and joins what is listed twice.
inline std::vector<ThingAtHand> beddings_of(const NewBinInput& in, NewBin& bin) {
    std::vector<ThingAtHand> things;
    for (const ThingAtHand& thing : in.bedding) {
        if (barred_in(*thing.feedstock, Place::worm_bed))
            bin.take_out.push_back(take_out(*thing.feedstock, thing.label));
        else
            things.push_back(thing);
    }
    join_repeated(things);
    if (things.empty()) things.push_back(offered(step_materials(nullptr).bedding));
    return things;
}

/// Water up to the aim of wetness, and how much more the bedding may turn out to drink.
inline void plan_water(const std::vector<BeddingShare>& shares, UnitSystem units, NewBin& bin) {
    double water = 0.0;
    Ranged capacity;
    for (const BeddingShare& share : shares) {
        water += share.kg * share.water_kg;
        capacity += share.kg * share.capacity_range;
    }
    const double aim = limits::wetness_aim.value;
    const auto litres_up_to = [&](double kg) { return rounded_volume(kg, false, units); };
    const bool right = water >= limits::wetness_aim.low * capacity.value;
    if (!right) bin.water_kg = litres_up_to(std::max(0.0, aim * capacity.value - water));
    bin.more_water_kg = litres_up_to(std::max(0.0, aim * capacity.high - water - bin.water_kg));
    const double there = water + bin.water_kg;
    bin.wetness = {there / capacity.value, there / capacity.high, there / capacity.low};
}

inline double depth_of(std::span<const BeddingShare> shares, double surface_m2) {
    double filled_m3 = 0.0;
    for (const BeddingShare& share : shares)
        filled_m3 += share.volume_m3();
    return filled_m3 / surface_m2;
}

/// A bedding as it is got: what is at hand soaked or damp is fetched as it is sold, or dry.
inline ThingAtHand as_it_is_got(const ThingAtHand& bedding) {
    const Feedstock& f = *bedding.feedstock;
    const auto sold = sold_form(f);
    const auto row = sold || f.prepared_as.empty() ? sold : find_id(f.id);
    if (row) return offered(std::make_shared<const Feedstock>(feedstock_at(*row)));
    ThingAtHand same = offered(bedding.feedstock);
    same.label = bedding.label;
    return same;
}

/// How deep what is at hand will be, whether that serves, and what is missing. Where it does not
/// serve, what is missing is part of the plan: it has to be got first.
inline void plan_depth(std::vector<BeddingShare>& shares, double surface_m2, UnitSystem units,
                       NewBin& bin) {
    const double depth = depth_of(shares, surface_m2);
    const double wanted = std::min(in_metres(bin.aimed_depth), new_bed::good_depth.value);
    const double good = new_bed::serving_share * wanted;
    const double least = std::min(new_bed::least_depth.value, good);
    bin.depth_at_hand = bin.depth = metres(depth);
    bin.depth_serves = depth < least  ? BedDepth::too_shallow
                       : depth < good ? BedDepth::shallow
                                      : BedDepth::serves;
    if (bin.depth_serves == BedDepth::serves) return;
    // More of what worms bear any amount of, else card.
    ThingAtHand kind = offered(step_materials(nullptr).bedding);
    for (const BeddingShare& share : shares) {
        if (share.thing.feedstock->stance != Stance::feed) continue;
        kind = as_it_is_got(share.thing);
        break;
    }
    BeddingShare more = bedding_share(std::move(kind), wanted * surface_m2);
    more.kg = rounded_mass((wanted - depth) * surface_m2 / more.settled_m3, true, units);
    bin.missing.push_back({more.thing, Part::bedding, wet_kilograms(more.kg), units});
    if (bin.depth_serves != BedDepth::too_shallow) return;
    shares.push_back(std::move(more));
    bin.depth = metres(depth_of(shares, surface_m2));
}

/// The bed on the day the worms go in, as it is printed.
inline void plan_bed(const NewBinInput& in, NewBin& bin) {
    bin.bed = in.bed;
    bin.bed.age = days(0);
    bin.bed.squeeze.reset();
    bin.bed.moisture.reset();
    bin.bed.depth_of_contents = bin.depth;
    bin.bed.bedding = portions_of(bin.bedding);
    if (bin.water_kg > 0.0)
        bin.bed.bedding.push_back({step_materials(nullptr).water, wet_kilograms(bin.water_kg)});
    bin.worms_in = bin.heating.empty() ? new_bed::quiet_days : new_bed::heating_days;
    bin.bed_date = date_of(day_number(in.date) + bin.worms_in);
}

/// The rations of the first three weeks: each is the ration of a diary in which the ones before
/// were obeyed.
inline void plan_rations(const NewBinInput& in, std::span<const BeddingShare> shares, NewBin& bin) {
    Diary diary;
    diary.bed = bin.bed;
    diary.bed_date = bin.bed_date;
    std::vector<ThingAtHand> left;
    for (const BeddingShare& share : shares) {
        ThingAtHand thing = share.thing;
        if (thing.most) {
            thing.most = wet_kilograms(thing.most->in_kilograms() - share.kg);
            if (thing.most->in_kilograms() < least_ration_kg) continue;
        }
        left.push_back(std::move(thing));
    }
    const std::int64_t zero = day_number(in.date);
    for (int day = bin.worms_in; day <= bin.worms_in + new_bed::told_days;) {
        const Date today = date_of(zero + day);
        RationInput now = ration_input_of(diary, today, in.units);
        now.things = left;
        Ration answer = ration(now);
        const int next = answer.next_feeding ? answer.next_feeding->day : answer.next_look;
        if (answer.scraps.in_kilograms() > 0.0) {
            diary.feedings.push_back({today, portions_of(answer.put_in), {}, {}});
            bin.rations.push_back({day, std::move(answer)});
        }
        day += std::max(1, next);
    }
}

}  // namespace detail

/// Sets up a new bin: equal volumes of each bedding at hand up to the usual filling of the bin (two
/// thirds, at most 30 cm), what is touchy at most a quarter; water to 0.65 of what the bedding
/// holds (one or two drops from a fist), dry card with bedding that is too wet; grit and castings
/// by the surface; the worms after a night, after a week where the bedding may heat; then the
/// rations of three weeks, each by `ration` for the bed as it stands that day. Bedding by its
/// settled density: newspaper at two thirds of a bin is 2.5 lb a cubic foot (county extension page,
/// Michigan). Errors: none; impossible numbers are refused where files are read. Threads: pure.
/// Time: a few rations.
inline NewBin new_bin(const NewBinInput& in) {
    NewBin bin;
    Bed empty = in.bed;
    empty.bedding.clear();
    empty.depth_of_contents.reset();
    empty.age = days(0);
    const CompletedBed usual_bed = completed(empty, in.units);
    const double surface = std::max(in_square_metres(usual_bed.surface), 1e-4);
    bin.aimed_depth = usual_bed.depth_of_contents;
    const double bed_m3 = surface * in_metres(bin.aimed_depth);
    std::vector<detail::BeddingShare> shares;
    for (ThingAtHand& thing : detail::beddings_of(in, bin))
        shares.push_back(detail::bedding_share(std::move(thing), bed_m3));
    detail::fill_evenly(shares, bed_m3, in.units);
    detail::plan_depth(shares, surface, in.units, bin);
    detail::dry_with_card(shares, bed_m3, in.units);
    bin.depth = metres(detail::depth_of(shares, surface));
    for (const detail::BeddingShare& share : shares) {
        if (!(share.kg > 0.0)) continue;
        bin.bedding.push_back({share.thing, Part::bedding, wet_kilograms(share.kg), in.units});
        if (share.thing.feedstock->has(Caution::heating)) bin.heating.push_back(share.thing.name());
    }
    detail::plan_water(shares, in.units, bin);
    const double handfuls = std::round(surface / new_bed::surface_per_handful.value);
    bin.grit_handfuls = static_cast<int>(std::clamp(handfuls, 1.0, 20.0));
    bin.castings_handfuls = bin.grit_handfuls;
    detail::plan_bed(in, bin);
    bin.assumed = completed(bin.bed, in.units).assumed;
    detail::plan_rations(in, shares, bin);
    return bin;
}

}  // namespace feed
