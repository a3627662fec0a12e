#pragma once
#include <optional>

#include "arguments.hpp"
#include "feed/diary/date.hpp"

namespace feed_command {

/// Today where the keeper is. Where SOURCE_DATE_EPOCH is set (seconds since 1970, as reproducible
/// builds use it), the day it names in UTC.
feed::Date today();

/// The day a call speaks of: --date, else today. Errors: out_of_range for no day of the calendar.
feed::Result<feed::Date> date_of_call(const Arguments& arguments);

/// The problem of a date that lies ahead, unless --force takes it: most often a slip.
std::optional<feed::Error> lies_ahead(feed::Date date, const Arguments& arguments);

}  // namespace feed_command
