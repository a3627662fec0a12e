#pragma once
#include <string>

#include "feed/diary/observation.hpp"

namespace feed::io {

/// A text between double quotation marks as YAML writes it: whatever people type stays a text.
std::string yaml_text(std::string_view words);

/// An observation as an entry of `observations` in a feed file (YAML), starting with "- date:" and
/// ending in a line feed. Only what was seen is written; the people's own words are quoted, so that
/// no text can change the structure of the file. Keys: keys::observation.
/// @param indent  blanks before the dash.
/// Threads: pure.
std::string observation_yaml(const Observation& observation, int indent = 2);

}  // namespace feed::io
