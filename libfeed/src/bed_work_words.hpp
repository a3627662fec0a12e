#pragma once
// Sentences that a harvest and a refresh share, each made once.
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "feed/io/human_text.hpp"
#include "feed/ration/bed_work.hpp"

namespace feed::io {

/// "10 handfuls, about 500 g of corrugated cardboard".
std::string bedding_text(const BedChange& change, UnitSystem units);
/// "a third", "half", "30 %": as a note of it is read.
std::string share_text(double share);
/// "Put back 500 g of cardboard, damped with 2 L of water."; "" where no bedding goes in.
std::string put_back(const BedChange& change, UnitSystem units, std::string_view opening);
/// When feeding goes on, and how much in two weeks. @param day  from today; nothing: unknown.
std::string feeding_text(const BedAfter& after, std::optional<int> day, UnitSystem units);
/// What to write down when it is done; "" without a file or a change.
std::string note_line(const BedChange& change, UnitSystem units, std::string_view file);
/// "Check before: salty (watch). After: nothing."
std::string judged_text(const BedAfter& after);
/// Water and salt before and after.
std::string state_text(const BedAfter& after);
/// The assumptions as a list with its heading; "" where there are none.
std::string assumed_lines(const Ration& ration);

}  // namespace feed::io
