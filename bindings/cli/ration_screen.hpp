#pragma once
#include <optional>
#include <string>

#include "arguments.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/ration/check.hpp"

// What every verb about a bed prints: the same first screen, and the same reasons behind it.
namespace feed_command {

/// The file of a call with the day that counts as today. Errors: those of reading; a wrong --date.
feed::Result<feed::io::FeedFile> read_bin(const Arguments& arguments);

/// Everything behind an answer, in a fixed order: hazards, rules, cautions, what was assumed,
/// grade.
std::string why_text(const feed::CheckResult& result, feed::io::UnitSystem units);

/// The exit code of a ration: 1 with --strict where something is never fed or a step comes first.
int exit_of(const Arguments& arguments, const feed::Ration& ration);

}  // namespace feed_command
