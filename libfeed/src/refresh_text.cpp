#include <algorithm>
#include <optional>
#include <utility>

#include "bed_work_words.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/amount_words.hpp"

namespace feed::io {
namespace {

/// The lines of one screen in the making.
struct Lines {
    const RefreshAnswer& answer;
    const RefreshOptions& options;
    UnitSystem units;
    std::vector<ScreenLine> lines;

    void add(std::string text, int rank = 0) { lines.push_back({std::move(text), rank}); }
    std::string water(double kg) const { return volume_text(litres(kg), units); }
    std::string salt(double share) const { return percent_text(share); }
};

void add_bedding(Lines& to) {
    const BedAfter& after = to.answer.after;
    if (to.answer.verdict == RefreshVerdict::not_now) {
        to.add("Do not change it now: there is much fresh food in it. Ask again in a week.");
        return;
    }
    to.add("Change " + share_text(to.answer.share) + " of the bed" +
           (to.answer.share < to.options.share ? ": more at once would harm it." : "."));
    to.add("Lift it out where it is oldest. Pick the worms out and put them back.");
    to.add(put_back(after.change, to.units, "Put in"));
    to.add("Salt in the bed: " + to.salt(after.salt_before) + " before, " +
               to.salt(after.salt_after) + " after.",
           2);
}

void add_flush(Lines& to) {
    const RefreshAnswer& answer = to.answer;
    const BedAfter& after = answer.after;
    if (answer.verdict == RefreshVerdict::not_needed) {
        to.add("Do not flush it: the bed is not too salty.");
        to.add("Salt is " + to.salt(after.salt_before) + " of the bed; 0.2 % is where it harms.");
        return;
    }
    if (answer.verdict == RefreshVerdict::no_drain) {
        to.add("Do not flush it: the bin has no drain, so water would stand.");
        to.add("Swap a third of the bed for fresh damp bedding instead.");
        to.add(put_back(after.change, to.units, "Put in"));
    } else {
        to.add("Flush it with " + to.water(after.change.flushed_kg) + " of water, tap open.");
        to.add("Pour slowly, a can at a time, until it has run through. Throw that water away.");
        if (!answer.days.empty()) {
            to.add("Then mix in " + bedding_text(answer.days.front(), to.units) +
                   ", dry and torn.");
            if (answer.days.size() > 1)
                to.add("Go on so for about " + counted(answer.days.size(), "day") +
                       ", until a handful gives a drop or two.");
        }
    }
    to.add("Salt: " + to.salt(after.salt_before) + " of the bed before, about " +
           to.salt(after.salt_after) + " after; 0.2 % is where it harms.");
}

void add_dry(Lines& to) {
    const RefreshAnswer& answer = to.answer;
    if (answer.verdict == RefreshVerdict::not_needed) {
        to.add("It is not too wet: there is nothing to dry.");
        return;
    }
    to.add("Dry it out over " + counted(answer.days.size(), "day") + ", and feed nothing.");
    to.add("Drain it, lift out the wettest part and leave the lid ajar.");
    to.add("Today mix in " + bedding_text(answer.days.front(), to.units) + ", dry and torn.");
    if (answer.days.size() > 1)
        to.add("In all it may take " + bedding_text(answer.after.change, to.units) +
               ". Squeeze a handful each day; stop when it gives a drop or two.");
    if (answer.days.size() >= static_cast<std::size_t>(limits::most_drying_days))
        to.add("That is long: move the worms into fresh damp bedding if they climb.");
}

void add_split(Lines& to) {
    const BedAfter& after = to.answer.after;
    to.add("Split it: half of the bed with its worms goes into a second bin like this one.");
    to.add("Divide it down the middle, so that food and worms go both ways.");
    to.add(put_back(after.change, to.units, "Put into each"));
    to.add("Start a file for the second bin: feed start.", 2);
}

void add_at(Lines& to) {
    const RefreshAnswer& answer = to.answer;
    const std::string degrees = to.options.temperature
                                    ? temperature_text(*to.options.temperature, to.units)
                                    : "what it has now";
    const std::string where = to.options.temperature ? " at " + degrees : "";
    const bool winter = answer.change == RefreshChange::winter;
    if (answer.verdict == RefreshVerdict::too_warm) {
        to.add("Do not put it there: " + degrees + " is more than the worms bear.");
        to.add("Find shade, or a cool room.");
        return;
    }
    if (answer.verdict == RefreshVerdict::too_cold) {
        to.add(winter ? "Bring it in for the winter:" + where + " the worms die."
                      : "Do not put it there:" + where + " the worms die.");
        to.add("A cellar, garage or stair above 10 C will do.");
        return;
    }
    if (!winter) {
        to.add("Move it level and slowly, lid on. Feed nothing for " +
               counted(static_cast<std::size_t>(limits::moved_rest_days), "day") + ".");
        to.add("Worms may wander at first. Leave a lamp on over it for two nights.");
    } else {
        to.add("It may stay outdoors" + where + ", out of wind and rain.");
        to.add("Lay " + volume_text(litres(answer.leaf_layer_l), to.units) +
               " of dry leaves or card on top, and pack straw or leaves around the bin.");
        to.add("Keep the food in one place, in the middle. Do not dig in it.");
    }
    if (answer.at && answer.at->ration_a_week.in_kilograms() > 0.0)
        to.add("There the worms eat about " + mass_text(answer.at->ration_a_week.mass(), to.units) +
                   " of scraps a week.",
               2);
    else
        to.add("There the worms eat nothing: do not feed until it is warmer.");
}

}  // namespace

std::vector<std::string> refresh_lines(const RefreshAnswer& answer, const RefreshOptions& options,
                                       UnitSystem units, std::string_view file, ScreenRoom room) {
    if (answer.verdict == RefreshVerdict::act_first)
        return lines_before_work(answer.today, "Do the rest", units, room);
    Lines to{answer, options, units, {}};
    switch (answer.change) {
        case RefreshChange::bedding:
            add_bedding(to);
            break;
        case RefreshChange::flush:
            add_flush(to);
            break;
        case RefreshChange::dry:
            add_dry(to);
            break;
        case RefreshChange::split:
            add_split(to);
            break;
        case RefreshChange::move:
        case RefreshChange::winter:
        case RefreshChange::away:
            add_at(to);
            break;
    }
    const bool refused =
        answer.verdict == RefreshVerdict::too_cold || answer.verdict == RefreshVerdict::too_warm;
    const bool waits = answer.today.answer == RationAnswer::wait;
    if (answer.verdict == RefreshVerdict::not_needed && !waits)
        to.add("Feed as usual: ask feed ration.");
    else if (!refused)
        to.add(feeding_text(answer.after, answer.feed_on, units));
    if (!refused) to.add(judged_text(answer.after), 3);
    // What takes days is noted day by day.
    BedChange today = answer.after.change;
    if (answer.days.size() > 1) today.bedding = answer.days.front().bedding;
    if (answer.verdict != RefreshVerdict::not_needed) to.add(note_line(today, units, file), 1);
    return fitting(std::move(to.lines), room);
}

std::string refresh_why(const RefreshAnswer& answer, UnitSystem units) {
    std::string text = "\nJudged before and after, without food\n";
    text += wrapped(judged_text(answer.after), 2, 4) + wrapped(state_text(answer.after), 2, 4);
    if (answer.change == RefreshChange::flush)
        text += wrapped("Salt that is left: exp(-0.58 x water that runs through / water held). " +
                            std::string(limits::flush_mixing.source) + ".",
                        2, 4);
    if (answer.at) text += wrapped(words::fixed_text(answer.at->text, units), 2, 4);
    return text + assumed_lines(answer.today);
}

}  // namespace feed::io
