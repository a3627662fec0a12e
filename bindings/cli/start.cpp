#include <unistd.h>

#include <iostream>
#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/bin_start.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/new_bin_text.hpp"
#include "feed/io/output_files.hpp"
#include "feed/io/ration_text.hpp"
#include "today.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::BinStart;
using io::wrapped;

/// Asks one question until the answer can be used; an empty one is no answer. False: the keeper
/// broke off.
bool ask(const io::StartQuestion& question, BinStart& said, Date today) {
    for (;;) {
        print(wrapped(std::string(question.ask) + " Such as: " + std::string(question.such_as) +
                          ". Just press Enter to leave it open.",
                      0, 2));
        print("> ");
        std::string line;
        if (!std::getline(std::cin, line)) return false;
        said.*question.answer = line;
        const auto text = io::start_bin(said, today);
        if (text) return true;
        (said.*question.answer).clear();
        Errors errors = text.errors();
        errors.resize(1);
        print(io::errors_text(errors));
    }
}

std::string json_of(const io::StartedBin& started, const std::string& path, UnitSystem units) {
    io::JsonWriter json;
    json.begin_object();
    json.member("started", path);
    io::write_started(json, started, units);
    json.end_object();
    return json.take();
}

/// The scraps that a new bin is fed first; none where the answer tells of none.
WetMass first_scraps(const NewBin& bin) {
    return bin.rations.empty() ? WetMass() : bin.rations.front().ration.scraps;
}

/// What to type once that was done: as much as the answer says, and never a word of food beside a
/// wait.
std::string note_line(const std::optional<Ration>& today, WetMass scraps,
                      const Arguments& arguments, const std::string& path) {
    std::string done = today ? io::done_text(*today, arguments.units, path) : "";
    if (!done.empty()) return done;
    if (!(scraps.in_kilograms() > 0.0))
        return "Then note what you see: feed note --help shows how.";
    return "Once fed, note it: feed note " + path + " fed " +
           io::mass_text(scraps.mass(), arguments.units) + " of soft scraps";
}

/// Errors under the option that was typed: a container is said by --bin or --size too.
Errors as_typed(Errors errors, const Arguments& arguments) {
    for (Error& error : errors)
        for (const std::string_view said : {"--bin", "--size"})
            if (error.field == "--container" && !arguments.has("--container") &&
                arguments.has(said))
                error.field = said;
    return errors;
}

/// How to set up a new bin, or what one that lives means today.
Result<std::string> answer_of(const io::StartedBin& started, const Arguments& arguments,
                              const std::string& path, Date day) {
    if (arguments.json()) return json_of(started, path, arguments.units);
    auto file = io::read_feed_text(started.text, path);
    if (!file) return file.errors();
    const UnitSystem units = arguments.units;
    std::optional<Ration> today;
    if (!started.to_set_up) {
        file->today = day;
        today = io::ration_of(*file, units);
    }
    const WetMass scraps = today ? today->scraps : first_scraps(*started.to_set_up);
    const std::vector<std::string> before{"Started " + path + "."};
    const std::vector<std::string> after{note_line(today, scraps, arguments, path)};
    const io::ScreenRoom room = io::left_of(io::left_of(io::first_screen, before), after);
    const auto lines = today ? io::ration_lines(*today, units, room)
                             : io::new_bin_lines(*started.to_set_up, units, room);
    return io::screen_text(before) + io::screen_text(lines) + io::screen_text(after);
}

}  // namespace

int run_start(Arguments& arguments) {
    if (arguments.words.size() != 1)
        return refuse(arguments, wrong_words(arguments, "one new file is due here"));
    const std::string& path = arguments.words[0];
    const auto day = date_of_call(arguments);
    if (!day) return refuse(arguments, day.errors());
    if (const auto early = lies_ahead(*day, arguments)) return refuse(arguments, {*early});
    BinStart said;
    if (arguments.has("--title")) said.title = arguments.options.at("--title");
    bool any = !said.title.empty();
    if (arguments.has("--bin")) {
        for (const std::string_view same : {"--container", "--size"})
            if (arguments.has(same))
                return refuse(arguments, wrong_words(arguments, "--bin and " + std::string(same) +
                                                                    " say the same"));
        said.container = arguments.options.at("--bin");
        any = true;
    }
    for (const io::StartQuestion& question : io::start_questions) {
        if (!arguments.has(question.option)) continue;
        said.*question.answer = arguments.options.at(question.option);
        any = true;
    }
    const bool can_ask = !any && !arguments.json() && ::isatty(0) != 0 && ::isatty(1) != 0;
    if (can_ask) {
        if (const auto stands = io::may_be_created(path); !stands)
            return refuse(arguments, stands.errors());
        for (const io::StartQuestion& question : io::start_questions) {
            if (ask(question, said, *day)) continue;
            return print("\nNothing was written.\n", bad_input);
        }
    }
    const auto started = io::start_bin(said, *day, arguments.units);
    if (!started) return refuse(arguments, as_typed(started.errors(), arguments));
    const auto answer = answer_of(*started, arguments, path, *day);
    if (!answer) return refuse(arguments, answer.errors());
    const auto written = io::create_text_file(path, started->text);
    if (!written) return refuse(arguments, written.errors());
    return print_after_writing(*answer, path, true);
}

}  // namespace feed_command
