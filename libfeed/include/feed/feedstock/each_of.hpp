#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "feed/feedstock/amount_reader.hpp"

// "500 g each of apples and pears": one amount for several things.
namespace feed::detail {

/// The place of a word in any case with blanks or ends around it, or npos.
inline std::size_t place_of_word(std::string_view text, std::string_view word) noexcept {
    for (std::size_t at = 0; at + word.size() <= text.size(); ++at) {
        if ((at == 0 || is_blank(text[at - 1])) && take_word(text, at, word)) return at;
    }
    return std::string_view::npos;
}

/// Whether a text is an amount and nothing more ("500 g", "two").
inline bool is_only_amount(std::string_view text, std::span<const Container> containers) {
    const AmountReader reader(text, containers);
    const auto read = reader.read(0);
    return read && !read->no_count && reader.words_after(read->end).empty();
}

/// An amount that is meant for each of several things, and the list of them.
struct EachOf {
    std::string_view amount;
    std::string_view things;
};

/// "500 g each of apples and pears", "apples and pears, 500 g each"; nothing where a text says
/// anything else. Time: linear; only a text with the word "each" is read further.
inline std::optional<EachOf> each_of(std::string_view text, std::span<const Container> containers) {
    const auto each = place_of_word(text, "each");
    if (each == std::string_view::npos) return std::nullopt;
    const std::string_view before = trim(text.substr(0, each));
    const std::string_view after = trim(text.substr(each + 4));
    if (const auto of = take_word(after, 0, "of"); of && is_only_amount(before, containers))
        return EachOf{before, trim(after.substr(*of))};
    if (!after.empty()) return std::nullopt;
    // The amount is the longest end of what stands before.
    for (std::size_t at = 1; at < before.size(); ++at) {
        if (!is_blank(before[at - 1]) || is_blank(before[at])) continue;
        const auto amount = before.substr(at);
        if (is_only_amount(amount, containers)) return EachOf{amount, before.substr(0, at)};
    }
    return std::nullopt;
}

}  // namespace feed::detail
