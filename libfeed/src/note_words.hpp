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

/// A piece whose first word is a slip of letters of one that notes open with ("temprature 24 C"),
/// mended; as it is where it is none, or where two are as near.
std::string without_slip(std::string_view piece);

/// What was added where that is food ("added 3 apples"); nothing where it is bedding or water.
std::optional<std::string_view> added_food(std::string_view words);

/// Adds what one piece says to the others. The name of the key that both say differently, or
/// nothing.
std::optional<std::string> merge_seen(Observation& all, const Observation& one);

}  // namespace feed::io
