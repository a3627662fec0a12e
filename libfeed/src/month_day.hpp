#pragma once
#include <optional>
#include <string_view>

#include "feed/diary/date.hpp"

namespace feed::io {

/// Takes a day of a month off the start of words ("10 Nov", "on Mon 30 Nov", "November 10th,
/// 2025"). Without a year it is the last such day up to `today`, or one that comes within two
/// months. Nothing, and the words as they are, where they do not begin so. Threads: pure.
std::optional<Date> take_month_day_at_start(std::string_view& words, Date today);
/// The same off their end ("fed 3 apples on 10 Nov").
std::optional<Date> take_month_day_at_end(std::string_view& words, Date today);

}  // namespace feed::io
