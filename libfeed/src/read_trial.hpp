#pragma once
#include "pantry.hpp"

namespace feed::io {

/// Reads the `trial` section of a feed file into `file.trial`; reports problems.
void read_trial_section(Pantry& pantry, FeedFile& file, YamlView at);

}  // namespace feed::io
