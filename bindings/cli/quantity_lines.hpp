#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "feed/blend/blend_properties.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/io/human_text.hpp"
#include "feed/quantity/amount_words.hpp"

// Pieces of text that several commands print.
namespace feed_command {

/// How one stored number is read by a person, in the units asked for.
std::string datum_text(const feed::PropertyKind& kind, double number, feed::io::UnitSystem units);

/// One line of a table of results: "  moisture        62 %        56 to 66 %       B".
std::string quantity_line(std::string_view name, std::string_view value, std::string_view range,
                          std::string_view grade);

/// Cautions of some feedstocks, each once with the names it belongs to; empty when there are none.
std::string cautions_text(std::span<const feed::Feedstock* const> feedstocks);

/// What was assumed, as a short list in the units asked for; empty when nothing was.
std::string assumed_text(std::span<const feed::Assumption> assumed, feed::io::UnitSystem units);

/// The table of a blend's properties.
std::string properties_text(const feed::BlendProperties& blend, feed::io::UnitSystem units);

/// The worst grade among the numbers of a blend that were given.
feed::Grade worst_grade(const feed::BlendProperties& blend);

/// "Leans on grade C: recalled, or derived from a recalled value."
std::string grade_text(feed::Grade grade);

/// What must be taken out, before all else; empty where nothing must.
std::string take_out_text(std::span<const feed::TakeOut> take_out);
/// What a file feeds that is barred otherwise; empty where it feeds none.
std::string lifted_text(std::span<const feed::Feedstock* const> feedstocks);

}  // namespace feed_command
