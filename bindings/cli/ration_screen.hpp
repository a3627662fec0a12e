#pragma once
#include <optional>
#include <string>
#include <vector>

#include "arguments.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/screen.hpp"
#include "feed/ration/check.hpp"

// What every verb about a bed prints: the same first screen, and the same reasons behind it.
namespace feed_command {

/// The day that --date names, or nothing where it is left out. Errors: a wrong day.
feed::Result<std::optional<feed::Date>> said_date(const Arguments& arguments);
/// The file of a call with the day that counts as today. Errors: those of reading; a wrong --date.
feed::Result<feed::io::FeedFile> read_bin(Arguments& arguments);

/// The same for a verb that needs a file, and one alone.
feed::Result<feed::io::FeedFile> read_bin_of_file(Arguments& arguments);
/// The same of a file that stands among other words or behind an option.
feed::Result<feed::io::FeedFile> read_bin_of_file(Arguments& arguments, const std::string& name);

/// The first screen of a ration; with --why all of it, and everything behind it in a fixed order:
/// hazards, rules, cautions, what was assumed, grade.
/// @param said    lines that belong to this verb; they stand after the ration.
/// @param behind  what this verb adds behind it.
std::string ration_screen(const Arguments& arguments, const feed::CheckResult& result,
                          std::vector<feed::io::ScreenLine> said = {},
                          const std::string& behind = "");

/// Prints a check of a file, with the advice for a time away where one is asked for.
int print_check(const Arguments& arguments, const feed::io::FeedFile& file,
                std::optional<feed::Duration> away);

/// The exit code of a ration: 1 with --strict where something is never fed or a step comes first.
int exit_of(const Arguments& arguments, const feed::Ration& ration);

}  // namespace feed_command
