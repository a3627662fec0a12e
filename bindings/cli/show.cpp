#include <algorithm>
#include <set>
#include <string>

#include "command.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/io/class_text.hpp"
#include "feed/io/to_json.hpp"
#include "quantity_lines.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::wrapped;

/// The ids of "USDA-SR26:09003 IFCT2017:E001", without their places.
void collect_sources(std::string_view text, std::set<std::string>& ids) {
    while (!text.empty()) {
        const auto end = std::min(text.find(' '), text.size());
        const auto pair = text.substr(0, end);
        if (!pair.empty()) ids.emplace(pair.substr(0, pair.find(':')));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

/// What a cap is for, "limited by its salt; ", or nothing.
std::string limited_by(const Feedstock& feedstock) {
    std::string reason(feedstock.most_reason);
    std::replace(reason.begin(), reason.end(), '_', ' ');
    return reason.empty() ? reason : "limited by " + reason + "; ";
}

/// May it be fed to worms, to a small heap, after pre-composting; what instead where it is barred.
std::string stances_text(const Feedstock& feedstock) {
    const auto words = [](Stance stance) -> std::string_view {
        if (stance == Stance::avoid) return "never";
        return stance == Stance::feed ? "may be fed" : "may be fed, little at a time";
    };
    std::string text = feedstock.stance == Stance::feed ? "May be fed." : "";
    if (feedstock.stance == Stance::feed_little) text = "May be fed, little at a time.";
    if (feedstock.stance == Stance::avoid)
        text = "Never: " + std::string(why_barred(feedstock)) +
               ". Instead: " + std::string(instead_of(feedstock)) + ".";
    if (feedstock.stance == Stance::avoid && feedstock.stance_pre_composted)
        text += " Pre-composted: " + std::string(words(*feedstock.stance_pre_composted)) + ".";
    const Stance heap = stance_in(feedstock, Place::heap);
    if (heap != feedstock.stance) text += " In a small heap: " + std::string(words(heap)) + ".";
    return text;
}

std::string how_fed(const Feedstock& feedstock, io::UnitSystem units) {
    std::string text = stances_text(feedstock);
    if (!feedstock.note.empty()) text += " " + feedstock.note;
    auto lines = wrapped(text, 0, 0);
    if (!feedstock.preparation_hint.empty())
        lines += wrapped("Prepare: " + feedstock.preparation_hint, 0, 2);
    if (feedstock.most_wet_kg_per_kg_worms) {
        const double most = *feedstock.most_wet_kg_per_kg_worms;
        const auto for_a_pound =
            io::mass_text(kilograms(most * kilograms_per_pound), units) + " for 1 lb";
        lines +=
            wrapped("At a time: at most " +
                        (units == io::UnitSystem::us ? for_a_pound + " of worms"
                                                     : io::mass_text(kilograms(most), units) +
                                                           " for 1 kg of worms, " + for_a_pound) +
                        " (" + limited_by(feedstock) + std::string(feedstock.most_sources) + ").",
                    0, 2);
    } else if (feedstock.stance != Stance::avoid) {
        lines += wrapped(
            "At a time: no limit of its own; the bed and its worms set the feeding (feed check).",
            0, 2);
    }
    return lines;
}

std::string values_text(const Feedstock& feedstock, io::UnitSystem units) {
    std::string lines = "\n" + quantity_line("", "value", "range", "grade");
    for (const auto& facts : property_kinds) {
        const auto& datum = feedstock[facts.property];
        if (!datum) continue;
        std::string name(facts.key);
        for (auto& c : name)
            if (c == '_') c = ' ';
        if (facts.basis != Basis::none && facts.basis != Basis::volatile_solids)
            name += ", " + std::string(io::text(facts.basis));
        const auto low = datum_text(facts, datum->low, units);
        const auto high = datum_text(facts, datum->high, units);
        std::string grade = text(datum->grade);
        if (datum->range_grade != datum->grade)
            grade += "/" + std::string(text(datum->range_grade));
        std::string range;
        if (low != high) range.append(low).append(" to ").append(high);
        lines += quantity_line(name, datum_text(facts, datum->value, units), range, grade);
        lines += wrapped(std::string(datum->method) + ": " + std::string(datum->sources), 6, 8);
    }
    return lines;
}

std::string measures_text(const Feedstock& feedstock, io::UnitSystem units) {
    if (feedstock.measures.empty()) return "";
    std::string lines = "\nHousehold measures, wet\n";
    for (const auto& measure : feedstock.measures) {
        lines +=
            quantity_line("1 " + std::string(text(measure.measure)),
                          io::mass_text(measure.wet_mass.mass(), units), "", text(measure.grade));
    }
    return lines;
}

std::string sources_text(const Feedstock& feedstock) {
    std::set<std::string> ids;
    for (const auto& datum : feedstock.data) {
        if (datum) collect_sources(datum->sources, ids);
    }
    for (const auto& measure : feedstock.measures)
        collect_sources(measure.sources, ids);
    collect_sources(feedstock.most_sources, ids);
    std::string lines;
    for (const auto& id : ids) {
        if (const auto* source = find_source(id))
            lines += wrapped(id + ": " + source->citation, 2, 4);
    }
    return lines.empty() ? lines : "\nSources\n" + lines;
}

}  // namespace

int run_show(const Arguments& arguments) {
    std::string words;
    for (const auto& word : arguments.words)
        words += (words.empty() ? "" : " ") + word;
    if (words.empty()) return refuse(arguments, wrong_words(arguments, "which feedstock?"));
    const auto found = look_up(words);
    if (!found) return refuse(arguments, found.errors());
    const Feedstock& feedstock = *found->feedstock;
    if (arguments.json()) return print(io::to_json(feedstock));
    std::string text = wrapped(
        feedstock.name + " (" + feedstock.id + ", " + std::string(io::text(feedstock.group)) + ")",
        0, 2);
    if (!found->said.empty()) text += wrapped(found->said + ".", 0, 0);
    text += "\n" + how_fed(feedstock, arguments.units);
    const Feedstock* one[] = {&feedstock};
    text += cautions_text(one);
    if (!arguments.has("--numbers"))
        return print(text + wrapped("Its numbers and their sources: add --numbers.", 0, 0));
    text += values_text(feedstock, arguments.units);
    text += measures_text(feedstock, arguments.units);
    text += sources_text(feedstock);
    text += "\n" + wrapped(
                       "Grades: A read in its source, B derived from such values, C recalled, D "
                       "a judgement. Two letters: of the value, and of its range.",
                       0, 0);
    return print(text);
}

}  // namespace feed_command
