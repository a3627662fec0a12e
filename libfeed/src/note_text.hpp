#pragma once
#include <algorithm>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "feed/quantity/error.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

// How the words of a note are looked at.
namespace feed::io {

inline Error note_error(ErrorCode code, std::string_view words, std::string allowed,
                        std::string message) {
    return make_error(code, "note", std::string(words), std::move(allowed), std::move(message));
}

/// Does a text begin with a word, in any case?
inline bool begins_with(std::string_view text, std::string_view word) {
    return text.size() >= word.size() && plain_text(text.substr(0, word.size())) == word &&
           (text.size() == word.size() || text[word.size()] == ' ' || text[word.size()] == ':');
}

/// Whether a text has one of some words, each given in the singular.
inline bool has_one_of(std::string_view text, std::initializer_list<std::string_view> words) {
    const auto said = words_of(plain_text(text));
    return std::any_of(said.begin(), said.end(), [&](const std::string& word) {
        return std::find(words.begin(), words.end(), singular(word)) != words.end();
    });
}

/// Whether a character stands between the parts of a note.
inline bool parts_words(char c) {
    return c == ' ' || c == ':' || c == ',';
}

/// The text without words at its end, in any case; nothing where they do not stand there.
inline std::optional<std::string_view> without_end(std::string_view text, std::string_view words) {
    if (text.size() <= words.size()) return std::nullopt;
    const std::size_t at = text.size() - words.size();
    if (!parts_words(text[at - 1]) || plain_text(text.substr(at)) != words) return std::nullopt;
    text = text.substr(0, at);
    while (!text.empty() && parts_words(text.back()))
        text.remove_suffix(1);
    return text;
}

/// The words behind a word of that length.
inline std::string_view without(std::string_view text, std::size_t length) {
    text.remove_prefix(length);
    if (!text.empty() && text.front() == ':') text.remove_prefix(1);
    return detail::trim(text);
}

}  // namespace feed::io
