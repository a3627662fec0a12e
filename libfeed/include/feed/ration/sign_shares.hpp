#pragma once
#include <string>

#include "feed/ration/sign_remedies.hpp"

// Steps where nothing is known of the bed: shares of its depth and volume, never kilograms or
// litres. They are the shares of the computed step: a tenth of the volume in loose bedding and a
// twentieth in water a day.
namespace feed::detail {

/// The step for one cause in a bed that nobody described.
/// @param bed  the numbers of a usual bed, for the days only.
inline SignStep remedy_in_shares(Cause cause, const BedNumbers& bed, UnitSystem units) {
    const auto with_units = [units](std::string_view text) {
        return words::fixed_text(text, units);
    };
    switch (cause) {
        case Cause::too_wet:
            return plain_step(StepKind::add_bedding,
                              "Feed nothing today. Mix in dry strips of card or paper, a tenth of "
                              "the depth of the bed. Look again tomorrow.");
        case Cause::too_dry:
            return plain_step(
                StepKind::add_water,
                "Feed nothing today. Sprinkle water, one cup for every 20 cups of bed. "
                "Look again tomorrow.");
        case Cause::too_sour:
            return plain_step(
                StepKind::feed_less,
                "Feed nothing for a week and lift out what is slimy. Mix in dry strips "
                "of card, a tenth of the depth of the bed. Dust the top thinly with "
                "ground eggshell, never with hydrated lime.");
        case Cause::packed:
            return plain_step(
                StepKind::add_bedding,
                "Loosen the bed with your fingers from the side. Mix in dry strips of "
                "card, a tenth of the depth of the bed.");
        case Cause::rotting_food:
            return plain_step(
                StepKind::feed_less,
                "Feed nothing for " + words::day_count(std::max(7.0, days_to_clear(bed))) +
                    " and lift out what is slimy. Then start again with half of what you gave.");
        case Cause::too_hot:
            return plain_step(
                StepKind::cool,
                "Feed nothing. Open it, move it into shade and spread the food out. Lay "
                "a damp cloth on top. Measure again tomorrow.");
        case Cause::too_cold:
            return plain_step(StepKind::feed_less,
                              with_units("Feed half while it is below 15 C and nothing below 10 C. "
                                         "Wrap the bin or bring it inside."));
        case Cause::crowded:
            return plain_step(StepKind::spread,
                              "Move half of the worms to a second bin, or give them twice the "
                              "surface.");
        case Cause::new_bin:
            return looking(
                "Leave a light on above the bin for a few nights. Feed no more than a "
                "handful in the first week.");
        case Cause::ammonia:
            return plain_step(
                StepKind::add_bedding,
                "Feed nothing, never lime. Mix dry strips of card into the food, as much "
                "as there is food. Leave the lid ajar.");
        case Cause::salty:
            return looking(
                "Feed nothing salted. Put plain damp card in the place of a quarter of "
                "the bedding.");
        case Cause::uncovered_food: {
            SignStep r = plain_step(
                StepKind::add_bedding,
                "Cover it with dry strips of card, " + words::length(0.05, units) +
                    " deep. Feed nothing for two weeks. Freeze scraps before you feed again.");
            r.later = days(14);
            return r;
        }
        case Cause::starving:
            return plain_step(StepKind::look,
                              "Bury a handful of scraps for each handful of worms. Look again in "
                              "three days.");
        default:
            return remedy_for(cause, RationInput{}, bed, units);
    }
}

}  // namespace feed::detail
