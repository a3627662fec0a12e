#include <string>

#include "command.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/to_json.hpp"
#include "ration_screen.hpp"

namespace feed_command {

using namespace feed;

int run_refresh(Arguments& arguments) {
    const auto file = read_bin_of_file(arguments);
    if (!file) return refuse(arguments, file.errors());
    io::AnswerOptions options;
    io::WorkWords words;
    words.change = arguments.text("--change");
    words.share = arguments.text("--share");
    words.temperature = arguments.text("--temperature");
    words.away = arguments.text("--away");
    if (const auto wrong = io::read_work("refresh", words, "--", options))
        return refuse(arguments, *wrong);
    // One advice on a time away: that of the check.
    if (*options.change == RefreshChange::away) return print_check(arguments, *file, options.away);
    const RefreshAnswer answer =
        io::refresh_of(*file, *options.change, options.refresh, arguments.units);
    const int code = exit_of(arguments, answer.today);
    if (arguments.json()) return print(io::to_json(answer, options.refresh), code);
    const bool all = arguments.has("--why");
    std::string text = io::screen_text(
        io::refresh_lines(answer, options.refresh, arguments.units, arguments.words[0],
                          all ? io::whole_screen : io::first_screen));
    if (all) text += io::refresh_why(answer, arguments.units);
    return print(text, code);
}

}  // namespace feed_command
