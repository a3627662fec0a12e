#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/blend/blend_properties.hpp"
#include "feed/blend/portion.hpp"
#include "feed/blend/take_out.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/screen.hpp"
#include "feed/quantity/amount_words.hpp"

// Pieces of text that several commands print.
namespace feed_command {

/// How one stored number is read by a person, in the units asked for.
std::string datum_text(const feed::PropertyKind& kind, double number, feed::io::UnitSystem units);

/// One line of a table of results: "  moisture        62 %        56 to 66 %       B".
std::string quantity_line(std::string_view name, std::string_view value, std::string_view range,
                          std::string_view grade);

/// All cautions of some portions, each a sentence with the names it belongs to, as the keeper calls
/// them; those that can hurt a person first, the two that concern the bed last.
/// @param labels  one a portion; empty: the names of the table.
std::vector<std::string> caution_lines(std::span<const feed::Portion> portions,
                                       std::span<const std::string> labels = {});
/// The same as a list under a heading; empty when there are none.
std::string cautions_text(std::span<const feed::Portion> portions,
                          std::span<const std::string> labels = {});

/// What stands before all else: what is never fed, and what a file feeds that is barred otherwise.
void add_first(std::span<const feed::TakeOut> take_out, std::span<const feed::Portion> portions,
               std::span<const std::string> labels, std::vector<feed::io::ScreenLine>& lines);
/// Portions as sentences, each on its line; more than five share lines.
void add_portions(std::span<const std::string> portions, std::vector<feed::io::ScreenLine>& lines);
/// Cautions of what can hurt a person.
void add_care(std::span<const feed::Portion> portions, std::span<const std::string> labels,
              std::vector<feed::io::ScreenLine>& lines);

/// What was assumed, as a short list in the units asked for; empty when nothing was.
/// @param labels  the keeper's own words for the portions, one each, which take the place of the
///                names of the table.
std::string assumed_text(std::span<const feed::Assumption> assumed, feed::io::UnitSystem units,
                         std::span<const feed::Portion> portions = {},
                         std::span<const std::string> labels = {});

/// The table of a blend's properties.
std::string properties_text(const feed::BlendProperties& blend, feed::io::UnitSystem units);

/// The worst grade among the numbers of a blend that were given.
feed::Grade worst_grade(const feed::BlendProperties& blend);

/// How a number of a grade came about, in a word or two: "read", "worked out", "recalled",
/// "judged". Static storage.
std::string_view how_sure(feed::Grade grade) noexcept;

/// "How sure: some numbers are from memory, or worked out from such."
std::string grade_text(feed::Grade grade);

}  // namespace feed_command
