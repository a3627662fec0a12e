#pragma once
#include "pantry.hpp"

namespace feed::io {

/// Reads a list like the section `feedings`, which errors call `list`; problems are reported.
std::vector<DatedFeeding> read_feedings(Pantry& pantry, YamlView at, std::string_view list);

/// Reads the section `stock` into the file; problems are reported.
void read_stock(Pantry& pantry, FeedFile& file, YamlView at);

/// Reads a list like the section `observations` of a bin that has no numbered plots of its own: the
/// looks at the plots of a trial stand in the file's. Problems are reported.
std::vector<Observation> read_bin_looks(Pantry& pantry, YamlView at, std::string_view list);

/// Reads the section `observations` into the file; problems are reported.
void read_observations(Pantry& pantry, FeedFile& file, YamlView at);

}  // namespace feed::io
