#pragma once
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "feed/diary/observation.hpp"
#include "feed/diary/sign_table.hpp"

namespace feed {

/// The key of an observation that words of a keeper stand for.
enum class SeenKey : std::uint8_t {
    nothing,  ///< a sign that a diary has no key for
    smell,
    squeeze,
    worms,
    vigour,
    gone,
    share_gone,  ///< in per cent
    pooling,
    temperature,  ///< in deg C
    pests,
};

namespace table {

inline constexpr std::int8_t no_sign = -1;

/// The number of a value of a key, as the rows hold it.
template <class Value>
constexpr std::int8_t value_of(Value value) noexcept {
    return static_cast<std::int8_t>(value);
}

/// One thing that can be seen, smelled or felt: what a diary keeps of it and which sign it is.
struct SeenRow {
    const char* name;   ///< the words that are suggested
    SeenKey key;        ///< of the observation
    std::int8_t value;  ///< an enumerator, per cent, deg C, or 1 for yes
    std::int8_t sign;   ///< of `Sign`, or no_sign
    const char* text;   ///< for `pests`, else ""
};

/// What one language says of it. Each list is a text of lines sorted by their words; what stands
/// behind "=" is the row, or the word that is compared instead.
struct SeenLanguage {
    std::string_view smell;       ///< the word for a smell, as it is compared
    std::string_view words;       ///< in the singular; without idle words where that is plain
    std::string_view same;        ///< other words and forms of a word
    std::string_view vocabulary;  ///< every word of `words`
    std::string_view idle;        ///< words that say nothing beside others
    std::string_view negations;   ///< words that turn what stands beside them into its opposite
};

/// A list without the zero at its end.
template <std::size_t size>
constexpr std::string_view lines_in(const char (&text)[size]) noexcept {
    return {text, size - 1};
}

}  // namespace table

}  // namespace feed
