#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "feed/bed/advice.hpp"
#include "feed/diary/sign_step.hpp"
#include "feed/diary/sign_table.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/ration/decide.hpp"

// One computed step for each cause in this bed. Amounts are those of the ration: of the bed as
// described where it has what the cause is, else of the bed as the quick test would show it,
// because the keeper takes the step only when the test says so.
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

/// What goes into the text and the amounts of a step: the first of them is its `add`.
inline void add_to_step(const Ration& ration, Part part, StepKind kind, UnitSystem units,
                        SignStep& step) {
    for (const PutIn& put : ration.put_in) {
        if (put.part != part) continue;
        const double kg = put.wet_mass.in_kilograms();
        const Feedstock& f = *put.thing.feedstock;
        if (step.material.empty()) {
            step.kind = kind;
            step.material = f.id;
            step.add = put.wet_mass;
        }
        const std::string name = plain_name(put.thing.label, f);
        if (part == Part::poured_water)
            step.text += ". Sprinkle " + words::volume(kg, units) + " of water";
        else if (part == Part::amendment)
            step.text += ". Stir in " + words::pinch_or_mass(kg, units) + " of " + name + ", damp";
        else
            step.text += (ration.scraps.in_kilograms() > 0.0 ? ". Cover with " : ". Mix in ") +
                         words::mass(kg, units) + " of " + name;
    }
}

/// When to look where nothing is fed: the day of the ration.
inline std::string look_again(const Ration& ration) {
    if (looks_first(ration)) return ", and note what you find before you feed.";
    if (ration.next_look <= 1) return ". Look again tomorrow.";
    return ". Look again in " + words::day_count(ration.next_look) + ".";
}

/// A ration as the step against a cause: there is one amount for one bed, whoever asks.
/// @param by_hand  sentences to do first where nothing is fed, or "".
/// @param tested   of the bed as the test shows it: the ration is that one once the test is noted.
inline SignStep step_of(const Ration& ration, std::string by_hand, UnitSystem units,
                        bool tested = false) {
    SignStep step;
    step.kind = StepKind::feed_less;
    step.feed_now = ration.scraps;
    const bool feeds = ration.scraps.in_kilograms() > 0.0;
    if (!feeds) step.text = std::move(by_hand);
    const std::string kg = words::mass(ration.scraps.in_kilograms(), units);
    if (!feeds)
        step.text += "Feed nothing today";
    else if (tested)
        step.text += "Note it: the ration is then at most " + kg + " of scraps";
    else
        step.text += "Feed at most " + kg + " of scraps today, the ration";
    add_to_step(ration, Part::bedding, StepKind::add_bedding, units, step);
    add_to_step(ration, Part::amendment, StepKind::add_lime, units, step);
    add_to_step(ration, Part::poured_water, StepKind::add_water, units, step);
    step.text += feeds ? "." : look_again(ration);
    return step;
}

/// A step without an amount.
inline SignStep plain_step(StepKind kind, std::string text) {
    SignStep step;
    step.kind = kind;
    step.text = std::move(text);
    return step;
}

/// Heat goes by itself: nothing is put in against it.
inline SignStep step_against_heat(const BedNumbers& bed, UnitSystem units) {
    // As warm at least as the quick test would show it.
    const double too_warm =
        std::max(bed.temperature_high_c, 32.0) - in_celsius(bed.species->warmest);
    return plain_step(StepKind::cool, "Feed nothing until it is cooler by " +
                                          words::warming(std::max(too_warm, 1.0), units) +
                                          ": shade, air, a damp cloth.");
}

/// The step against a hazard: that of the ration of this bed where it has the hazard, else of the
/// bed as the quick test would show it. Nothing where not even that one has it.
inline SignStep remedy_by_step(Hazard hazard, const RationInput& as_described,
                               const RationInput& as_tested, std::string by_hand,
                               UnitSystem units) {
    for (const RationInput* in : {&as_described, &as_tested}) {
        const Ration answer = ration(*in);
        if (is_raised(answer.before[static_cast<std::size_t>(hazard)]))
            return step_of(answer, std::move(by_hand), units, in == &as_tested);
    }
    return {};
}

/// The step where a smell was noted.
inline SignStep remedy_of_smell(Hazard hazard, RationInput in, std::string by_hand,
                                UnitSystem units) {
    in.alarms.push_back({hazard, "it smelled", Level::act, 0});
    return step_of(ration(in), std::move(by_hand), units);
}

inline SignStep looking(std::string text) {
    return plain_step(StepKind::look, std::move(text));
}

/// Food that rots: how long nothing is fed, the ration says when it knows of it.
inline SignStep pause() {
    return plain_step(StepKind::feed_less,
                      "Lift out what is slimy and feed nothing today. Note that food is left: the "
                      "ration then says when to feed again.");
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
    return plain_step(StepKind::feed_less,
                      "Lift out half of what they avoid and cover the rest with bedding. By the "
                      "next day they should settle (common practice).");
}

inline SignStep feed_again(const RationInput& in, UnitSystem units) {
    const Ration answer = ration(in);
    SignStep step;
    step.kind = StepKind::look;
    step.feed_now = answer.scraps;
    const double kg = answer.scraps.in_kilograms();
    step.text = kg > 0.0
                    ? "Feed today's ration, " + words::mass(kg, units) +
                          " of scraps, under bedding, and look again in three days."
                    : "Feed nothing before the ration says so. If no food is left, note that it "
                      "is gone and ask again.";
    return step;
}

/// The step against hunger and animals, and none for what is well.
inline SignStep remedy_against_guests(Cause cause, const RationInput& in, UnitSystem units) {
    switch (cause) {
        case Cause::normal_life:
            return looking("Nothing needs doing.");
        case Cause::starving:
            return feed_again(in, units);
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
inline SignStep against_sour(const RationInput& in, UnitSystem units) {
    const auto& said = in.bed.ph;
    SignStep step = remedy_by_step(Hazard::sour, in, in, "", units);
    RationInput tested = in;
    for (const double ph : {5.8, 5.4, 4.9, 4.6}) {
        if (step.kind != StepKind::none) return step;
        if (said && ph > *said) continue;
        tested.bed.ph = ph;
        step = remedy_by_step(Hazard::sour, in, tested, "", units);
    }
    if (step.kind != StepKind::none) return step;
    return remedy_of_smell(Hazard::sour, in, "Lift out the rotting food. ", units);
}

/// The step for one cause. @param in  of the bed. @param bed  its numbers.
inline SignStep remedy_for(Cause cause, const RationInput& in, const BedNumbers& bed,
                           UnitSystem units) {
    const Bed& said = in.bed;
    RationInput tested = in;
    switch (cause) {
        case Cause::too_wet:
            tested.bed.moisture.reset();
            tested.bed.squeeze = Squeeze::many_drops;
            return remedy_by_step(Hazard::wet, in, tested, "", units);
        case Cause::too_dry:
            tested.bed.moisture.reset();
            tested.bed.squeeze = Squeeze::crumbly;
            return remedy_by_step(Hazard::dry, in, tested, "", units);
        case Cause::too_sour:
            return against_sour(in, units);
        case Cause::packed:
            return remedy_of_smell(Hazard::airless, in,
                                   "Loosen the bed with your fingers from the side. ", units);
        case Cause::rotting_food:
            return pause();
        case Cause::disliked_food:
            return remove_disliked(said, bed, units);
        case Cause::too_hot:
            return step_against_heat(bed, units);
        case Cause::too_cold:
            tested.bed.temperature = celsius(std::min(bed.temperature_low_c, 8.0));
            tested.temperature_days_old.reset();
            return step_of(ration(tested),
                           "Bring it in, or wrap it well; do not disturb the worms. ", units);
        case Cause::crowded:
            return room_for_worms(bed, units);
        case Cause::new_bin: {
            SignStep step = step_of(ration(in), "", units);
            step.text = "Leave a light on above the bin for a few nights. " + step.text;
            return step;
        }
        case Cause::ammonia:
            return remedy_of_smell(Hazard::ammonia, in,
                                   "Lift out the smelly food, leave the lid ajar, and no lime. ",
                                   units);
        case Cause::salty: {
            SignStep step = remedy_by_step(
                Hazard::salty, in, in, "Swap a third of the bed for fresh damp bedding. ", units);
            if (step.kind != StepKind::none) return step;
            return looking(
                "Feed nothing salted and rinse what is. The feedings you listed are no "
                "danger.");
        }
        case Cause::uncovered_food:
            return looking(
                "Cover the food with bedding, " + words::length(0.05, units) +
                " deep. Freeze scraps before you feed them. Feed no more than the ration "
                "says.");
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
            return remedy_against_guests(cause, in, units);
    }
}

}  // namespace feed::detail
