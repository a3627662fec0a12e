#pragma once
#include <cstdint>
#include <optional>
#include <string_view>

#include "feed/diary/date.hpp"

namespace feed::io {

/// The weekday that a word names by three letters or more ("Thu"), Thursday being 0 as in
/// `weekday_number`; nothing where it names none. Threads: pure.
std::optional<std::int64_t> weekday_named(std::string_view word);

/// Takes the day from either end of the words of a note: "yesterday", "today", "on Monday" (the
/// last one), "2 days ago", a date. @param words  becomes the rest. @param today  the day where the
/// words say none. Words of the keeper's own ("note ...") keep their end. Threads: pure.
Date take_day(std::string_view& words, Date today);

}  // namespace feed::io
