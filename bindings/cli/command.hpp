#pragma once
#include <string_view>

#include "arguments.hpp"

namespace feed_command {

enum Exit : int { done = 0, not_reachable = 1, bad_input = 2, internal = 3 };

// One function a subcommand, each in the file of its name. They print results to standard output
// and return the exit code.
int run_table(const Arguments& arguments);
int run_show(const Arguments& arguments);
int run_blend(const Arguments& arguments);
int run_balance(const Arguments& arguments);
int run_ration(const Arguments& arguments);
int run_check(const Arguments& arguments);
int run_forecast(const Arguments& arguments);
int run_harvest(const Arguments& arguments);
int run_refresh(const Arguments& arguments);
int run_observe(const Arguments& arguments);
int run_note(const Arguments& arguments);
int run_start(const Arguments& arguments);
int run_signs(const Arguments& arguments);
int run_week(const Arguments& arguments);
int run_stock(const Arguments& arguments);
int run_totals(const Arguments& arguments);
int run_worms(const Arguments& arguments);
int run_heap(const Arguments& arguments);
int run_trial(const Arguments& arguments);
int run_call(const Arguments& arguments);
int run_version(const Arguments& arguments);

/// Writes to standard output; returns `code`, or 3 when the output cannot be written.
int print(std::string_view text, int code = done);
/// The same after a file has been changed: what is in it stays in it, so a failure to print, or a
/// disk that did not confirm, is a warning, and the code is 0.
int print_after_writing(std::string_view text, const std::string& path, bool confirmed);
/// Writes problems: for people to standard error, with --json as JSON to standard output.
/// Returns 2.
int refuse(const Arguments& arguments, const feed::Errors& errors);
/// The same for problems that name members of a request: where the command has an option of that
/// name, they name it.
int refuse_by_option(const Arguments& arguments, feed::Errors errors);
/// The problem of a call with too few or too many words.
feed::Errors wrong_words(const Arguments& arguments, std::string_view message);

}  // namespace feed_command
