#pragma once
#include "pantry.hpp"

namespace feed::io {

/// Reads the section `feedings` into the file; problems are reported.
void read_feedings(Pantry& pantry, FeedFile& file, YamlView at);

/// Reads the section `observations` into the file; problems are reported.
void read_observations(Reading& reading, FeedFile& file, YamlView at);

}  // namespace feed::io
