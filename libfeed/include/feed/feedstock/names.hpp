#pragma once
#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/generated/names_en.hpp"
#include "feed/quantity/plain_text.hpp"
#ifndef FEED_ENGLISH_ONLY
#include "feed/feedstock/generated/names_de.hpp"
#include "feed/feedstock/generated/names_es.hpp"
#include "feed/feedstock/generated/names_fr.hpp"
#endif

namespace feed::detail {

/// The words of one language. Define FEED_ENGLISH_ONLY to leave the other languages out.
struct Language {
    std::string_view code;
    std::span<const table::NameKey> names;
    std::span<const table::UnitWord> units;
    std::span<const table::NumberWord> numbers;
};

/// A list of the table whatever its length: spans made of arrays cost compile time for each length.
template <class Entry, std::size_t Size>
constexpr std::span<const Entry> listed(const std::array<Entry, Size>& entries) noexcept {
    return {entries.data(), Size};
}

/// English first: a word that two languages have is the English one.
inline constexpr Language languages[] = {
    {"en", listed(table::en::name_keys), listed(table::en::unit_words),
     listed(table::en::number_words)},
#ifndef FEED_ENGLISH_ONLY
    {"de", listed(table::de::name_keys), listed(table::de::unit_words),
     listed(table::de::number_words)},
    {"fr", listed(table::fr::name_keys), listed(table::fr::unit_words),
     listed(table::fr::number_words)},
    {"es", listed(table::es::name_keys), listed(table::es::unit_words),
     listed(table::es::number_words)},
#endif
};

/// What is longer is no name; it would only cost time.
inline constexpr std::size_t longest_name = 100;

/// The place of a word in a sorted list of the table, or nothing.
template <std::size_t Size>
std::optional<std::size_t> place_of_word(const std::array<const char*, Size>& words,
                                         std::string_view word) noexcept {
    const auto at = std::lower_bound(
        words.begin(), words.end(), word,
        [](const char* one, std::string_view other) { return std::string_view(one) < other; });
    if (at == words.end() || std::string_view(*at) != word) return std::nullopt;
    return static_cast<std::size_t>(at - words.begin());
}

/// Whether a sorted list of the table has a word.
template <std::size_t Size>
bool has_word(const std::array<const char*, Size>& words, std::string_view word) noexcept {
    return place_of_word(words, word).has_value();
}

/// Whether a word, in the singular, joins others and means nothing by itself.
inline bool is_joining_word(std::string_view word) noexcept {
    return has_word(table::en::joining_words, word);
}

/// The places in a sorted list of the table of the words with the first letter of a word: few
/// people miss the first letter; with another one it is another word.
template <std::size_t Size>
std::pair<std::size_t, std::size_t> places_with_first_letter(
    const std::array<const char*, Size>& words, std::string_view word) noexcept {
    if (word.empty()) return {0, 0};
    const auto first = std::lower_bound(words.begin(), words.end(), word[0],
                                        [](const char* one, char other) { return *one < other; });
    const auto last = std::upper_bound(first, words.end(), word[0],
                                       [](char other, const char* one) { return other < *one; });
    return {static_cast<std::size_t>(first - words.begin()),
            static_cast<std::size_t>(last - words.begin())};
}

/// What a sorted list of the table has for a text, or null.
inline const table::NumberWord* number_of(std::span<const table::NumberWord> known,
                                          std::string_view text) noexcept {
    const auto at = std::lower_bound(known.begin(), known.end(), text,
                                     [](const table::NumberWord& one, std::string_view other) {
                                         return std::string_view(one.text) < other;
                                     });
    return at != known.end() && std::string_view(at->text) == text ? &*at : nullptr;
}

/// The words of a name in the singular and in their order, without those that join; all of them
/// where there are no others (French tea is "the").
inline std::vector<std::string> name_words(std::string_view text) {
    std::vector<std::string> kept;
    std::vector<std::string> joining;
    for (const auto& word : words_of(plain_text(text))) {
        auto one = singular(word);
        (is_joining_word(one) ? joining : kept).push_back(std::move(one));
    }
    return kept.empty() ? joining : kept;
}

/// The key under which the table knows a name: its words sorted.
inline std::string key_of(std::vector<std::string> words) {
    std::sort(words.begin(), words.end());
    std::string key;
    for (const auto& word : words) {
        if (!key.empty()) key += ' ';
        key += word;
    }
    return key;
}

/// The key of a text: its words in the singular, sorted, without those that join ("peel of a
/// banana" is "banana peel").
inline std::string name_key(std::string_view text) {
    return key_of(name_words(text));
}

/// The entries of one language with a key.
inline std::span<const table::NameKey> names_with_key(std::span<const table::NameKey> names,
                                                      std::string_view key) noexcept {
    const auto first = std::lower_bound(
        names.begin(), names.end(), key,
        [](const table::NameKey& name, std::string_view text) { return name.key < text; });
    auto last = first;
    while (last != names.end() && std::string_view(last->key) == key)
        ++last;
    return {first, last};
}

/// A bit for each letter that a text has an odd number of times.
constexpr std::uint32_t odd_letters_of(std::string_view text) noexcept {
    std::uint32_t odd = 0;
    for (const char c : text)
        odd ^= std::uint32_t{1} << (static_cast<unsigned char>(c) & 31U);
    return odd;
}

/// Whether texts may be so many slips apart, by their odd letters: one changes at most two of them.
constexpr bool may_be_slips(std::uint32_t odd, std::uint32_t other, std::size_t slips) noexcept {
    std::uint32_t differing = odd ^ other;
    for (std::size_t i = 0; i < 2 * slips; ++i)
        differing &= differing - 1;
    return differing == 0;
}

/// How many letters of a word may be wrong.
constexpr std::size_t slips_allowed(std::size_t length) noexcept {
    return length >= 8 ? 2 : length >= 4 ? 1 : 0;
}

/// Letters that differ between a word and a known one, or more than `allowed`.
inline std::size_t slips_between(std::string_view word, std::string_view known,
                                 std::size_t allowed) {
    const std::size_t gap =
        word.size() > known.size() ? word.size() - known.size() : known.size() - word.size();
    if (gap > allowed) return allowed + 1;
    if (!may_be_slips(odd_letters_of(word), odd_letters_of(known), allowed)) return allowed + 1;
    return edit_distance(word, known);
}

}  // namespace feed::detail
