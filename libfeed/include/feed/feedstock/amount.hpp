#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "feed/feedstock/amount_reader.hpp"
#include "feed/quantity/error.hpp"

namespace feed {

/// An amount and the words after it ("6 piece" and "apple").
struct AmountAndWords {
    Amount amount;
    std::string words;
};

/// Reads an amount that fills the whole text: a number as people write or say it ("1.2", "1,5",
/// "1/2", a fraction sign, "half a", "two or three", "about 2", "1-2") and a unit: kg, g, mg,
/// tonne, lb, oz, stone; L, ml, US or imperial gallon, quart, pint, cup, fluid ounce, tablespoon,
/// teaspoon, ft3, yd3, m3 and the like; a household measure (piece, handful, sheet ...); a vessel
/// of the house of an assumed size (bucket, bowl ...); or a container the keeper declared, which
/// goes first. Two of a kind add up ("2 lb 3 oz"). What was taken for granted stands in `said`. A
/// range becomes the middle with its ends. Errors: empty, wrong_type (no number), not_a_number,
/// out_of_range (negative or zero), ambiguous_amount (both readings in the message),
/// low_above_high, unit_missing, unit_unknown (with the nearest unit). Threads: pure.
inline Result<Amount> parse_amount(std::string_view text,
                                   std::span<const Container> containers = {}) {
    const auto clean = detail::trim(text);
    const detail::AmountReader reader(clean, containers);
    auto read = reader.read(0);
    if (!read) return read.errors();
    const auto rest = detail::trim(clean.substr(read->end));
    if (read->counted && rest.empty())
        return offered(
            detail::amount_error(ErrorCode::unit_missing, clean, std::string(detail::amount_form),
                                 "\"" + std::string(clean) + "\" has no unit"),
            "; write for instance ", {std::string(clean) + " kg", std::string(clean) + " piece"});
    if (!rest.empty())
        return reader.unknown_unit(read->counted ? rest
                                                 : detail::trim(clean.substr(read->after_count)));
    return read->amount;
}

/// Reads an amount and the feedstock after it: "1.2 kg coffee grounds", "6 apples", "1/2 bucket of
/// leaves". The longest run of words that is a unit is the unit; without one it is a count. For
/// whole lists, amounts behind the name and questions see `read_things`.
/// Errors: those of parse_amount; empty when no feedstock follows.
inline Result<AmountAndWords> parse_amount_and_words(std::string_view text,
                                                     std::span<const Container> containers = {}) {
    const auto clean = detail::trim(text);
    const detail::AmountReader reader(clean, containers);
    auto read = reader.read(0);
    if (!read) return read.errors();
    std::string words(reader.words_after(read->end));
    if (words.empty() && read->counted)
        return detail::amount_error(ErrorCode::empty, clean, "an amount and a feedstock",
                                    "\"" + std::string(clean) + "\" names no feedstock");
    // "2 tea bags": where nothing is left for a name, the unit was the name.
    if (words.empty() && !read->amount.unit.empty() && read->unit_is_word)
        return AmountAndWords{reader.count_of(*read),
                              std::string(reader.words_after(read->after_count))};
    if (words.empty())
        return detail::amount_error(ErrorCode::empty, clean, "an amount and a feedstock",
                                    "\"" + std::string(clean) + "\" names no feedstock");
    return AmountAndWords{std::move(read->amount), std::move(words)};
}

}  // namespace feed
