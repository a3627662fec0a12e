#pragma once
#include <string>

#include "feed/bed/bed.hpp"
#include "reading.hpp"

namespace feed::io {

/// The container of a bed: a kind ("tote"), a size with a kind ("60 L tote", "60 x 40 x 30 cm
/// box"), so many trays, or a mapping; problems are reported.
BedContainer read_container(Reading& reading, YamlView at, const std::string& field);

}  // namespace feed::io
