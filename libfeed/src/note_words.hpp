#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "feed/diary/observation.hpp"
#include "feed/quantity/error.hpp"

namespace feed::io {

/// What one piece of a note says was seen ("half gone", "smell sour", "24 C"): an observation with
/// that alone. Errors: out_of_range with the nearest words that are understood; those of its
/// quantity.
Result<Observation> read_seen(std::string_view piece);

/// Adds what one piece says to the others. The name of the key that both say differently, or
/// nothing.
std::optional<std::string> merge_seen(Observation& all, const Observation& one);

}  // namespace feed::io
