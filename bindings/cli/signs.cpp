#include "feed/diary/signs.hpp"

#include <string>
#include <vector>

#include "command.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/plain_text.hpp"
#include "file_or_entries.hpp"
#include "quantity_lines.hpp"

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

/// The sign a word means: its full words, or a part that only one sign has ("climbing").
Result<Sign> read_sign(const std::string& word) {
    const auto plain = plain_text(word);
    if (const auto sign = find_sign(plain)) return *sign;
    std::vector<Sign> fitting;
    for (std::size_t i = 0; i < sign_count; ++i) {
        const auto words = words_of(sign_words[i]);
        const auto wanted = words_of(plain);
        const bool all = std::all_of(wanted.begin(), wanted.end(), [&](const std::string& one) {
            return std::find(words.begin(), words.end(), one) != words.end();
        });
        if (all && !wanted.empty()) fitting.push_back(static_cast<Sign>(i));
    }
    if (fitting.size() == 1) return fitting.front();
    Error error;
    error.code = ErrorCode::out_of_range;
    error.field = "sign";
    error.value = word;
    error.allowed = all_signs();
    error.message = "\"" + word + "\" " +
                    (fitting.empty() ? "is not a sign that is known" : "fits several signs");
    return error;
}

std::string answer_text(const SignsAnswer& answer) {
    std::string text = wrapped(answer.text, 0, 2) + "\nWhat it may be, likeliest first\n";
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

}  // namespace

int run_signs(const Arguments& arguments) {
    if (arguments.words.empty()) return print(wrapped("Signs: " + all_signs() + ".", 0, 2));
    std::vector<Sign> signs;
    Errors errors;
    for (const auto& word : arguments.words) {
        const auto sign = read_sign(word);
        if (sign)
            signs.push_back(*sign);
        else
            errors.push_back(sign.errors().front());
    }
    if (!errors.empty()) return refuse(arguments, errors);
    Bed bed;
    if (arguments.has("--bed")) {
        const auto file = read_named_file(arguments.options.at("--bed"));
        if (!file) return refuse(arguments, file.errors());
        bed = io::bed_on_day_zero(*file);
    }
    const auto answer = causes_of(bed, signs, arguments.units);
    if (arguments.json()) return print(io::to_json(answer));
    return print(answer_text(answer) + assumed_text(answer.assumed, arguments.units));
}

}  // namespace feed_command
