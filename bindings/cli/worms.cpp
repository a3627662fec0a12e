#include <string>
#include <utility>

#include "command.hpp"
#include "feed/io/worms_answer.hpp"
#include "file_or_entries.hpp"
#include "ration_screen.hpp"

namespace feed_command {

using namespace feed;

int run_worms(Arguments& arguments) {
    io::WormsAsked asked;
    std::string name;
    for (const std::string& word : arguments.words) {
        if (!names_a_file(word)) {
            asked.scraps.push_back(word);
            continue;
        }
        if (asked.file)
            return refuse(arguments, wrong_words(arguments, "one file of a bin is due here"));
        auto file = read_named_file(arguments, word);
        if (!file) return refuse(arguments, file.errors());
        asked.file = std::move(file).value();
        name = word;
    }
    asked.units = arguments.units;
    const auto today = said_date(arguments);
    if (!today) return refuse(arguments, today.errors());
    asked.today = *today;
    asked.bin = {arguments.text("--bin"), arguments.text("--worms"),
                 arguments.text("--temperature"), ""};
    asked.people = arguments.text("--people");
    asked.meals = arguments.text("--meals");
    asked.coffee = arguments.text("--coffee");
    asked.census = arguments.text("--census");
    asked.sample = arguments.text("--sample");
    const auto answer = io::worms_of(asked);
    if (!answer) return refuse_by_option(arguments, answer.errors());
    const bool barred = (answer->need && !answer->need->take_out.empty()) ||
                        (answer->bin && (!answer->bin->take_out.empty() ||
                                         answer->bin->ration.answer == RationAnswer::act_first));
    const int code = barred && arguments.has("--strict") ? not_reachable : done;
    if (arguments.json()) return print(io::to_json(*answer), code);
    const bool all = arguments.has("--why");
    std::string text =
        io::screen_text(io::worms_lines(*answer, name, all ? io::whole_screen : io::first_screen));
    if (all) text += io::worms_why(*answer);
    return print(text, code);
}

}  // namespace feed_command
