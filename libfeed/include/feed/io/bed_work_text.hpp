#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/human_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/ration/harvest.hpp"
#include "feed/ration/refresh.hpp"

namespace feed::io {

/// The first screen of a harvest. Where the bed needs a step first it is that of the ration.
/// @param file  name of the file, for the note that it asks for; "" leaves the note out.
/// Threads: pure.
std::vector<std::string> harvest_lines(const HarvestAnswer& answer, UnitSystem units,
                                       std::string_view file, ScreenRoom room = first_screen);
/// What is behind it: what was reckoned, every way, harvests so far, sources.
std::string harvest_why(const HarvestAnswer& answer, UnitSystem units);

/// The first screen of a refresh. @param file  as above.
std::vector<std::string> refresh_lines(const RefreshAnswer& answer, const RefreshOptions& options,
                                       UnitSystem units, std::string_view file,
                                       ScreenRoom room = first_screen);
/// What is behind it: every hazard before and after, salt and wetness, what was assumed.
std::string refresh_why(const RefreshAnswer& answer, UnitSystem units);

/// A change as the words of a note: "took out half with the worms, bedding 1.2 kg straw, added
/// water 3 L"; "" where nothing is done. The note of them gives the same bed. Threads: pure.
std::string note_of(const BedChange& change, UnitSystem units);

/// "a third", "half", "30 %". Errors: out_of_range outside a tenth to three quarters.
Result<double> share_of_bed(std::string_view words, std::string_view field);
/// The way of a harvest, or the change of a refresh, by its word. Errors: out_of_range.
Result<HarvestWay> harvest_way(std::string_view word, std::string_view field);
Result<RefreshChange> refresh_change(std::string_view word, std::string_view field);

}  // namespace feed::io
