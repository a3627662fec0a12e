#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "feed/bed/act_step.hpp"
#include "feed/bed/advice.hpp"
#include "feed/diary/sign_step.hpp"
#include "feed/diary/sign_table.hpp"

// One computed step for each cause in this bed. Where the check judges the cause, its remedy is
// taken; where the bed as described is fine, the step is worked out for the bed as the quick test
// would show it, because the keeper takes it only when the test says so.
namespace feed::detail {

/// The latest feeding of the diary, or nothing.
inline const Feeding* last_feeding(const Bed& bed) noexcept {
    const auto latest =
        std::max_element(bed.earlier.begin(), bed.earlier.end(),
                         [](const Feeding& a, const Feeding& b) { return a.day < b.day; });
    return latest == bed.earlier.end() ? nullptr : &*latest;
}

/// Days until soft food is down to 15 % ("gone") at the bed's own pace.
inline double days_to_clear(const BedNumbers& bed) noexcept {
    const double pace = pool_rates[0].rate_per_day.value * std::max(bed.cold_factor, 0.2);
    return std::ceil(std::log(1.0 / 0.15) / pace);
}

/// One day's step against a hazard in words.
inline SignStep step_against(Hazard hazard, const FeedingPlace& place, UnitSystem units) {
    const BedNumbers& bed = *place.bed;
    SignStep r;
    if (hazard == Hazard::hot) {
        const double too_warm = bed.temperature_high_c - in_celsius(bed.species->warmest);
        r.kind = StepKind::cool;
        r.text = "Feed nothing until it is cooler by " +
                 words::warming(std::max(too_warm, 1.0), units) + ": shade, air, a damp cloth.";
        return r;
    }
    const StepMaterials with = step_materials(nullptr);
    std::array<bool, hazard_count> raised{};
    raised[static_cast<std::size_t>(hazard)] = true;
    const ActStep step = act_step(place, with, raised, units);
    r.text = "Feed nothing today";
    if (step.bedding_kg > 0.0) {
        r.kind = StepKind::add_bedding;
        r.material = with.bedding->id;
        r.add = wet_kilograms(step.bedding_kg);
        r.text += ". Mix in " + words::mass(step.bedding_kg, units) + " of dry shredded cardboard";
    }
    if (step.lime_kg > 0.0) {
        if (r.kind == StepKind::none) {
            r.kind = StepKind::add_lime;
            r.material = with.lime->id;
            r.add = wet_kilograms(step.lime_kg);
        }
        r.text +=
            ". Add " + words::pinch_or_mass(step.lime_kg, units) + " of ground eggshell, moistened";
    }
    if (step.water_kg > 0.0) {
        if (r.kind == StepKind::none) {
            r.kind = StepKind::add_water;
            r.material = with.water->id;
            r.add = wet_kilograms(step.water_kg);
        }
        r.text += ". Sprinkle " + words::volume(step.water_kg, units) + " of water";
    }
    if (r.kind == StepKind::none) r.kind = StepKind::feed_less;
    if (hazard == Hazard::salty) r.text += ". Renew a part of the bedding and feed nothing salted";
    r.text += ". Look again tomorrow.";
    return r;
}

/// The step against a hazard: of the bed as described where it has it, else as the quick test
/// shows.
inline SignStep remedy_by_step(Hazard hazard, const Bed& as_described, Bed as_tested,
                               UnitSystem units) {
    as_tested.earlier = as_described.earlier;
    for (const Bed* said : {&as_described, static_cast<const Bed*>(&as_tested)}) {
        CheckOptions week;
        week.until_next = days(limits::usual_interval.value);
        const BedNumbers numbers = bed_numbers(*said, completed(*said), week);
        // For the whole bed and a week, as the step of a ration: there is one amount.
        const FeedingPlace place = feeding_place(numbers, numbers.surface_m2);
        const bool raised = is_raised(hazard_number(hazard, place, Load{}).level);
        if (raised || said == &as_tested)
            return raised ? step_against(hazard, place, units) : SignStep{};
    }
    return {};
}

inline SignStep looking(std::string text) {
    SignStep r;
    r.kind = StepKind::look;
    r.text = std::move(text);
    return r;
}

inline SignStep bedding_over(double kg, std::string before, std::string after, UnitSystem units) {
    SignStep r;
    r.kind = StepKind::add_bedding;
    r.material = "cardboard-corrugated";
    r.add = wet_kilograms(rounded_mass(kg, true, units));
    r.text = std::move(before) + words::mass(r.add.in_kilograms(), units) +
             " of dry shredded cardboard" + std::move(after);
    return r;
}

inline double loose_card_kg_per_m3() {
    constexpr std::size_t cardboard = *find_id("cardboard-corrugated");
    return loose_kg_per_m3(feedstock_at(cardboard));
}

inline SignStep pause(const BedNumbers& bed, double least_days, UnitSystem units) {
    const double wait = std::max(least_days, days_to_clear(bed));
    const double week = rounded_mass(7.0 * feeding_rules(bed).start_wet_kg_per_day, false, units);
    SignStep r;
    r.kind = StepKind::feed_less;
    r.later = days(wait);
    r.feed_later = wet_kilograms(week);
    r.text = "Feed nothing for " + words::day_count(wait) +
             ", lift out what is slimy, then start again with " +
             (week > 0.0 ? words::mass(week, units) + " a week."
                         : std::string("a handful when it is warmer."));
    return r;
}

inline SignStep room_for_worms(const BedNumbers& bed, UnitSystem units) {
    // 1 lb a square foot, the denser of the stockings in print (common practice).
    const double most = kilograms_per_pound / (metres_per_foot * metres_per_foot) * bed.surface_m2;
    const double over = bed.worms_kg.value - most;
    if (over <= 0.0)
        return looking("By what you said there is room for " + words::mass(most, units) +
                       " of worms: count them before you split the bin.");
    SignStep r;
    r.kind = StepKind::spread;
    r.spread = square_metres(rounded_area(bed.worms_kg.value / most * bed.surface_m2, true, units));
    r.text = "Move about " + words::mass(rounded_mass(over, true, units), units) +
             " of worms to a second bin, or give them " +
             words::area(in_square_metres(r.spread), units) + ".";
    return r;
}

inline SignStep remove_disliked(const Bed& said, const BedNumbers& bed, UnitSystem units) {
    if (const Feeding* latest = last_feeding(said)) {
        for (const Portion& portion : latest->portions) {
            const Feedstock& f = *portion.feedstock;
            if (!f.most_wet_kg_per_kg_worms) continue;
            const double most = *f.most_wet_kg_per_kg_worms * bed.worms_kg.value;
            const double given = portion.wet_mass.in_kilograms();
            if (given <= most) continue;
            SignStep r;
            r.kind = StepKind::leave_out;
            r.material = f.id;
            r.feed_now = wet_kilograms(rounded_mass(most, false, units));
            r.text = "Lift out about " + words::mass(given - most, units) + " of the " + f.name +
                     " and give at most " + words::mass(most, units) + " at a time.";
            return r;
        }
    }
    SignStep r;
    r.kind = StepKind::feed_less;
    r.text =
        "Lift out half of what they avoid and cover the rest with bedding. By the next day they "
        "should settle (common practice).";
    return r;
}

inline SignStep feed_again(const BedNumbers& bed, UnitSystem units) {
    const double week = rounded_mass(7.0 * feeding_rules(bed).start_wet_kg_per_day, false, units);
    SignStep r;
    r.kind = StepKind::look;
    r.feed_now = wet_kilograms(week);
    r.text = week > 0.0 ? "Feed about " + words::mass(week, units) +
                              " a week, under bedding, and look again in three days."
                        : std::string("Feed a handful when it is warmer.");
    return r;
}

/// The step against hunger and animals, and none for what is well.
inline SignStep remedy_against_guests(Cause cause, const BedNumbers& bed, UnitSystem units) {
    switch (cause) {
        case Cause::normal_life:
            return looking("Nothing needs doing.");
        case Cause::starving:
            return feed_again(bed, units);
        case Cause::animal_in:
            return looking(words::fixed_text(
                "Take out cooked food and bread. Close every gap with wire mesh of at most 6 mm. "
                "Set the bin on legs or bricks. Wear gloves, wet droppings before you wipe, wash "
                "your hands.",
                units));
        case Cause::hunter:
            return looking(
                "Pick them out with gloves or tweezers, for several nights. Keep the bin off the "
                "soil. Centipedes can bite.");
        default:
            return {};
    }
}

/// Below 6 is what the strip of the quick test would show; an airy bed bears more. A bed that is
/// measured gets the step of its own ration.
inline SignStep against_sour(const Bed& said, const BedNumbers& bed, UnitSystem units) {
    if (said.ph) {
        SignStep r = remedy_by_step(Hazard::sour, said, said, units);
        if (r.kind != StepKind::none) return r;
    }
    Bed tested = said;
    for (const double ph : {5.8, 5.4, 5.0, 4.6}) {
        if (said.ph && ph > *said.ph) continue;
        tested.ph = ph;
        SignStep r = remedy_by_step(Hazard::sour, said, tested, units);
        if (r.kind != StepKind::none) return r;
    }
    return pause(bed, 7.0, units);
}

inline SignStep against_ammonia(const BedNumbers& bed, UnitSystem units) {
    const ActStep step =
        loose_bedding_step(feeding_place(bed, bed.surface_m2), step_materials(nullptr), units);
    return bedding_over(step.bedding_kg,
                        "Feed nothing, and no lime. Lift out the smelly food, mix in ",
                        " and leave the lid ajar.", units);
}

/// The step for one cause. @param bed the numbers of `said`.
inline SignStep remedy_for(Cause cause, const Bed& said, const BedNumbers& bed, UnitSystem units) {
    Bed tested = said;
    switch (cause) {
        case Cause::too_wet:
            tested.moisture.reset();
            tested.squeeze = Squeeze::many_drops;
            return remedy_by_step(Hazard::wet, said, tested, units);
        case Cause::too_dry:
            tested.moisture.reset();
            tested.squeeze = Squeeze::crumbly;
            return remedy_by_step(Hazard::dry, said, tested, units);
        case Cause::too_sour:
            return against_sour(said, bed, units);
        case Cause::packed:
            return bedding_over(0.1 * bed.contents_m3 * loose_card_kg_per_m3(),
                                "Loosen the bed with your fingers from the side and mix in ",
                                ", a tenth of its volume.", units);
        case Cause::rotting_food:
            return pause(bed, 7.0, units);
        case Cause::disliked_food:
            return remove_disliked(said, bed, units);
        case Cause::too_hot:
            if (bed.temperature_high_c < 32.0) tested.temperature = celsius(32);
            return remedy_by_step(Hazard::hot, said, tested, units);
        case Cause::too_cold: {
            const Temperature t = celsius(std::min(bed.temperature_low_c, 8.0));
            const TemperatureAdvice advice = at_temperature(said, t, {}, units);
            SignStep r;
            r.kind = StepKind::feed_less;
            r.feed_now = advice.ration_a_week;
            r.text = advice.text;
            return r;
        }
        case Cause::crowded:
            return room_for_worms(bed, units);
        case Cause::new_bin:
            return looking("Leave a light on above the bin for a few nights. " +
                           first_weeks_text(first_weeks(said, units), units));
        case Cause::ammonia:
            return against_ammonia(bed, units);
        case Cause::salty: {
            SignStep step = remedy_by_step(Hazard::salty, said, said, units);
            if (step.kind != StepKind::none) return step;
            return looking(
                "Feed nothing salted and rinse what is. The feedings you listed are no "
                "danger.");
        }
        case Cause::uncovered_food: {
            SignStep r =
                bedding_over(0.05 * bed.surface_m2 * loose_card_kg_per_m3(), "Cover it with ",
                             ", " + words::length(0.05, units) +
                                 " deep, and feed nothing for two weeks. Freeze scraps before you "
                                 "feed again.",
                             units);
            r.later = days(14);
            return r;
        }
        case Cause::slow_food:
            return looking(
                "Nothing needs doing: chop or freeze such pieces next time. Judge by "
                "the soft food, gone in about " +
                words::day_count(days_to_clear(bed)) + ".");
        case Cause::fresh_food:
            return looking("Nothing needs doing: look again in " +
                           words::day_count(std::max(3.0, std::ceil(0.5 * days_to_clear(bed)))) +
                           ". If it is not less, treat it as too much food.");
        default:
            return remedy_against_guests(cause, bed, units);
    }
}

}  // namespace feed::detail
