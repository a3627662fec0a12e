#include "file_or_entries.hpp"

#include <algorithm>
#include <iostream>
#include <iterator>
#include <utility>

#include "command.hpp"
#include "feed/io/door_table.hpp"
#include "feed/io/text_file.hpp"
#include "today.hpp"

namespace feed_command {
namespace {

using namespace feed;

bool ends_with(std::string_view text, std::string_view tail) {
    return text.size() >= tail.size() && text.substr(text.size() - tail.size()) == tail;
}

}  // namespace

std::string standard_input() {
    std::string text;
    char part[16384];
    while (std::cin.read(part, sizeof part) || std::cin.gcount() > 0) {
        text.append(part, static_cast<std::size_t>(std::cin.gcount()));
        if (text.size() > io::largest_file_bytes) break;  // the reader says that it is too large
    }
    return text;
}

namespace {

std::string option_of(const Arguments& arguments, std::string_view option) {
    return arguments.has(option) ? arguments.options.at(option) : std::string();
}

/// What describes a bin in words; an example of each stands in the table of the door.
constexpr const io::door::Member* bin_options[] = {&io::door::bin, &io::door::worms,
                                                   &io::door::temperature, &io::door::squeeze};

/// A slash that is no fraction: "bins/tote", not "1/2 caddy carrot".
bool has_slash(std::string_view word) {
    for (std::size_t at = word.find('/'); at != std::string_view::npos;
         at = word.find('/', at + 1)) {
        const auto digit = [&](std::size_t place) {
            return place < word.size() && word[place] >= '0' && word[place] <= '9';
        };
        if (at == 0 || !digit(at - 1) || !digit(at + 1)) return true;
    }
    return false;
}

}  // namespace

bool names_a_file(std::string_view word) {
    return word == "-" || has_slash(word) || ends_with(word, ".yaml") || ends_with(word, ".yml") ||
           ends_with(word, ".json");
}

std::string named_file(const Arguments& arguments) {
    const auto& words = arguments.words;
    const auto named = std::find_if(words.begin(), words.end(), names_a_file);
    return named == words.end() ? std::string() : *named;
}

void take_units_of(const io::FeedFile& file, Arguments& arguments) {
    if (!arguments.has("--units") && file.units) arguments.units = *file.units;
}

Result<io::FeedFile> read_named_file(Arguments& arguments, const std::string& name) {
    auto file = name == "-" ? io::read_feed_text(standard_input(), standard_input_name)
                            : io::read_feed_file(name);
    if (!file) return file;
    take_units_of(*file, arguments);
    // More days ahead is a clock that is wrong, or a file that is tried out.
    constexpr std::int64_t most_days_ahead = 7;
    const Date now = today();
    const auto last = io::day_zero(*file);
    if (last && day_number(*last) - day_number(now) <= most_days_ahead) file->today = now;
    return file;
}

Result<std::vector<io::FeedFile>> read_named_files(Arguments& arguments,
                                                   const std::vector<std::string>& names) {
    std::vector<io::FeedFile> files;
    Errors errors;
    for (const std::string& name : names) {
        auto file = read_named_file(arguments, name);
        if (file)
            files.push_back(std::move(file).value());
        else
            errors.insert(errors.end(), file.errors().begin(), file.errors().end());
    }
    if (!errors.empty()) return errors;
    return files;
}

Result<io::FeedFile> read_file_or_entries(Arguments& arguments) {
    const auto& words = arguments.words;
    const io::BinWords bin{option_of(arguments, "--bin"), option_of(arguments, "--worms"),
                           option_of(arguments, "--temperature"),
                           option_of(arguments, "--squeeze")};
    // "check --bin ... --away": a bin can be judged without food.
    const bool needs_food = bin.empty() || arguments.command->name == "balance";
    if (words.empty() && needs_food)
        return wrong_words(arguments, "which file, or what is there to feed?");
    const auto named = std::find_if(words.begin(), words.end(), names_a_file);
    const bool as_balance = arguments.command->name == "balance";
    if (named != words.end()) {
        if (!bin.empty())
            return wrong_words(arguments, "the file says what bin it is; leave the options out");
        std::vector<std::string> things(words.begin(), named);
        things.insert(things.end(), named + 1, words.end());
        if (std::any_of(things.begin(), things.end(), names_a_file))
            return wrong_words(arguments, "one file is due here");
        auto file = read_named_file(arguments, *named);
        if (!file || things.empty()) return file;
        return io::with_things(std::move(file).value(), things, as_balance);
    }
    auto file = io::read_bin_words(bin, words, as_balance);
    if (file) return file;
    Errors errors = file.errors();
    for (Error& error : errors) {
        if (error.field == "bed: container") error.field = "--bin";
        for (const std::string_view key : {"worms", "temperature", "squeeze"})
            if (error.field == "bed: " + std::string(key)) error.field = "--" + std::string(key);
        for (const io::door::Member* const one : bin_options)
            if (error.field == one->option && error.repairs.empty()) {
                error.repairs = {std::string(one->option) + " " + std::string(one->example)};
                error.message += "; write for instance " + error.repairs.front();
            }
    }
    // A slip in a file's name is no food: say how a file is told from words.
    const bool one_word = words.size() == 1 && words[0].find(' ') == std::string::npos;
    if (one_word && !errors.empty())
        errors[0].message += "; the name of a file ends in .yaml, .yml or .json";
    return errors;
}

}  // namespace feed_command
