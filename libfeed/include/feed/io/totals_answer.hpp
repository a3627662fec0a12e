#pragma once
#include <optional>
#include <string>
#include <vector>

#include "feed/diary/totals.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"

// What the diaries of some bins add up to.
namespace feed::io {

/// What totals are asked for.
struct TotalsAsked {
    std::vector<FeedFile> bins;  ///< one a bin
    std::string since;           ///< a day such as 2026-03-14; empty: from the first entry on
    std::optional<Date> today;   ///< what is planned for later is left out; nothing: nothing is
};

/// Answers `feed totals`. Errors: missing_value without a bin; out_of_range for too many bins, or a
/// `since` that is not a day or after today. Threads: pure.
Result<DiaryTotals> totals_of(const TotalsAsked& asked);

/// In all, kept out of the rubbish, harvested, then bin by bin and month by month.
/// @param why  by group and by week too, and what counts as what.
std::string totals_text(const DiaryTotals& totals, UnitSystem units, bool why = false);

/// The answer in JSON: `all`, then lists `bins`, `groups`, `months` and `weeks`.
std::string to_json(const DiaryTotals& totals, UnitSystem units);

}  // namespace feed::io
