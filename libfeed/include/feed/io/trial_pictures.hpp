#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/trial_answer.hpp"

namespace feed::io {

/// Paper that a sheet is made for.
enum class Paper { a4, letter };

/// The sheet to hang up beside the bins, a page each as SVG: map of the numbered places and what to
/// weigh, boxes to tick by day, and the key on the last page by itself, so that whoever looks need
/// not know it. Black on white; no colour is needed. Threads: pure.
std::vector<std::string> trial_sheet(const TrialPlan& plan, std::string_view title, Paper paper);

/// The pages of a sheet as one HTML page that prints a sheet of paper each.
std::string trial_sheet_html(const std::vector<std::string>& pages, std::string_view title,
                             Paper paper);

/// What was seen, as one picture (SVG): a bar from the last look before to the first look after for
/// each portion, by feed, with a shape for each bin; the order; and the same in words. Colour is
/// never the only sign. Threads: pure.
std::string trial_svg(const Trial& trial, const TrialReading& reading, std::string_view title);

}  // namespace feed::io
