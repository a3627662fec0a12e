#pragma once
#include <string>
#include <vector>

#include "feed/io/human_text.hpp"
#include "feed/ration/ration.hpp"

namespace feed::io {

/// What changes from bin to bin on the sheet that hangs beside it.
struct BinSheet {
    std::string bin;                 ///< name of the bin
    std::vector<std::string> today;  ///< what to do, one plain line each: the lines of the ration
    bool lime = false;               ///< lime is kept beside the bin: say who may use it
    int rows = 20;                   ///< most empty rows of the record, 0 to 20; no more than fit
    std::vector<std::string> days;   ///< the next days at the bin, for the first rows
    UnitSystem units = UnitSystem::metric;  ///< US units: degrees F, and letter paper
};

/// The sheet of a bin: what its ration says, and nothing else about how much and when.
BinSheet bin_sheet_of(std::string name, const Ration& ration, UnitSystem units);

/// One page of plain text, at most 80 columns wide, in words that a ten-year-old reads: look,
/// feed, never, do not worry, tell a grown-up, stay clean, and the record a school or community
/// site keeps. Threads: pure.
std::string bin_sheet_text(const BinSheet& sheet);

/// The same page as HTML 5 for one side of A4, or of letter paper with US units, with nothing to
/// fetch; the rows of the record fill it.
std::string bin_sheet_html(const BinSheet& sheet);

}  // namespace feed::io
