#pragma once
#include "pantry.hpp"

namespace feed::io {

/// Reads the section `feedstocks` into the file; problems are reported.
void read_feedstocks(Pantry& pantry, FeedFile& file, YamlView at);

}  // namespace feed::io
