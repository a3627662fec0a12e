#pragma once
#include <string>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/screen.hpp"

namespace feed::io {

/// What a file means on a day: the lines of the ration of its bin, or of its heap, that fit in a
/// room.
/// Threads: pure.
std::vector<std::string> today_lines(const FeedFile& file, Date today,
                                     UnitSystem units = UnitSystem::metric,
                                     ScreenRoom room = first_screen);

}  // namespace feed::io
