#include <string>

#include "command.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/to_json.hpp"
#include "ration_screen.hpp"

namespace feed_command {

using namespace feed;

int run_harvest(Arguments& arguments) {
    const auto file = read_bin_of_file(arguments);
    if (!file) return refuse(arguments, file.errors());
    io::AnswerOptions options;
    io::WorkWords words;
    words.way = arguments.text("--way");
    if (const auto wrong = io::read_work("harvest", words, "--", options))
        return refuse(arguments, *wrong);
    const HarvestAnswer answer = io::harvest_of(*file, options.way, arguments.units);
    const int code = exit_of(arguments, answer.ration);
    if (arguments.json()) return print(io::to_json(answer), code);
    const bool all = arguments.has("--why");
    std::string text = io::screen_text(io::harvest_lines(
        answer, arguments.units, arguments.words[0], all ? io::whole_screen : io::first_screen));
    if (all) text += io::harvest_why(answer, arguments.units);
    return print(text, code);
}

}  // namespace feed_command
