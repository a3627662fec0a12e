#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace feed {

/// Household measures: the fixed list. A plain `piece` is the medium one.
enum class Measure : std::uint8_t {
    piece,
    piece_small,
    piece_large,
    cup,
    handful,
    sheet,
    slice,
    tablespoon,
    teaspoon,
    leaf,
    stalk,
    head,
    bunch,
    bag,  ///< as it is sold
};
inline constexpr std::size_t measure_count = 14;

/// The word of each measure in files and answers, in the order of the enumeration.
inline constexpr std::array<std::string_view, measure_count> measure_words{
    "piece",      "small piece", "large piece", "cup",   "handful", "sheet", "slice",
    "tablespoon", "teaspoon",    "leaf",        "stalk", "head",    "bunch", "bag"};

/// The word of a measure, singular.
constexpr std::string_view text(Measure measure) noexcept {
    return measure_words[static_cast<std::size_t>(measure)];
}

}  // namespace feed
