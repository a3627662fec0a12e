#pragma once
#include <string_view>

#include "arguments.hpp"

namespace feed_command {

enum Exit : int { done = 0, not_reachable = 1, bad_input = 2, internal = 3 };

// One function a subcommand, each in the file of its name. They print results to standard output
// and return the exit code.
int run_table(Arguments& arguments);
int run_show(Arguments& arguments);
int run_blend(Arguments& arguments);
int run_balance(Arguments& arguments);
int run_ration(Arguments& arguments);
int run_check(Arguments& arguments);
int run_forecast(Arguments& arguments);
int run_harvest(Arguments& arguments);
int run_refresh(Arguments& arguments);
int run_observe(Arguments& arguments);
int run_note(Arguments& arguments);
int run_start(Arguments& arguments);
int run_signs(Arguments& arguments);
int run_week(Arguments& arguments);
int run_stock(Arguments& arguments);
int run_totals(Arguments& arguments);
int run_worms(Arguments& arguments);
int run_heap(Arguments& arguments);
int run_trial(Arguments& arguments);
int run_call(Arguments& arguments);
int run_version(Arguments& arguments);

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
