#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "command.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/class_text.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/pinch.hpp"
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

/// What a cap is for, "limited by salt; ", or nothing.
std::string limited_by(const Feedstock& feedstock) {
    std::string reason(feedstock.most_reason);
    std::replace(reason.begin(), reason.end(), '_', ' ');
    return reason.empty() ? reason : "limited by " + reason + "; ";
}

std::string_view may_be_fed(Stance stance) {
    if (stance == Stance::avoid) return "is never fed";
    return stance == Stance::feed ? "may be fed" : "may be fed, little at a time";
}

/// How long a line stays where there is no room; 0 always.
struct ShowLine {
    enum : int { stays, prepare, elsewhere, taken_as, numbers };
};

/// May it be fed to worms, to a small heap, after pre-composting; what instead where it is barred.
void add_stances(const Feedstock& feedstock, std::vector<io::ScreenLine>& lines) {
    const std::string name = plain_name("", feedstock);
    const bool barred = feedstock.stance == Stance::avoid;
    if (barred) {
        const TakeOut out = take_out(feedstock, name);
        lines.push_back({io::never_text(out), ShowLine::stays});
        lines.push_back({io::instead_text(out), ShowLine::stays});
        if (feedstock.stance_pre_composted)
            lines.push_back({"Composted hot first, it " +
                                 std::string(may_be_fed(*feedstock.stance_pre_composted)) + ".",
                             ShowLine::elsewhere});
    } else {
        lines.push_back({"Yes: " + name + " " + std::string(may_be_fed(feedstock.stance)) + ".",
                         ShowLine::stays});
    }
    const Stance heap = stance_in(feedstock, Place::heap);
    if (heap != feedstock.stance)
        lines.push_back(
            {"On a small heap it " + std::string(may_be_fed(heap)) + ".", ShowLine::elsewhere});
}

/// Teaspoons of what a kitchen scale hardly shows; 0 of what is weighed or is a pinch.
double teaspoons_of(double kg, const Feedstock& feedstock) {
    const auto& density = feedstock[Property::bulk_density_loose];
    constexpr double teaspoon_litres = litres_per_us_gallon / 768.0;
    constexpr double most_kg = 0.02;
    constexpr double most_spoons = 9.0;
    if (pinch::holds(kg) || kg > most_kg || !density) return 0.0;
    const double spoons = std::round(1000.0 * kg / density->value / teaspoon_litres);
    return spoons > most_spoons ? 0.0 : spoons;
}

/// A mass in the keeper's measure. `after_spoons`: the number of spoons alone, which were named.
std::string small_text(double kg, const Feedstock& feedstock, io::UnitSystem units,
                       bool after_spoons = false) {
    const double spoons = teaspoons_of(kg, feedstock);
    if (spoons < 1.0) return words::pinch_or_mass(kg, units);
    const std::string unit = spoons > 1.0 ? " teaspoons" : " teaspoon";
    const std::string text = significant(spoons, 1) + (after_spoons ? "" : unit);
    // A tenth of an ounce is no measure of a kitchen.
    return units == io::UnitSystem::us ? text : text + " (" + words::mass(kg, units) + ")";
}

/// How much at a time for these worms, or for a kilogram and a pound of them.
std::string most_text(const Feedstock& feedstock, std::optional<double> worms_kg,
                      io::UnitSystem units) {
    if (!feedstock.most_wet_kg_per_kg_worms)
        return feedstock.stance == Stance::avoid
                   ? ""
                   : "It has no limit of its own: ask feed ration how much your bin takes.";
    const double most = *feedstock.most_wet_kg_per_kg_worms;
    std::string text = "At a time at most ";
    if (worms_kg)
        return text + small_text(most * *worms_kg, feedstock, units) + " for " +
               io::mass_text(kilograms(*worms_kg), units) + " of worms.";
    const bool both = units != io::UnitSystem::us;
    if (both) text += small_text(most, feedstock, units) + " for 1 kg, ";
    const bool after_spoons = both && teaspoons_of(most, feedstock) >= 1.0;
    return text + small_text(most * kilograms_per_pound, feedstock, units, after_spoons) +
           " for 1 lb of worms.";
}

/// May it, how much, how, two cautions.
std::vector<io::ScreenLine> first_lines(const Feedstock& feedstock, const std::string& said,
                                        std::optional<double> worms_kg, io::UnitSystem units,
                                        bool all) {
    std::vector<io::ScreenLine> lines;
    add_stances(feedstock, lines);
    lines.push_back({most_text(feedstock, worms_kg, units), ShowLine::stays});
    for (const std::string& one : io::sentences_of(std::string(feedstock.preparation_hint)))
        lines.push_back({one, ShowLine::prepare});
    const Portion one_portion{std::make_shared<const Feedstock>(feedstock), wet_kilograms(1.0)};
    std::size_t shown = 0;
    for (const std::string& caution : caution_lines({&one_portion, 1})) {
        constexpr std::size_t cautions_shown = 2;
        if (!all && ++shown > cautions_shown) break;
        lines.push_back({"Take care: " + caution, ShowLine::stays});
    }
    if (!said.empty()) {
        // What else the word may mean stands behind --numbers.
        lines.push_back(
            {(all ? said : said.substr(0, said.find("; the table"))) + ".", ShowLine::taken_as});
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
        std::string range_sure;
        if (datum->range_grade != datum->grade)
            range_sure = "; range " + std::string(how_sure(datum->range_grade));
        std::string range;
        if (low != high) range.append(low).append(" to ").append(high);
        lines += quantity_line(name, datum_text(facts, datum->value, units), range,
                               how_sure(datum->grade));
        lines += wrapped(
            std::string(datum->method) + ": " + std::string(datum->sources) + range_sure, 6, 8);
    }
    return lines;
}

std::string measures_text(const Feedstock& feedstock, io::UnitSystem units) {
    if (feedstock.measures.empty()) return "";
    std::string lines = "\nHousehold measures, wet\n";
    for (const auto& measure : feedstock.measures) {
        lines += quantity_line("1 " + std::string(text(measure.measure)),
                               io::mass_text(measure.wet_mass.mass(), units), "",
                               how_sure(measure.grade));
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

int run_show(Arguments& arguments) {
    std::string words;
    for (const auto& word : arguments.words)
        words += (words.empty() ? "" : " ") + word;
    if (words.empty()) return refuse(arguments, wrong_words(arguments, "which feedstock?"));
    const auto found = look_up(words);
    if (!found) return refuse(arguments, found.errors());
    const Feedstock& feedstock = *found->feedstock;
    if (arguments.json()) return print(io::to_json(feedstock));
    std::optional<double> worms_kg;
    if (arguments.has("--worms")) {
        const auto mass =
            io::parse_quantity(arguments.options.at("--worms"), io::QuantityKind::mass);
        if (!mass) {
            Errors errors = mass.errors();
            errors[0].field = "--worms";
            return refuse(arguments, errors);
        }
        worms_kg = *mass;
    }
    const bool all = arguments.has("--numbers");
    auto lines = first_lines(feedstock, found->said, worms_kg, arguments.units, all);
    if (!all)
        lines.push_back({"All else, with numbers and sources: add --numbers.", ShowLine::numbers});
    std::string text =
        io::screen_text(io::fitting(lines, all ? io::whole_screen : io::first_screen));
    if (!all) return print(text);
    text += "\n" + wrapped(feedstock.name + " (" + feedstock.id + ", " +
                               std::string(io::text(feedstock.group)) + ")",
                           0, 2);
    if (!feedstock.note.empty()) text += wrapped(feedstock.note + ".", 0, 0);
    if (!feedstock.most_sources.empty())
        text += wrapped(
            "At a time: " + limited_by(feedstock) + std::string(feedstock.most_sources) + ".", 0,
            2);
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
