#pragma once
#include <optional>
#include <string>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/forecast/forecast_result.hpp"
#include "feed/io/human_text.hpp"

namespace feed::io {

/// What changes from bin to bin on the sheet that hangs beside it.
struct BinSheet {
    std::string bin;                ///< name of the bin
    std::optional<Date> look_on;    ///< when to look whether the food is gone
    std::string look_for;           ///< what should be seen then, one plain sentence
    std::optional<Date> feed_on;    ///< when to feed again, if all is well
    std::vector<std::string> feed;  ///< what to feed then, one line each, with its weight
    bool less = false;              ///< less than was planned, because the worms eat no more
    bool lime = false;              ///< lime is kept beside the bin: say who may use it
    int rows = 10;                  ///< empty rows of the record, 0 to 20
};

/// The sheet of a bin whose next feeding is to be like one that was planned.
/// @param name      of the bin.
/// @param portions  of the feeding to repeat; may be empty.
/// @param share     of it that the bed eats until the next one (see share_to_repeat).
/// @param forecast  from day_zero on.
BinSheet bin_sheet_of(std::string name, const std::vector<Portion>& portions,
                      const Forecast& forecast, Date day_zero, UnitSystem units,
                      double share = 1.0);

/// One page of plain text, at most 80 columns wide, in words that a ten-year-old reads: look,
/// feed, never, do not worry, tell a grown-up, stay clean, and the record a school or community
/// site keeps. Threads: pure.
std::string bin_sheet_text(const BinSheet& sheet);

/// The same page as HTML 5 for one side of A4 or letter paper, with nothing to fetch.
std::string bin_sheet_html(const BinSheet& sheet);

}  // namespace feed::io
