#include <string>
#include <vector>

#include "command.hpp"
#include "feed/balance/target_kind.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/number_print.hpp"
#include "quantity_lines.hpp"
#include "ration_screen.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::UnitSystem;
using io::wrapped;

/// A number of a target in words.
std::string target_text(TargetProperty property, double number, UnitSystem units) {
    switch (property) {
        case TargetProperty::cn_ratio:
            return significant(number, 2) + ":1";
        case TargetProperty::acid_g_citric_per_wet_kg:
            return units == UnitSystem::us ? io::percent_text(number / 1000.0)
                                           : significant(number, 2) + " g/kg";
        case TargetProperty::total_wet_kg:
            return io::mass_text(kilograms(number), units);
        case TargetProperty::total_volume_l:
            return io::volume_text(litres(number), units);
        case TargetProperty::bedding_l_per_scraps_l:
            return significant(number, 2) + (units == UnitSystem::us ? " cup/cup" : " L/L");
        case TargetProperty::water_over_least:
            return significant(number, 2) + " times";
        case TargetProperty::water_over_room:
            return io::percent_text(number) + " of room";
        case TargetProperty::moisture:
        case TargetProperty::salt_wet_fraction:
        case TargetProperty::fat_wet_fraction:
        case TargetProperty::free_air_space:
            return io::percent_text(number);
    }
    return "";
}

std::string window_text(const Target& target, UnitSystem units) {
    const auto show = [&](double number) { return target_text(target.property, number, units); };
    if (target.low && target.high) return show(*target.low) + " to " + show(*target.high);
    if (target.low) return "at least " + show(*target.low);
    if (target.high) return "at most " + show(*target.high);
    return "any";
}

/// Published optima near 25 are about available carbon: it always stands beside the total.
std::string available_text(const BlendProperties& properties) {
    const auto& ratio = properties.available_cn_ratio;
    if (!ratio.has_value()) return quantity_line("C:N, available carbon", "cannot tell", "", "");
    return quantity_line("C:N, available carbon",
                         (ratio.is_known() ? "" : "at least ") + significant(ratio.value, 2) + ":1",
                         "(no target)", feed::text(ratio.grade));
}

std::string reached_text(const BalanceAnswer& answer, UnitSystem units) {
    const auto& reached = answer.reached;
    const auto& properties = answer.properties;
    std::string text = quantity_line("", "reached", "target", "grade");
    for (const auto& one : reached) {
        const auto& quantity = one.quantity;
        const auto show = [&](double number) {
            return target_text(one.target.property, number, units);
        };
        std::string value = quantity.is_known()    ? show(quantity.value)
                            : quantity.has_value() ? "at least " + show(quantity.value)
                                                   : "cannot tell";
        text += quantity_line(kind(one.target.property).name, value, window_text(one.target, units),
                              quantity.has_value() ? feed::text(quantity.grade) : "");
        if (quantity.is_known() && quantity.low != quantity.high)
            text += wrapped("may be " + show(quantity.low) + " to " + show(quantity.high), 6, 6);
        if (!one.inside) text += "      outside the target\n";
        if (one.inside && !one.wished) text += "      outside what is good to hold\n";
        if (one.binding) text += wrapped("this target decides (" + one.target.source + ")", 6, 8);
    }
    text += available_text(properties);
    return text +
           wrapped("C:N is carbon to nitrogen by mass, not parts of browns to greens.", 2, 2);
}

std::string portions_text(const BalanceAnswer& answer, const io::WrittenBalance& asked,
                          UnitSystem units) {
    std::string text;
    for (std::size_t i = 0; i < answer.portions.size(); ++i) {
        const auto& portion = answer.portions[i];
        std::string line = asked.problem.entries[i].label + ": ";
        if (barred_in(*portion.feedstock, asked.problem.place)) {
            line += "none, never fed";
        } else if (portion.wet_mass.in_kilograms() > 0.0) {
            line += io::measure_and_weight_text(portion.wet_mass, *portion.feedstock,
                                                asked.amounts[i], units);
        } else {
            line += "none";
        }
        text += wrapped(line, 2, 4);
    }
    return text;
}

std::string rest_text(const BalanceAnswer& answer, UnitSystem units) {
    std::vector<const Feedstock*> feedstocks;
    for (const auto& portion : answer.portions) {
        if (portion.wet_mass.in_kilograms() > 0.0) feedstocks.push_back(portion.feedstock.get());
    }
    return cautions_text(feedstocks) + assumed_text(answer.assumed, units) + "\n" +
           wrapped(grade_text(answer.grade), 0, 0);
}

/// Water that comes free against what the bedding holds: said, not forbidden, because both shares
/// behind it are judgements.
std::string wetness_text(const Wetness& wetness, UnitSystem units) {
    std::string text = "Water: about " + io::mass_text(wetness.released, units) +
                       " may come free, the bedding can still take up about " +
                       io::mass_text(wetness.spare, units) + ". ";
    text += wetness.holds ? "The bedding holds it."
                          : "The rest goes into the bed below or drains: feed it to a bed that is "
                            "dry enough, or see what feed check says.";
    return "\n" + wrapped(text, 0, 0);
}

/// What an answer outside a wish means.
std::string remarks_text(const BalanceAnswer& answer) {
    std::string text;
    for (const auto& remark : answer.remarks)
        text += wrapped(remark, 0, 0);
    return text.empty() ? text : text + "\n";
}

/// The first screen of a recipe; `why` adds all that is behind it.
std::string solved_text(const BalanceAnswer& answer, const io::WrittenBalance& asked,
                        UnitSystem units, bool why) {
    const bool heap = asked.problem.place == Place::heap;
    std::string text = (heap ? "Put on the heap together, " : "A recipe: mix together ") +
                       io::mass_text(answer.properties.wet_mass.mass(), units) + " in all.\n" +
                       portions_text(answer, asked, units) + remarks_text(answer);
    text +=
        wrapped(heap ? "It should be hot within days. If it stays cool, it is too small, too wet "
                       "or too dry: turn it."
                     : "How much at a time depends on your worms: describe the bin (bed:), then "
                       "ask feed ration.",
                0, 0);
    if (!why) return text + wrapped("Numbers and sources: add --why.", 0, 0);
    text += "\n" + reached_text(answer, units);
    if (!heap) text += wetness_text(answer.wetness, units);
    return text + rest_text(answer, units);
}

std::string mend_text(const Mend& mend, const io::WrittenBalance& asked, UnitSystem units) {
    std::string with;
    for (std::size_t i = 0; i < mend.with.size(); ++i) {
        const auto& portion = mend.with[i];
        if (!(portion.wet_mass.in_kilograms() > 0.0)) continue;
        with += (with.empty() ? "" : ", ") +
                io::measure_text(portion.wet_mass, *portion.feedstock, asked.amounts[i], units) +
                " " + asked.problem.entries[i].label;
    }
    return "What would mend it: add " +
           io::measure_and_weight_text(mend.add, *mend.feedstock, std::nullopt, units) + " of " +
           mend.label + (with.empty() ? "" : " to " + with) + ".";
}

std::string infeasible_text(const BalanceAnswer& answer, const io::WrittenBalance& asked,
                            UnitSystem units, bool why) {
    bool anything = answer.take_out.empty();
    for (const auto& portion : answer.portions)
        anything = anything || portion.wet_mass.in_kilograms() > 0.0;
    if (!anything) return "Nothing else has an amount: nothing is fed.\n";
    std::string text = wrapped("These targets cannot all be met with what is at hand.", 0, 0);
    if (!answer.conflict.empty()) {
        std::string names;
        for (const auto& name : answer.conflict)
            names += (names.empty() ? "" : "; ") + name;
        text += "\n" +
                wrapped("These cannot hold together: " + names + ". One of them must give.", 0, 2);
    }
    text += "\n" + wrapped(answer.mend ? mend_text(*answer.mend, asked, units)
                                       : "No single addition mends it.",
                           0, 2);
    for (const auto& advice : answer.advice)
        text += wrapped("- " + advice, 2, 4);
    if (!answer.portions.empty()) {
        text += "\nThe closest blend:\n" + portions_text(answer, asked, units);
        if (why) text += "\n" + reached_text(answer, units);
    }
    return text +
           (why ? rest_text(answer, units) : wrapped("Numbers and sources: add --why.", 0, 0));
}

/// With a bed the balance is the ration.
int balance_for_bed(const Arguments& arguments, const io::FeedFile& file) {
    const CheckResult result = io::check_of(file, arguments.units);
    const int code = exit_of(arguments, result.ration);
    if (arguments.json()) return print(io::balance_with_bed_json(result.ration), code);
    std::string text = io::ration_text(result.ration, arguments.units);
    if (arguments.has("--why")) text += why_text(result, arguments.units);
    return print(text, code);
}

}  // namespace

int run_balance(const Arguments& arguments) {
    const auto file = read_bin(arguments);
    if (!file) return refuse(arguments, file.errors());
    const bool heap = file->balance && file->balance->problem.place == Place::heap;
    if (file->has_bed && !heap) {
        if (const auto refused = io::balance_refused(*file)) return refuse(arguments, *refused);
        return balance_for_bed(arguments, *file);
    }
    const auto found = io::balance_of(*file, arguments.units);
    if (!found) return refuse(arguments, found.errors());
    const BalanceAnswer& answer = found->answer;
    const bool refused = arguments.has("--strict") && !answer.take_out.empty();
    const int code = refused                                  ? not_reachable
                     : answer.status == BalanceStatus::solved ? done
                     : answer.status == BalanceStatus::failed ? internal
                                                              : not_reachable;
    if (arguments.json()) return print(io::to_json(answer, found->measures), code);
    std::vector<const Feedstock*> given;
    for (const auto& entry : found->asked.problem.entries)
        given.push_back(entry.feedstock.get());
    const std::string first = take_out_text(answer.take_out) + lifted_text(given);
    switch (answer.status) {
        case BalanceStatus::solved:
            return print(
                first + solved_text(answer, found->asked, arguments.units, arguments.has("--why")),
                code);
        case BalanceStatus::infeasible:
            return print(first + infeasible_text(answer, found->asked, arguments.units,
                                                 arguments.has("--why")),
                         code);
        case BalanceStatus::unbounded:
            return print(
                first + wrapped("Nothing limits " + answer.unbounded_entry +
                                    ": the more the better by these targets. Give it an upper "
                                    "amount (up to 3 L), or set a total.",
                                0, 0),
                code);
        case BalanceStatus::failed:
            break;
    }
    return print("The balance did not come to an end that could be verified.\n", code);
}

}  // namespace feed_command
