#pragma once
#include <optional>

#include "pantry.hpp"

namespace feed::io {

/// Reads the section `balance`. Returns nothing when it has problems; they are reported.
std::optional<WrittenBalance> read_balance(Pantry& pantry, const FeedFile& file, YamlView at);

}  // namespace feed::io
