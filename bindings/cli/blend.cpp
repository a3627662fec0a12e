#include <string>
#include <vector>

#include "command.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/number_print.hpp"
#include "file_or_entries.hpp"
#include "quantity_lines.hpp"

namespace feed_command {

using namespace feed;
using io::wrapped;

namespace {

/// How wet a blend is, and its carbon to nitrogen.
std::string state_text(const BlendProperties& blend) {
    std::string text;
    if (blend.moisture.has_value())
        text = io::percent_text(blend.moisture.value.value()) + " of it is water";
    if (blend.cn_ratio.has_value())
        text += std::string(text.empty() ? "Its" : "; its") + " carbon to nitrogen is " +
                significant(blend.cn_ratio.value, 2) + ":1 by mass";
    return text.empty() ? text : text + ".";
}

}  // namespace

int run_blend(Arguments& arguments) {
    const auto file = read_file_or_entries(arguments);
    if (!file) return refuse(arguments, file.errors());
    const auto found = io::blend_of(*file, arguments.units);
    if (!found) return refuse(arguments, found.errors());
    const auto& portions = found->portions;
    const auto& result = found->properties;
    const int code = arguments.has("--strict") && !result.take_out.empty() ? not_reachable : done;
    if (arguments.json()) return print(io::to_json(result, portions, found->measures), code);

    std::vector<std::string> labels;
    std::vector<std::string> amounts;
    double fed_kg = 0.0;
    for (std::size_t i = 0; i < portions.size(); ++i) {
        const io::WrittenPortion& written = (*file->blend)[i];
        labels.push_back(written.label);
        // What is never fed has no place in a recipe; often nobody said how much of it there is.
        if (portions[i].feedstock->stance == Stance::avoid) continue;
        fed_kg += portions[i].wet_mass.in_kilograms();
        amounts.push_back(plain_name(written.label, *portions[i].feedstock) + ", " +
                          io::measure_and_weight_text(portions[i].wet_mass, *portions[i].feedstock,
                                                      written.amount, arguments.units) +
                          ".");
    }
    std::vector<io::ScreenLine> lines;
    add_first(result.take_out, portions, labels, lines);
    const bool all_fed = amounts.size() == portions.size();
    if (fed_kg > 0.0)
        lines.push_back({std::string(all_fed ? "As written it weighs " : "The rest weighs ") +
                             io::mass_text(kilograms(fed_kg), arguments.units) + " in all.",
                         0});
    add_portions(amounts, lines);
    if (all_fed) lines.push_back({state_text(result), 1});
    add_care(portions, labels, lines);
    const bool why = arguments.has("--why");
    if (!why) lines.push_back({"All numbers, cautions and sources: add --why.", 7});
    std::string text =
        io::screen_text(io::fitting(lines, why ? io::whole_screen : io::first_screen));
    if (why)
        text += "\n" + properties_text(result, arguments.units) + cautions_text(portions, labels) +
                assumed_text(result.assumed, arguments.units, portions, labels) + "\n" +
                wrapped(grade_text(worst_grade(result)), 0, 0);
    return print(text, code);
}

}  // namespace feed_command
