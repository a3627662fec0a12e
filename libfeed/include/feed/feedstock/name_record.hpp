#pragma once
#include <cstdint>

// Plain records of the embedded names. The generated headers fill arrays of them, one header a
// language; everything is constexpr. Use feed::look_up and feed::read_things rather than these.
namespace feed::table {

/// One name of a feedstock. The key is what `feed::detail::name_key` makes of it. `rank` 0 is the
/// first choice where a word names several parts or materials; equal ranks are asked about.
struct NameKey {
    const char* key;
    const char* part;    ///< "core", "peel", "whole" ... or "" for a word with one meaning
    const char* remark;  ///< what is said when the name is taken, or ""
    std::uint16_t feedstock;
    std::uint16_t first_word;  ///< place in key_words; English only
    std::uint8_t word_count;
    std::uint8_t rank;
};

/// A word of another language, or of the kitchen, for a unit of amount_units.hpp.
struct UnitWord {
    const char* text;
    const char* unit;
};

/// A word for a number, with its range where it is a loose one ("few").
struct NumberWord {
    const char* text;
    double value;
    double low;
    double high;
};

}  // namespace feed::table
