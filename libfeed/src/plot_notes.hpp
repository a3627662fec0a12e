#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/diary/plot_look.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/quantity/error.hpp"

namespace feed::io {

/// Looks at plots in as few words as read back the same: "plots 1-6 worms few". Plots of which the
/// same was seen, one after another, stand together.
std::vector<std::string> plot_texts(std::span<const PlotLook> looks);

/// Takes the looks at plots out of the pieces of a note: "plot 3 gone", "plots 1", "2 and 5 half
/// left", "photo A.jpg". A piece that says nothing of a plot stays in `pieces`.
/// Errors: those of `read_plot_look`; contradiction where one plot is said to be two things.
Result<std::vector<PlotLook>> take_plot_looks(std::vector<std::string>& pieces);

/// The day on which a plot was laid; nothing where the trial does not say.
std::optional<Date> laid_on(const Trial& trial, std::size_t plot);

/// Places and portions of a trial that was laid.
struct LaidTrial {
    TrialLayout layout;
    TrialPortions portions;
};

/// What was laid; nothing where seed or start are not written yet.
std::optional<LaidTrial> laid_trial(const Trial& trial);

/// "plot 3 was laid on 2026-03-14, after this look".
std::string laid_later(std::size_t plot, Date laid);

/// What is wrong with the looks at plots of the newest observation of a diary: no trial, no such
/// plot, not yet laid, heavier than it was laid, or more left than at an earlier look. The last
/// names the line of the other look.
/// @param before_text  the diary without the newest entry, as written.
Errors plot_entry_errors(const FeedFile& before, std::string_view before_text,
                         const FeedFile& after);

}  // namespace feed::io
