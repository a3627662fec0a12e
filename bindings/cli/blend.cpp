#include <string>
#include <vector>

#include "command.hpp"
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

int run_blend(const Arguments& arguments) {
    const auto file = read_file_or_entries(arguments);
    if (!file) return refuse(arguments, file.errors());
    const auto found = io::blend_of(*file, arguments.units);
    if (!found) return refuse(arguments, found.errors());
    const auto& portions = found->portions;
    const auto& result = found->properties;
    const int code = arguments.has("--strict") && !result.take_out.empty() ? not_reachable : done;
    if (arguments.json()) return print(io::to_json(result, portions, found->measures), code);

    std::vector<const Feedstock*> feedstocks;
    feedstocks.reserve(portions.size());
    for (const auto& portion : portions)
        feedstocks.push_back(portion.feedstock.get());
    std::string text = take_out_text(result.take_out) + lifted_text(feedstocks);
    text += "A blend of " + io::counted(portions.size(), "portion") + ", " +
            io::mass_text(result.wet_mass.mass(), arguments.units) + " wet";
    if (result.moisture.has_value())
        text += ", " + io::percent_text(result.moisture.value.value()) + " moisture";
    if (result.cn_ratio.has_value())
        text +=
            ",\nC:N " + significant(result.cn_ratio.value, 2) + ":1 (carbon to nitrogen by mass)";
    text += ".\n";
    for (std::size_t i = 0; i < portions.size(); ++i) {
        text +=
            wrapped(portions[i].feedstock->name + ": " +
                        io::measure_and_weight_text(portions[i].wet_mass, *portions[i].feedstock,
                                                    (*file->blend)[i].amount, arguments.units),
                    2, 4);
    }
    if (arguments.has("--why")) {
        text += "\n" + properties_text(result, arguments.units);
        text += cautions_text(feedstocks);
        text += assumed_text(result.assumed, arguments.units);
        text += "\n" + wrapped(grade_text(worst_grade(result)), 0, 0);
    } else {
        text += wrapped("All numbers, cautions and sources: add --why.", 0, 0);
    }
    return print(text, code);
}

}  // namespace feed_command
