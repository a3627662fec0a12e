#pragma once
#include <string>
#include <vector>

#include "feed/io/bin_start.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/io/screen.hpp"
#include "feed/ration/new_bin.hpp"

namespace feed::io {

/// How to set a new bin up, in the order in which it is done, and the first rations by date, as far
/// as the room goes: what to put in and when always stays. Threads: pure.
std::vector<std::string> new_bin_lines(const NewBin& bin, UnitSystem units,
                                       ScreenRoom room = first_screen);

/// Writes the same as a value of `json`.
void write_new_bin(JsonWriter& json, const NewBin& bin, UnitSystem units);
/// Writes the text of a started file and, under "new_bin", how to set the bin up (null where it has
/// its bedding), as members of the open object of `json`.
void write_started(JsonWriter& json, const StartedBin& started, UnitSystem units);

}  // namespace feed::io
