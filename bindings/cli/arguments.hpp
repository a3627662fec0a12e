#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "command_list.hpp"
#include "feed/io/human_text.hpp"
#include "feed/quantity/error.hpp"

namespace feed_command {

/// The words of a call, sorted.
struct Arguments {
    const Command* command = nullptr;
    std::vector<std::string> words;
    std::map<std::string_view, std::string> options;  ///< by the name in command_list.hpp
    bool has(std::string_view option) const { return options.count(option) != 0; }
    /// The value of an option, or "" where it was not given.
    std::string text(std::string_view option) const {
        return has(option) ? options.at(option) : std::string();
    }
    bool json() const { return has("--json"); }
    feed::io::UnitSystem units = feed::io::UnitSystem::metric;
};

/// Sorts the words after the name of the command. Options may stand anywhere; "--" ends them.
/// Errors: unknown option, a value missing, a value that is none of the choices.
feed::Result<Arguments> read_arguments(const Command& command,
                                       const std::vector<std::string_view>& words);

/// The command with this name, or null.
const Command* find_command(std::string_view name);

/// "feed blend [--json] ... FILE | ENTRIES..."
std::string synopsis(const Command& command);
/// The help of one command, and of the program.
std::string help_text(const Command& command);
std::string help_text();

}  // namespace feed_command
