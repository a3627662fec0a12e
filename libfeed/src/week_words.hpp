#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/human_text.hpp"
#include "feed/ration/week.hpp"

// What a week says, for its screen and its sheet alike.
namespace feed::io {

inline constexpr std::string_view look_before_feeding =
    "Look before each feeding. Is old food still there? Then wait.";

/// What goes into a bin at one opening, one step each: scraps, cover, water, lime.
std::vector<std::string> steps_of(const Ration& ration, UnitSystem units);
/// The opening of a bin on a day, or nullptr.
const WeekOpening* opening_on(const WeekOfBin& bin, int day);
/// Whether a bin waits and its ration has something to do today: a step, or a look.
bool waits_with_a_step(const WeekOfBin& bin);
/// What a bin that gets nothing is told: "wait, no food until Fri 8 May."
std::string closed_words(const WeekOfBin& bin, Date today, UnitSystem units);
/// How many bins are fed, and how much in all.
std::string week_headline(const WeekPlan& plan, UnitSystem units);
/// Where with what no bin takes: what keeps stays, the rest goes into the freezer while it is good.
std::vector<std::string> rest_lines(const WeekPlan& plan, UnitSystem units);
/// What is taken out of which stock, what to note of it, and what was said and in stock too.
std::vector<std::string> from_stock_lines(const WeekPlan& plan, UnitSystem units);
/// The cautions of all openings that are about people, each once.
std::vector<std::string> week_cautions(const WeekPlan& plan);

}  // namespace feed::io
