#include <string>

#include "command.hpp"
#include "feed/io/stock_answer.hpp"
#include "file_or_entries.hpp"
#include "ration_screen.hpp"

namespace feed_command {

using namespace feed;

int run_stock(Arguments& arguments) {
    const bool one_file = arguments.words.size() == 1 && names_a_file(arguments.words[0]);
    if (!one_file) return refuse(arguments, wrong_words(arguments, "which file?"));
    const auto file = read_bin(arguments);
    if (!file) return refuse(arguments, file.errors());
    const auto stock = io::stock_of(*file, arguments.units,
                                    {arguments.text("--collect"), arguments.text("--for")});
    if (!stock) return refuse_by_option(arguments, stock.errors());
    if (arguments.json()) return print(io::to_json(*stock, arguments.units));
    return print(io::stock_text(*stock, arguments.units, arguments.has("--why")));
}

}  // namespace feed_command
