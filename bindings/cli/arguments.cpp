#include "arguments.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed_command {
namespace {

feed::Error usage_error(std::string field, std::string value, std::string allowed,
                        std::string message) {
    return feed::make_error(feed::ErrorCode::bad_argument, std::move(field), std::move(value),
                            std::move(allowed), std::move(message));
}

std::string option_names(const Command& command) {
    std::string names;
    for (const auto& option : command.options) {
        if (!names.empty()) names += ", ";
        names += option.name;
    }
    return names;
}

/// The verbs that have an option: "feed check, feed forecast"; "" where none has it.
std::string verbs_with(std::string_view option_name) {
    std::string verbs;
    for (const auto& command : commands)
        for (const auto& option : command.options)
            if (option.name == option_name)
                verbs += (verbs.empty() ? "feed " : ", feed ") + std::string(command.name);
    return verbs;
}

feed::Error unknown_option(const Command& command, std::string_view word) {
    feed::Error error = usage_error(std::string(word), "", option_names(command),
                                    "feed " + std::string(command.name) + " has no such option");
    const auto meant = [&](std::string_view name) {
        return offered(std::move(error), "; is ", {std::string(name)}, " meant?");
    };
    constexpr std::size_t least_letters = 5;  // "--tem"
    for (const auto& option : command.options)
        if (word.size() >= least_letters && option.name.substr(0, word.size()) == word)
            return meant(option.name);
    const std::string others = verbs_with(word);
    if (!others.empty()) {
        error.message += "; it belongs to " + others;
        return error;
    }
    constexpr std::size_t short_word = 8;  // of "--days" half would be another word
    std::size_t nearest = word.size() < short_word ? 1 : 2;
    for (const auto& option : command.options)
        nearest = std::min(nearest, feed::edit_distance(word, option.name));
    for (const auto& option : command.options)
        if (feed::edit_distance(word, option.name) == nearest) return meant(option.name);
    return error;
}

bool is_choice(std::string_view choices, std::string_view value) {
    if (choices.empty()) return true;
    const auto list = feed::words_of(choices);
    return std::find(list.begin(), list.end(), value) != list.end();
}

/// Why a value is none for an option.
/// @param again  whether the option was given before.
std::optional<feed::Error> wrong_value(const Option& option, std::string_view value, bool again) {
    const std::string name(option.name);
    if (!option.argument.empty() && feed::detail::trim(value).empty())
        return usage_error(name, "", std::string(option.argument), "this option needs a value");
    if (!option.argument.empty() && again)
        return usage_error(name, std::string(value), "once", "this option is given twice");
    if (!is_choice(option.choices, value))
        return usage_error(name, std::string(value), std::string(option.choices),
                           "this value is not one of the choices");
    return std::nullopt;
}

}  // namespace

feed::Result<Arguments> read_arguments(const Command& command,
                                       const std::vector<std::string_view>& words) {
    Arguments arguments;
    arguments.command = &command;
    feed::Errors errors;
    bool options_over = false;
    for (std::size_t i = 0; i < words.size(); ++i) {
        auto word = words[i];
        if (options_over || word.size() < 2 || word[0] != '-' || feed::detail::is_digit(word[1])) {
            arguments.words.emplace_back(word);
            continue;
        }
        if (word == "--") {
            options_over = true;
            continue;
        }
        std::string_view value;
        const auto equals = word.find('=');
        const bool has_value = equals != std::string_view::npos;
        if (has_value) {
            value = word.substr(equals + 1);
            word = word.substr(0, equals);
        }
        const auto option = std::find_if(command.options.begin(), command.options.end(),
                                         [&](const Option& known) { return known.name == word; });
        if (option == command.options.end()) {
            errors.push_back(unknown_option(command, word));
            continue;
        }
        if (option->argument.empty() && has_value) {
            errors.push_back(usage_error(std::string(word), std::string(value), "no value",
                                         "this option takes no value"));
            continue;
        }
        if (!option->argument.empty() && !has_value) {
            if (i + 1 == words.size()) {
                errors.push_back(usage_error(std::string(word), "", std::string(option->argument),
                                             "this option needs a value"));
                continue;
            }
            value = words[++i];
        }
        if (auto wrong = wrong_value(*option, value, arguments.has(option->name))) {
            errors.push_back(*std::move(wrong));
            continue;
        }
        arguments.options[option->name] = std::string(value);
    }
    if (!errors.empty()) return errors;
    const auto units = arguments.options.find("--units");
    if (units != arguments.options.end() && units->second == "us")
        arguments.units = feed::io::UnitSystem::us;
    return arguments;
}

const Command* find_command(std::string_view name) {
    for (const auto& command : commands) {
        if (command.name == name) return &command;
    }
    return nullptr;
}

std::string synopsis(const Command& command) {
    std::string text = "feed " + std::string(command.name);
    for (const auto& option : command.options) {
        if (option.name == "--help") continue;
        text += " [" + std::string(option.name);
        if (!option.argument.empty()) text += " " + std::string(option.argument);
        text += "]";
    }
    if (!command.arguments.empty()) text += " " + std::string(command.arguments);
    return text;
}

std::string help_text(const Command& command) {
    using feed::io::padded;
    using feed::io::wrapped;
    std::string text = wrapped(synopsis(command), 0, 7) + "\n" + wrapped(command.text, 0, 0) + "\n";
    for (const auto& option : command.options) {
        std::string left = std::string(option.name);
        if (!option.argument.empty()) left += " " + std::string(option.argument);
        std::string right(option.text);
        if (!option.choices.empty()) right += " Choices: " + std::string(option.choices) + ".";
        // The text starts in column 18; below the left side where that reaches it.
        const auto lines = wrapped(right, 18, 18);
        text += "  ";
        text += left.size() < 16 ? padded(left, 16) : left + "\n";
        text += left.size() < 16 ? lines.substr(18) : lines;
    }
    text += "\nExample:\n  " + std::string(command.example) + "\n";
    text += wrapped(command.example_text, 2, 2);
    return text;
}

std::string help_text() {
    using feed::io::padded;
    using feed::io::wrapped;
    std::string text = wrapped(
        "feed - what to feed a worm bin or a small compost heap, how much, and what happens then",
        0, 7);
    text += "\nUsage: feed COMMAND [OPTIONS] [ARGUMENTS]\n\n";
    for (const auto& command : commands) {
        text += "  " + padded(command.name, 10) + std::string(command.summary) + "\n";
    }
    text += "\nfeed COMMAND --help says more, with an example. Exit codes:\n";
    for (const auto& exit_code : exit_codes) {
        text += wrapped(std::to_string(exit_code.code) + "  " + std::string(exit_code.text), 2, 5);
    }
    return text;
}

}  // namespace feed_command
