#include <algorithm>

#include "feed/feedstock/part.hpp"
#include "feed/io/ration_text.hpp"

// The first line of a ration, and what it leaves out.
namespace feed::io {
namespace {

/// Lime, ash, shell, grit or a drink that was asked about and is not wanted.
std::vector<std::string> unneeded_names(const Ration& ration) {
    std::vector<std::string> names;
    for (const Rest& one : ration.rest) {
        if (part_of(*one.thing.feedstock) != Part::scraps) names.push_back(one.thing.name());
    }
    return names;
}

/// The first line where something goes in.
std::string feeding_line(const Ration& ration, const std::string& kg) {
    // Below what is taken out, "it" would read as that; so would it of lime that is not wanted.
    const bool less = ration.answer == RationAnswer::feed_less;
    const std::vector<std::string> unneeded = unneeded_names(ration);
    const std::string without = unneeded.empty() ? ""
                                : less           ? ", and no " + joined(unneeded, "or")
                                                 : " without the " + joined(unneeded);
    const std::string verb = less                      ? "Feed less"
                             : ration.take_out.empty() ? "Feed it"
                                                       : "Feed the rest";
    return verb + without + ": " + kg + " of scraps today.";
}

}  // namespace

std::vector<std::string> left_out_lines(const Ration& ration) {
    std::vector<std::string> touchy;
    for (const Rest& one : ration.rest) {
        const bool alone = has_reason(ration, ReasonKind::nothing_at_hand);
        if (alone && one.capped && part_of(*one.thing.feedstock) == Part::scraps)
            touchy.push_back(one.thing.name());
    }
    const std::vector<std::string> unneeded = unneeded_names(ration);
    std::vector<std::string> lines;
    const bool had_some = std::any_of(
        ration.reasons.begin(), ration.reasons.end(),
        [](const Reason& reason) { return reason.kind == ReasonKind::cap && reason.given > 0.0; });
    if (!touchy.empty())
        lines.push_back("Leave out the " + joined(touchy) +
                        (had_some ? ": the worms had their share of this week."
                                  : ": these worms bear next to none."));
    if (!unneeded.empty())
        lines.push_back("Leave out the " + joined(unneeded) + ": the bed needs none today.");
    return lines;
}

std::string headline(const Ration& ration, UnitSystem units) {
    const std::string kg = mass_text(ration.scraps.mass(), units);
    const bool feeds =
        ration.answer == RationAnswer::feed || ration.answer == RationAnswer::feed_less;
    // Whoever named only what is never fed, not wanted, or bedding, must not read "feed it" of
    // that.
    if (feeds && has_reason(ration, ReasonKind::nothing_at_hand)) {
        if (!ration.take_out.empty() || !left_out_lines(ration).empty())
            return "The bed may have " + kg + " of scraps today: other, soft ones.";
        const bool has_bedding =
            std::any_of(ration.put_in.begin(), ration.put_in.end(),
                        [](const PutIn& put) { return put.thing.at_hand && !put.thing.kept; });
        if (has_bedding) return "The bed may have " + kg + " of scraps today: soft ones.";
    }
    switch (ration.answer) {
        case RationAnswer::act_first:
            return "Act first, and feed nothing today.";
        case RationAnswer::wait:
            if (looks_first(ration)) return "Look first, and feed nothing before you did.";
            if (!ration.next_feeding) return "Wait. Feed nothing for now.";
            if (!ration.date)
                return "Wait. Feed nothing for " +
                       counted(static_cast<std::size_t>(ration.next_feeding->day), "day") + ".";
            return "Wait. Feed nothing until " +
                   day_words(ration.date, ration.next_feeding->day, units) + ".";
        case RationAnswer::feed_less:
        case RationAnswer::feed:
            break;
    }
    return feeding_line(ration, kg);
}

}  // namespace feed::io
