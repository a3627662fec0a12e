#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/ration/week.hpp"

// The week of several bins, from their files and what people say they have.
namespace feed::io {

/// Bins that are asked for at once.
inline constexpr std::size_t most_bins = 100;
/// Openings of a bin in a week.
inline constexpr int usual_openings = 2;
inline constexpr int most_week_openings = 3;

/// What a week is asked for.
struct WeekAsked {
    std::vector<FeedFile> bins;     ///< one a bin
    std::vector<std::string> have;  ///< what is at hand and expected, in words, beside the stocks
    std::optional<Date> today;      ///< nothing: the last day that the bins' files name
    int openings = usual_openings;  ///< of a bin in the week, 1 to 3
    UnitSystem units = UnitSystem::metric;
};

/// The things of a week in words: "2 kg coffee grounds, 5 apples; Thu: 3 kg lettuce". Parts are
/// parted by ";" or stand in texts of their own; before a part may stand the day it comes: a
/// weekday, today, tomorrow or a date.
/// Errors: those of the words; out_of_range for a day that is not one of the seven from today on.
/// Threads: pure.
Result<std::vector<WeekThing>> read_week_things(const std::vector<std::string>& texts, Date today);

/// What is wrong with the files of several bins: none, too many, one that is of a heap, or one bin
/// twice (the same file, or two of one title).
/// @param verb  that is asked. Threads: pure.
std::optional<Errors> wrong_bins(const std::vector<FeedFile>& bins, std::string_view verb);

/// What a bin is called: its title, or its place among the others. Threads: pure.
std::string bin_name(const FeedFile& file, std::size_t index);

/// What a week is planned from: what is said to be there, and the stocks of the bins. Errors:
/// missing_value where no file names a day, or nothing is there to feed; too_many bins; those of
/// read_week_things. Threads: pure.
Result<WeekInput> week_input(const WeekAsked& asked);

/// Answers `feed week`. Errors: those of week_input. Threads: pure.
Result<WeekPlan> week_of(const WeekAsked& asked);

/// The week in lines: what to take out, how much goes in, then day by day and bin by bin what goes
/// in, what gets nothing and why, and what to do with the rest. Threads: pure.
/// @param why  the whole ration of each opening behind it.
std::string week_text(const WeekPlan& plan, UnitSystem units, bool why = false);

/// The answer in JSON: `bins` with their `openings`, each with its `ration`.
std::string to_json(const WeekPlan& plan, UnitSystem units);

/// The week to hang on the wall, a page each as SVG: one row a day, one column a bin with the group
/// that feeds it, what to put in and cover with, boxes to tick. Paper on its side, A4, or letter
/// with US units; bins that do not fit side by side have a page of their own. Threads: pure.
std::vector<std::string> week_sheet(const WeekPlan& plan, UnitSystem units);

/// The same as one HTML page that prints a sheet of paper each.
std::string week_sheet_html(const WeekPlan& plan, UnitSystem units);

}  // namespace feed::io
