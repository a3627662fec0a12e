#include <string>
#include <vector>

#include "command.hpp"
#include "feed/balance/target_kind.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/measure_text.hpp"
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
                         "(no target)", how_sure(ratio.grade));
}

std::string reached_text(const BalanceAnswer& answer, UnitSystem units) {
    const auto& reached = answer.reached;
    const auto& properties = answer.properties;
    std::string text = quantity_line("", "reached", "target", "how sure");
    for (const auto& one : reached) {
        const auto& quantity = one.quantity;
        const auto show = [&](double number) {
            return target_text(one.target.property, number, units);
        };
        std::string value = quantity.is_known()    ? show(quantity.value)
                            : quantity.has_value() ? "at least " + show(quantity.value)
                                                   : "cannot tell";
        text += quantity_line(kind(one.target.property).name, value, window_text(one.target, units),
                              quantity.has_value() ? how_sure(quantity.grade) : "");
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

/// What an answer is of, beside the answer: labels and, of what goes in, one sentence each.
struct Written {
    std::vector<std::string> labels;
    std::vector<std::string> amounts;
    std::vector<std::string> none;  ///< asked for, and not wanted
};

Written written(const BalanceAnswer& answer, const io::WrittenBalance& asked, UnitSystem units) {
    Written all;
    for (std::size_t i = 0; i < answer.portions.size(); ++i) {
        const auto& portion = answer.portions[i];
        const std::string& label = asked.problem.entries[i].label;
        const std::string name = plain_name(label, *portion.feedstock);
        all.labels.push_back(label);
        if (portion.wet_mass.in_kilograms() > 0.0)
            all.amounts.push_back(name + ", " +
                                  io::measure_and_weight_text(portion.wet_mass, *portion.feedstock,
                                                              asked.amounts[i], units) +
                                  ".");
        else if (i < asked.said_entries.value_or(answer.portions.size()) &&
                 !barred_in(*portion.feedstock, asked.problem.place))
            all.none.push_back(name);
    }
    return all;
}

/// Portions of the answer that go in; those of nothing have no cautions.
std::string behind_text(const BalanceAnswer& answer, const Written& said, UnitSystem units) {
    return cautions_text(answer.portions, said.labels) +
           assumed_text(answer.assumed, units, answer.portions, said.labels) + "\n" +
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

/// How long a line stays where there is no room; 0 always.
struct BalanceLine {
    enum : int { stays, closest, advice, remark, next, not_wanted, numbers = 7 };
};

void add_none(const Written& said, std::vector<io::ScreenLine>& lines) {
    if (!said.none.empty())
        lines.push_back({"Leave out " + io::joined(said.none) + ".", BalanceLine::not_wanted});
}

/// The first screen of a recipe; `why` adds all that is behind it.
std::string solved_text(const BalanceAnswer& answer, const io::WrittenBalance& asked,
                        UnitSystem units, bool why) {
    const bool heap = asked.problem.place == Place::heap;
    const Written said = written(answer, asked, units);
    std::vector<io::ScreenLine> lines;
    add_first(answer.take_out, answer.portions, said.labels, lines);
    const std::string all = io::mass_text(answer.properties.wet_mass.mass(), units);
    lines.push_back(
        {(heap ? "Put on the heap together, " : "A recipe: mix together ") + all + " in all.",
         BalanceLine::stays});
    add_portions(said.amounts, lines);
    add_none(said, lines);
    for (const std::string& one : answer.remarks) {
        for (const std::string& sentence : io::sentences_of(one))
            lines.push_back({sentence, BalanceLine::remark});
    }
    if (heap) {
        lines.push_back({"It should be hot within days.", BalanceLine::next});
        lines.push_back(
            {"If it stays cool, it is too small, too wet or too dry: turn it.", BalanceLine::next});
    } else {
        lines.push_back(
            {"How much at a time depends on your worms: ask feed ration.", BalanceLine::next});
    }
    add_care(answer.portions, said.labels, lines);
    if (!why) lines.push_back({"Numbers and sources: add --why.", BalanceLine::numbers});
    std::string first =
        io::screen_text(io::fitting(lines, why ? io::whole_screen : io::first_screen));
    if (!why) return first;
    return first + "\n" + reached_text(answer, units) +
           (heap ? std::string() : wetness_text(answer.wetness, units)) +
           behind_text(answer, said, units);
}

std::string infeasible_text(const BalanceAnswer& answer, const io::WrittenBalance& asked,
                            UnitSystem units, bool why) {
    const Written said = written(answer, asked, units);
    std::vector<io::ScreenLine> lines;
    add_first(answer.take_out, answer.portions, said.labels, lines);
    if (!answer.take_out.empty() && said.amounts.empty()) {
        lines.push_back({"Nothing else has an amount: nothing is fed.", BalanceLine::stays});
        return io::screen_text(io::fitting(lines, why ? io::whole_screen : io::first_screen));
    }
    lines.push_back({"These targets cannot all be met with what is at hand.", BalanceLine::stays});
    lines.push_back(
        {answer.mend ? io::mend_text(*answer.mend, asked, units) : "No single addition mends it.",
         BalanceLine::stays});
    if (!answer.conflict.empty()) {
        std::string names;
        for (const auto& name : answer.conflict)
            names += (names.empty() ? "" : "; ") + name;
        lines.push_back({"These cannot hold together: " + names + ".", BalanceLine::closest});
        lines.push_back({"One of them must give.", BalanceLine::advice});
    }
    for (const auto& one : answer.advice)
        lines.push_back({"- " + one, BalanceLine::advice});
    if (!said.amounts.empty()) {
        std::string line;
        for (const std::string& one : said.amounts)
            line += (line.empty() ? "The closest blend: " : " ") + one;
        lines.push_back({line, BalanceLine::closest});
    }
    add_care(answer.portions, said.labels, lines);
    if (!why) lines.push_back({"Numbers and sources: add --why.", BalanceLine::numbers});
    std::string first =
        io::screen_text(io::fitting(lines, why ? io::whole_screen : io::first_screen));
    if (!why) return first;
    return first + (answer.portions.empty() ? "" : "\n" + reached_text(answer, units)) +
           behind_text(answer, said, units);
}

std::string unbounded_text(const BalanceAnswer& answer) {
    std::vector<io::ScreenLine> lines;
    add_first(answer.take_out, {}, {}, lines);
    lines.push_back(
        {"Give " + answer.unbounded_entry + " an upper amount (up to 3 L), or set a total.",
         BalanceLine::stays});
    lines.push_back(
        {"Nothing limits " + answer.unbounded_entry + ": the more the better by these targets.",
         BalanceLine::stays});
    return io::screen_text(io::fitting(lines, io::first_screen));
}

/// With a bed the balance is the ration.
int balance_for_bed(const Arguments& arguments, const io::FeedFile& file) {
    const CheckResult result = io::check_of(file, arguments.units);
    const int code = exit_of(arguments, result.ration);
    if (arguments.json()) return print(io::balance_with_bed_json(result.ration), code);
    return print(ration_screen(arguments, result), code);
}

}  // namespace

int run_balance(Arguments& arguments) {
    const auto file = read_bin(arguments);
    if (!file) return refuse(arguments, file.errors());
    if (file->has_bed && !file->for_heap()) return balance_for_bed(arguments, *file);
    const auto found = io::balance_of(*file, arguments.units);
    if (!found) return refuse(arguments, found.errors());
    const BalanceAnswer& answer = found->answer;
    const bool refused = arguments.has("--strict") && !answer.take_out.empty();
    const int code = refused                                  ? not_reachable
                     : answer.status == BalanceStatus::solved ? done
                     : answer.status == BalanceStatus::failed ? internal
                                                              : not_reachable;
    if (arguments.json()) return print(io::to_json(answer, found->measures), code);
    const bool why = arguments.has("--why");
    switch (answer.status) {
        case BalanceStatus::solved:
            return print(solved_text(answer, found->asked, arguments.units, why), code);
        case BalanceStatus::infeasible:
            return print(infeasible_text(answer, found->asked, arguments.units, why), code);
        case BalanceStatus::unbounded:
            return print(unbounded_text(answer), code);
        case BalanceStatus::failed:
            break;
    }
    return print("The balance did not come to an end that could be verified.\n", code);
}

}  // namespace feed_command
