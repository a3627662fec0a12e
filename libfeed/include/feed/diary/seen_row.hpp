#pragma once
#include <cstdint>

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

/// Words that stand for a row: in the singular, without those that say nothing.
struct SeenWords {
    const char* words;
    std::uint16_t row;
};

/// A word that is compared as another one.
struct SameWord {
    const char* word;
    const char* same_as;
};

}  // namespace table

}  // namespace feed
