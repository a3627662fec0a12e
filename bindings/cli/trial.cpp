#include <cstdio>
#include <string>
#include <vector>

#include "command.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/io/output_files.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/io/trial_pictures.hpp"
#include "file_or_entries.hpp"
#include "sheet_files.hpp"

#ifndef _WIN32
#include <unistd.h>
#endif

namespace feed_command {
namespace {

using namespace feed;

/// A line that counts up where a person watches, and is wiped out at the end.
void show_progress(std::size_t done, std::size_t of) {
#ifndef _WIN32
    if (isatty(STDERR_FILENO) == 0) return;
    if (done < of)
        std::fprintf(stderr, "\rtrying the plan on paper: %zu of %zu", done, of);
    else
        std::fprintf(stderr, "\r%40s\r", "");
    std::fflush(stderr);
#else
    (void)done;
    (void)of;
#endif
}

int plan(const Arguments& arguments, const io::FeedFile& file) {
    const auto found = io::trial_plan_of(file, arguments.units, show_progress);
    if (!found) return refuse(arguments, found.errors());
    std::vector<io::OutputFile> outputs;
    const bool letter = arguments.has("--paper") && arguments.options.at("--paper") == "letter";
    if (arguments.has("--sheet")) {
        const std::string& path = arguments.options.at("--sheet");
        const io::Paper paper = letter ? io::Paper::letter : io::Paper::a4;
        const auto pages = io::trial_sheet(*found, file.title, paper);
        outputs = sheet_files(path, pages, "-key",
                              [&] { return io::trial_sheet_html(pages, file.title, paper); });
    }
    if (!outputs.empty()) {
        const auto written = io::write_output_files(outputs, std::vector{arguments.words[1]});
        if (!written) return refuse(arguments, written.errors());
    }
    if (arguments.json()) return print(io::to_json(*found, arguments.units));
    if (arguments.has("--yaml")) {
        const auto whole = io::trial_plan_yaml(file, *found);
        return whole ? print(*whole) : refuse(arguments, whole.errors());
    }
    return print(io::trial_plan_text(*found, arguments.units, arguments.has("--why")));
}

int read(const Arguments& arguments, const io::FeedFile& file) {
    const auto reading = io::trial_reading_of(file);
    if (!reading) return refuse(arguments, reading.errors());
    if (arguments.has("--svg")) {
        const std::vector<io::OutputFile> outputs{
            {"--svg", arguments.options.at("--svg"),
             io::trial_svg(*file.trial, *reading, file.title)}};
        const auto written = io::write_output_files(outputs, std::vector{arguments.words[1]});
        if (!written) return refuse(arguments, written.errors());
    }
    if (arguments.json()) return print(io::to_json(*file.trial, *reading));
    return print(io::trial_reading_text(*file.trial, *reading, arguments.has("--why")));
}

}  // namespace

int run_trial(Arguments& arguments) {
    const bool planned = !arguments.words.empty() && arguments.words[0] == "plan";
    const bool known = planned || (!arguments.words.empty() && arguments.words[0] == "read");
    if (!known || arguments.words.size() != 2)
        return refuse(arguments,
                      wrong_words(arguments, known ? "which file?" : "plan or read, then a file"));
    if (planned ? arguments.has("--svg") : (arguments.has("--sheet") || arguments.has("--yaml")))
        return refuse(
            arguments,
            wrong_words(arguments, planned ? "--svg belongs to feed trial read"
                                           : "--sheet and --yaml belong to feed trial plan"));
    const auto file = read_named_file(arguments, arguments.words[1]);
    if (!file) return refuse(arguments, file.errors());
    if (const auto wrong = io::wrong_kind(*file, planned ? "trial plan" : "trial read"))
        return refuse(arguments, *wrong);
    return planned ? plan(arguments, *file) : read(arguments, *file);
}

}  // namespace feed_command
