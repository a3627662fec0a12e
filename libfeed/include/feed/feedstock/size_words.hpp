#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "feed/feedstock/count_text.hpp"

// Words that say how large or how full a measure is, and words that say no amount at all.
namespace feed::detail {

/// A word before a unit that says how full or large it is, with the share (grade D).
struct SizeWord {
    std::string_view word;
    double share, low, high;
};
inline constexpr SizeWord size_words[] = {
    {"heaped", 1.5, 1.2, 2.0},  {"heaping", 1.5, 1.2, 2.0},     {"rounded", 1.25, 1.1, 1.5},
    {"level", 1.0, 1.0, 1.0},   {"scant", 0.9, 0.8, 1.0},       {"generous", 1.2, 1.0, 1.5},
    {"big", 1.4, 1.0, 2.0},     {"large", 1.4, 1.0, 2.0},       {"huge", 1.8, 1.2, 2.5},
    {"small", 0.7, 0.4, 1.0},   {"little", 0.7, 0.4, 1.0},      {"tiny", 0.4, 0.2, 0.7},
    {"medium", 1.0, 0.8, 1.2},  {"good", 1.1, 1.0, 1.3},        {"full", 1.0, 1.0, 1.0},
    {"loose", 1.0, 0.8, 1.0},   {"overflowing", 1.3, 1.1, 1.6}, {"brimming", 1.1, 1.0, 1.3},
    {"massive", 1.8, 1.2, 2.5}, {"giant", 1.8, 1.2, 2.5},       {"hefty", 1.3, 1.0, 1.6},
    {"biggish", 1.2, 1.0, 1.5}, {"decent", 1.1, 1.0, 1.4},      {"wee", 0.6, 0.3, 0.9},
    {"mini", 0.4, 0.2, 0.7},    {"smallish", 0.8, 0.5, 1.0},    {"modest", 0.8, 0.6, 1.0},
    {"packed", 1.3, 1.0, 1.8},  {"filled", 1.0, 0.8, 1.0}};

/// How full a vessel is, said behind it, with the share (grade D).
inline constexpr SizeWord fill_phrases[] = {{"half full", 0.5, 0.4, 0.6},
                                            {"half filled", 0.5, 0.4, 0.6},
                                            {"a quarter full", 0.25, 0.15, 0.35},
                                            {"quarter full", 0.25, 0.15, 0.35},
                                            {"a third full", 0.33, 0.25, 0.45},
                                            {"third full", 0.33, 0.25, 0.45},
                                            {"two thirds full", 0.67, 0.55, 0.75},
                                            {"three quarters full", 0.75, 0.65, 0.85},
                                            {"nearly full", 0.9, 0.8, 1.0},
                                            {"almost full", 0.9, 0.8, 1.0},
                                            {"mostly full", 0.8, 0.6, 1.0},
                                            {"full to the brim", 1.0, 1.0, 1.1},
                                            {"full to the top", 1.0, 1.0, 1.1},
                                            {"filled to the brim", 1.0, 1.0, 1.1},
                                            {"filled", 1.0, 0.9, 1.0},
                                            {"full", 1.0, 1.0, 1.0}};

/// The share of a fill said at a place, and the place behind it; null where none is said.
inline const SizeWord* fill_at(std::string_view text, std::size_t at, std::size_t& end) {
    for (const SizeWord& fill : fill_phrases) {
        // "half-full" is two words to a hyphen.
        auto place = take_phrase(text, at, fill.word);
        if (!place && fill.word.substr(0, 5) == "half ") {
            place = take_word(text, at, "half");
            const bool joined = place && *place < text.size() && text[*place] == '-';
            place = joined ? take_word(text, *place + 1, fill.word.substr(5)) : std::nullopt;
        }
        if (!place) continue;
        end = *place;
        return &fill;
    }
    return nullptr;
}

/// Words for an amount that nobody can weigh from afar.
inline constexpr std::array<std::string_view, 32> vague_amounts{
    "lot",   "lots",   "plenty", "bit",     "bits",       "load",  "loads",  "pile",
    "piles", "heap",   "heaps",  "ton",     "tons",       "much",  "little", "truckload",
    "stack", "amount", "layer",  "dusting", "lump",       "lumps", "clump",  "clumps",
    "clod",  "wodge",  "mound",  "mounds",  "scattering", "mass",  "skip",   "skipload"};

}  // namespace feed::detail
