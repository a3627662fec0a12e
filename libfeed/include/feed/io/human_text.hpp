#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "feed/quantity/basis.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/estimate.hpp"
#include "feed/quantity/unit_system.hpp"
#include "feed/quantity/units.hpp"

namespace feed::io {

using feed::UnitSystem;

// Numbers have two significant digits (number_print.hpp). Everything here is pure and reads no
// locale.

/// "170 g", "1.2 kg"; "6 oz", "2.6 lb".
std::string mass_text(Mass mass, UnitSystem units);
/// "250 ml", "3 L"; "1.1 cups", "2.1 gal".
std::string volume_text(Volume volume, UnitSystem units);
/// "21 C"; "70 F".
std::string temperature_text(Temperature temperature, UnitSystem units);
/// "450 kg/m3"; "28 lb/ft3".
std::string density_text(Density density, UnitSystem units);
/// "30 cm", "1.2 m"; "12 in", "3.9 ft".
std::string length_text(Length length, UnitSystem units);
/// "78 %", "0.4 %"; fraction from 0 to 1.
std::string percent_text(double fraction);
/// "30:1, carbon to nitrogen by mass".
std::string cn_ratio_text(double ratio);

/// A text broken at blanks into lines of at most `width` columns. The first line starts with
/// `first_indent` blanks, the others with `indent`. Words longer than a line stay whole. Columns
/// are counted in code points. Ends in a line feed.
std::string wrapped(std::string_view text, std::size_t first_indent, std::size_t indent,
                    std::size_t width = 80);
/// A text filled up with blanks to `columns` code points.
std::string padded(std::string_view text, std::size_t columns);
/// Number of code points of a UTF-8 text.
std::size_t columns_of(std::string_view text) noexcept;

/// "a", "a and b", "a, b and c"; the last word may be "or".
std::string joined(const std::vector<std::string>& parts, std::string_view last = "and");

/// A text with a capital first, where that is a letter a to z.
std::string capital(std::string text);

/// "1 thing", "2 things": English plural with an s.
std::string counted(std::size_t number, std::string_view thing);

/// All problems, one paragraph each, for a person at a terminal:
/// "kitchen.yaml:4:5: moisture: MESSAGE" and below it what was given and what is allowed.
std::string errors_text(const Errors& errors);

}  // namespace feed::io
