#include "feed/io/totals_answer.hpp"

#include <string>
#include <utility>

#include "command.hpp"
#include "file_or_entries.hpp"
#include "ration_screen.hpp"

namespace feed_command {

using namespace feed;

int run_totals(Arguments& arguments) {
    io::TotalsAsked asked;
    if (arguments.has("--since")) asked.since = arguments.options.at("--since");
    const auto today = said_date(arguments);
    if (!today) return refuse(arguments, today.errors());
    asked.today = *today;
    auto bins = read_named_files(arguments, arguments.words);
    if (!bins) return refuse(arguments, bins.errors());
    asked.bins = std::move(bins).value();
    const auto totals = io::totals_of(asked);
    if (!totals) return refuse_by_option(arguments, totals.errors());
    if (arguments.json()) return print(io::to_json(*totals, arguments.units));
    return print(io::totals_text(*totals, arguments.units, arguments.has("--why")));
}

}  // namespace feed_command
