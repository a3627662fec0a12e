#pragma once
#include <cstdint>

#include "feed/feedstock/classes.hpp"
#include "feed/feedstock/measure.hpp"
#include "feed/feedstock/property.hpp"
#include "feed/quantity/grade.hpp"

// Plain records of the embedded table. The generated header fills arrays of them; everything is
// constexpr, nothing is read or built at run time. Text is referred to by index so that the table
// needs few relocations. Use feed::find and feed::Feedstock rather than these.
namespace feed::table {

/// Where a number comes from. `sources` holds `ID:place` pairs parted by blanks ("USDA-SR26:09003
/// IFCT2017:E001"); `method` says how it was obtained ("read", "derived F1", "recalled",
/// "judgement").
struct Citation {
    const char* sources;
    const char* method;
};

/// One published source.
struct Source {
    const char* id;
    const char* citation;
    const char* covers;
    const char* licence;
    const char* status;
    const char* remark;
};

/// One value of one property of one feedstock, in the unit of its PropertyKind.
struct Value {
    double value;
    double low;
    double high;
    std::uint16_t citation;        ///< index into citations
    std::uint16_t range_citation;  ///< index into citations
    Property property;
    Grade grade;        ///< of the value
    Grade range_grade;  ///< of low and high; d where the range is the stated default of the group
};

/// Grams of wet material in one household measure, and what another one may weigh.
struct MeasureValue {
    double wet_grams;
    double low_grams;
    double high_grams;
    std::uint16_t citation;
    Measure measure;
    Grade grade;
};

/// One feedstock; its values, aliases and measures are slices of the flat arrays.
struct Feedstock {
    const char* id;
    const char* name;
    const char* note;         ///< what a keeper should know, or ""
    const char* preparation;  ///< how it is best prepared, or ""
    std::uint32_t cautions;   ///< bits of Caution
    std::uint16_t first_value;
    std::uint16_t first_measure;
    std::uint8_t value_count;
    std::uint8_t measure_count;
    std::uint8_t roles;  ///< bits of Role
    Group group;
    Stance stance;                ///< in a worm bed
    Stance heap_stance;           ///< in a small heap
    Stance stance_pre_composted;  ///< in a worm bed, after pre-composting
    DecayClass decay_class;
    /// Most grams of wet material at a time for each kg of worms, or 0 where nothing special is
    /// said.
    double most_wet_grams_per_kg_worms;
    std::uint16_t most_citation;
    const char* most_reason;  ///< what limits it ("nitrogen", "salt" ...), or ""
    const char* why_barred;   ///< why it is never fed, a few words, or ""
    const char* instead;      ///< where to go with it instead, or ""
    const char* sold_as;      ///< id of the row that it is made from, as that is sold, or ""
};

/// One name a keeper may type, lower case, words parted by one blank; sorted by text. `rank` 0 is
/// the first choice where a word names several parts of one plant ("apple": core 0, whole 1, flesh
/// 2); a word with one meaning has one entry of rank 0.
struct Alias {
    const char* text;
    const char* part;  ///< "core", "peel", "flesh", "whole" ... or "" for a word with one meaning
    std::uint16_t feedstock;
    std::uint8_t rank;
};

}  // namespace feed::table
