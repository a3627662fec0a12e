#pragma once
#include <vector>

#include "feed/blend/portion.hpp"
#include "feed/io/feed_file.hpp"

namespace feed_command {

/// The feeding that a file plans: its blend, else the first of its feedings from day 0 on.
/// Errors: the file plans none.
feed::Result<std::vector<feed::Portion>> planned_feeding(const feed::io::FeedFile& file);

}  // namespace feed_command
