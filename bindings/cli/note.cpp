#include "feed/io/note.hpp"

#include <string>
#include <vector>

#include "command.hpp"
#include "feed/io/diary_news.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/today_lines.hpp"
#include "file_or_entries.hpp"
#include "today.hpp"

namespace feed_command {
namespace {

using namespace feed;

/// The year of a day that is of another one than today: a slip of it is seen.
std::string year_of_another(Date date, Date today) {
    return date.year == today.year ? "" : " " + std::to_string(date.year);
}

/// @param noted  the words that were written down, and for which day.
std::string answer_text(const io::Appended& with, const io::DiaryNews& news,
                        const std::string& noted, Date day, io::UnitSystem units) {
    std::vector<std::string> said{"Written down for " + noted + "."};
    if (!news.look_back.empty()) {
        for (const std::string& one : io::sentences_of("Your look: " + news.look_back))
            said.push_back(one);
    }
    if (!news.test_first.empty()) said.push_back(news.test_first);
    // How far a trial is stands while there is room; what to do goes first.
    if (!news.trial.empty()) {
        for (const std::string& one : io::sentences_of(news.trial))
            said.push_back(one);
    }
    const io::ScreenRoom room = io::left_of(io::first_screen, said);
    return io::screen_text(said) + io::screen_text(io::today_lines(with.file, day, units, room));
}

/// A file that came through a pipe goes out again with the entry, and nothing else is printed.
int note_in_pipe(const Arguments& arguments, const std::string& words, Date day,
                 const std::string& by) {
    const auto with = io::with_note(standard_input(), words, day, by, standard_input_name);
    return with ? print(with->text) : refuse(arguments, with.errors());
}

}  // namespace

int run_note(Arguments& arguments) {
    if (arguments.words.size() < 2)
        return refuse(arguments, wrong_words(arguments, "which file, and what was done or seen?"));
    const std::string& path = arguments.words[0];
    std::string words;
    for (std::size_t i = 1; i < arguments.words.size(); ++i)
        words += (i > 1 ? " " : "") + arguments.words[i];
    const auto day = date_of_call(arguments);
    if (!day) return refuse(arguments, day.errors());
    const std::string by = arguments.has("--by") ? arguments.options.at("--by") : "";
    const auto entry = io::read_note(words, *day, by);
    if (!entry) return refuse(arguments, entry.errors());
    if (const auto early = lies_ahead(entry->date, arguments)) return refuse(arguments, {*early});
    if (path == "-") return note_in_pipe(arguments, words, *day, by);
    std::string text;
    const auto appended = io::append_to_diary(path, [&](std::string_view diary) {
        auto with = io::with_note(diary, words, *day, by, path);
        if (!with) return with;
        take_units_of(with->file, arguments);
        // The answer is ready before anything is written: nothing can fail between the two.
        const auto news = io::news_of(with->file, entry->has_look(), with->entry);
        text = arguments.json()
                   ? io::to_json(news)
                   : answer_text(*with, news,
                                 io::day_words(entry->date, 0, arguments.units) +
                                     year_of_another(entry->date, *day) + ": " + entry->words,
                                 *day, arguments.units);
        return with;
    });
    if (!appended) return refuse(arguments, appended.errors());
    return print_after_writing(text, path, appended->confirmed);
}

}  // namespace feed_command
