#pragma once
#include <string>
#include <vector>

#include "feed/diary/date.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"

namespace feed::io {

/// What a bin's file means on a day: the ration's first screen, in lines.
/// Threads: pure.
std::vector<std::string> today_lines(const FeedFile& file, Date today,
                                     UnitSystem units = UnitSystem::metric);

}  // namespace feed::io
