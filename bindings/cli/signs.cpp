#include "feed/ration/signs.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "command.hpp"
#include "feed/diary/seen.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/plain_text.hpp"
#include "file_or_entries.hpp"
#include "quantity_lines.hpp"
#include "ration_screen.hpp"

namespace feed_command {
namespace {

using namespace feed;
using io::wrapped;

std::string all_signs() {
    std::string text;
    for (const auto word : sign_words)
        text += (text.empty() ? "" : ", ") + std::string(word);
    return text;
}

/// What to test and to do first, then other tests as far as the screen goes.
std::string short_text(const SignsAnswer& answer) {
    const Diagnosis& first = answer.causes.front();
    std::vector<io::ScreenLine> lines;
    const auto add = [&](const std::string& text, int rank) {
        for (const std::string& one : io::sentences_of(text))
            lines.push_back({one, rank});
    };
    add(answer.text, 0);
    add((first.harmless ? "" : "If so: ") + first.remedy.text, 0);
    for (const auto& note : answer.notes)
        add(note, 0);
    // Of the others the least likely goes first.
    for (std::size_t i = 1; i < answer.causes.size(); ++i) {
        const Diagnosis& cause = answer.causes[i];
        lines.push_back({(i == 1 ? "If not, it may be " : "Or ") + cause.name + ". " + cause.test,
                         static_cast<int>(i) + 1});
    }
    if (answer.causes.size() > 1) lines.push_back({"Steps for the others: add --why.", 1});
    return io::screen_text(io::fitting(lines, io::first_screen));
}

/// Every cause with its test and step.
std::string full_text(const SignsAnswer& answer) {
    std::string text = wrapped(answer.text, 0, 2);
    for (const auto& note : answer.notes)
        text += wrapped(note, 0, 2);
    text += "\nWhat it may be, likeliest first\n";
    for (const auto& cause : answer.causes) {
        // An order, not a measurement: said against the likeliest, which is never "less likely".
        const double against = cause.share / answer.causes.front().share;
        const char* share = against >= 0.75 ? "likely" : against >= 0.4 ? "may be" : "less likely";
        text += wrapped(
            "- " + cause.name + " (" + share + (cause.harmless ? ", harmless" : "") + ")", 2, 4);
        if (!cause.why.empty()) text += wrapped(cause.why, 6, 6);
        text += wrapped("Test: " + cause.test, 6, 8);
        if (!cause.remedy.text.empty()) text += wrapped("If so: " + cause.remedy.text, 6, 8);
    }
    if (answer.steps.size() > 1) {
        text += "\nAct in this order, what is easily taken back first\n";
        for (const auto step : answer.steps)
            text += wrapped("- " + answer.causes[step].name, 2, 4);
    }
    return text;
}

/// The words typed, parted as they were: each argument in quotation marks, and single words that
/// say something by themselves; other single words belong together ("worms leaving").
std::vector<std::string> sentences(const std::vector<std::string>& words) {
    std::vector<std::string> parts;
    std::string open;
    const auto close = [&] {
        if (!open.empty()) parts.push_back(std::move(open));
        open.clear();
    };
    for (const auto& word : words) {
        if (word.find(' ') != std::string::npos) {
            close();
            parts.push_back(word);
        } else {
            open += (open.empty() ? "" : " ") + word;
        }
    }
    close();
    return parts;
}

/// The file of the bed, behind --bed or among the words as other verbs have it, and the words of
/// the signs.
struct FilesAndSigns {
    std::vector<std::string> files;
    std::vector<std::string> signs;
};

FilesAndSigns parted(const Arguments& arguments) {
    FilesAndSigns said;
    if (arguments.has("--bed")) said.files.push_back(arguments.options.at("--bed"));
    for (const std::string& word : arguments.words)
        (names_a_file(word) ? said.files : said.signs).push_back(word);
    return said;
}

}  // namespace

int run_signs(Arguments& arguments) {
    const auto [files, words] = parted(arguments);
    if (files.size() > 1)
        return refuse(arguments, wrong_words(arguments, "one file of a bin is due here"));
    if (words.empty()) return print(wrapped("Signs: " + all_signs() + ".", 0, 2));
    const auto signs = read_signs(sentences(words));
    if (!signs) return refuse(arguments, signs.errors());
    SignsAnswer answer = causes_of(*signs, arguments.units);
    if (!files.empty()) {
        const auto file = read_bin_of_file(arguments, files.front());
        if (!file) return refuse(arguments, file.errors());
        answer = causes_of(io::ration_input(*file, arguments.units), *signs, arguments.units);
    }
    if (arguments.json()) return print(io::to_json(answer));
    if (!arguments.has("--why")) return print(short_text(answer));
    return print(full_text(answer) + assumed_text(answer.assumed, arguments.units));
}

}  // namespace feed_command
