#pragma once
#include <optional>

#include "feed/bed/bed.hpp"
#include "feed/diary/date.hpp"
#include "pantry.hpp"

namespace feed::io {

/// Reads a mapping like the section `bed` into a diary; problems are reported.
void read_bed(Pantry& pantry, Diary& diary, YamlView at, std::string field = "bed");

/// A date such as 2026-03-14; reports anything else.
std::optional<Date> read_date(Reading& reading, YamlView at, const std::string& field);
/// One temperature, a range or a list of daily ones.
BedTemperature read_temperature(Reading& reading, YamlView at, const std::string& field);

}  // namespace feed::io
