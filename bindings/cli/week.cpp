#include <string>
#include <utility>

#include "command.hpp"
#include "feed/io/output_files.hpp"
#include "feed/io/week_answer.hpp"
#include "file_or_entries.hpp"
#include "ration_screen.hpp"
#include "sheet_files.hpp"

namespace feed_command {

using namespace feed;

int run_week(Arguments& arguments) {
    io::WeekAsked asked;
    if (arguments.has("--openings")) asked.openings = std::stoi(arguments.options.at("--openings"));
    const auto today = said_date(arguments);
    if (!today) return refuse(arguments, today.errors());
    asked.today = *today;
    if (arguments.has("--have")) asked.have = {arguments.options.at("--have")};
    auto bins = read_named_files(arguments, arguments.words);
    if (!bins) return refuse(arguments, bins.errors());
    asked.bins = std::move(bins).value();
    asked.units = arguments.units;
    const auto plan = io::week_of(asked);
    if (!plan) return refuse_by_option(arguments, plan.errors());
    if (arguments.has("--sheet")) {
        const auto outputs =
            sheet_files(arguments.options.at("--sheet"), io::week_sheet(*plan, arguments.units), "",
                        [&] { return io::week_sheet_html(*plan, arguments.units); });
        const auto written = io::write_output_files(outputs, arguments.words);
        if (!written) return refuse(arguments, written.errors());
    }
    const bool refused = !plan->take_out.empty();
    const int code = refused && arguments.has("--strict") ? not_reachable : done;
    if (arguments.json()) return print(io::to_json(*plan, arguments.units), code);
    return print(io::week_text(*plan, arguments.units, arguments.has("--why")), code);
}

}  // namespace feed_command
