#pragma once
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/feedstock/names.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/quantity/sorted.hpp"

namespace feed {

namespace detail {

inline bool is_barred(std::size_t index) noexcept {
    return table::feedstocks[index].stance == Stance::avoid;
}

/// Whether two keys differ by one letter of one word; their words are sorted, so that a slip of a
/// first letter may move one.
inline bool differ_by_a_letter(std::string_view key, std::string_view known) {
    if (edit_distance(key, known) <= 1) return true;
    auto words = words_of(key);
    auto others = words_of(known);
    if (words.size() != others.size()) return false;
    for (auto word = words.begin(); word != words.end();) {
        const auto same = std::find(others.begin(), others.end(), *word);
        if (same == others.end()) {
            ++word;
            continue;
        }
        others.erase(same);
        word = words.erase(word);
    }
    return words.size() == 1 && edit_distance(words.front(), others.front()) <= 1;
}

/// The feedstock with a name in any language that is one letter away from a key, on one side of
/// the border.
inline std::optional<std::size_t> one_letter_from_key(std::string_view key, bool barred) {
    const std::uint32_t letters = letters_of(key);
    for (const auto& language : languages) {
        for (const auto& name : language.names) {
            if (is_barred(name.feedstock) != barred) continue;
            const std::string_view known = name.key;
            if (known.size() > key.size() + 1 || key.size() > known.size() + 1) continue;
            std::uint32_t differing = letters ^ letters_of(known);
            std::size_t count = 0;
            for (; differing != 0 && count <= 2; ++count)
                differing &= differing - 1;
            if (count <= 2 && differ_by_a_letter(key, known)) return name.feedstock;
        }
    }
    return std::nullopt;
}

/// A feedstock on one side of the border, barred or not, with a name in any language that is one
/// letter away from a text; nothing where there is none. Other than for a slip that is mended, the
/// first letter may differ too. Time: two passes over the names.
inline std::optional<std::size_t> one_letter_from(std::string_view text, bool barred) {
    const std::string key = key_of(name_words(text));
    if (const auto found = one_letter_from_key(key, barred)) return found;
    // "fres" is no plural of "fre": the words as they stand.
    std::vector<std::string> words = words_of(plain_text(text));
    words.erase(std::remove_if(words.begin(), words.end(), is_joining_word), words.end());
    const std::string written = key_of(std::move(words));
    return written == key ? std::nullopt : one_letter_from_key(written, barred);
}

/// How like each word of the vocabulary is to one of the words wanted: 1 the same, less for a slip
/// or a beginning, 0 for nothing in common.
inline std::vector<double> likeness_of_vocabulary(const std::vector<std::string>& wanted) {
    std::vector<double> likeness(table::en::vocabulary.size(), 0.0);
    for (const auto& word : wanted) {
        // A word that names use is no slip of another one.
        const bool known_word = has_word(table::en::vocabulary, word);
        const std::size_t allowed =
            known_word ? 0 : slips_allowed(word.size()) + (word.size() >= 5 ? 1 : 0);
        for (std::size_t i = 0; i < likeness.size(); ++i) {
            const std::string_view known = table::en::vocabulary[i];
            double like = 0.0;
            if (known == word)
                like = 1.0;
            else if (word.size() >= 4 && known.substr(0, word.size()) == word)
                like = 0.6;
            else if (allowed > 0 && known[0] == word[0]) {
                const std::size_t slips = slips_between(word, known, allowed);
                if (slips <= allowed) like = 0.95 - 0.15 * static_cast<double>(slips);
            }
            likeness[i] = std::max(likeness[i], like);
        }
    }
    return likeness;
}

/// Whether a name, as it is shown, has a word like one that was wanted: else whoever reads it does
/// not know what it has to do with what was written.
inline bool shows_a_word(std::size_t index, const std::vector<double>& likeness) {
    const std::vector<std::string> shown = name_words(feedstock_name(index));
    return std::any_of(shown.begin(), shown.end(), [&](const std::string& word) {
        const auto place = place_of_word(table::en::vocabulary, word);
        return place && likeness[*place] >= 0.5;
    });
}

}  // namespace detail

/// Places of up to `most` feedstocks of the table whose names are spelled or composed most like the
/// words, nearest first; ties in table order. All of them may be fed, or none of them: the nearest
/// one decides, so that a suggestion never leads from the harmless to the barred or back. What is
/// not very near is named only where its name, as it is shown, has a word of those. Time: a
/// pass over the words of the names; for errors only.
inline std::vector<std::size_t> nearest_feedstocks(std::string_view words, std::size_t most) {
    if (words.size() > detail::longest_name) return {};
    auto wanted = detail::name_words(words);
    if (wanted.empty()) return {};
    if (wanted.size() > 6) wanted.resize(6);
    const auto likeness = detail::likeness_of_vocabulary(wanted);
    std::vector<double> best(feedstock_count(), 2.0);
    for (const auto& name : table::en::name_keys) {
        double shared = 0.0;
        for (std::size_t i = 0; i < name.word_count; ++i)
            shared += likeness[table::en::key_words[name.first_word + i]];
        if (shared < 0.5) continue;
        const double all = static_cast<double>(wanted.size() + name.word_count) - shared;
        best[name.feedstock] =
            std::min(best[name.feedstock], 1.0 - shared / all + 0.001 * name.rank);
    }
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        if (best[i] < 0.9) order.push_back(i);
    }
    detail::sort_by(order, [&](std::size_t at) { return best[at]; });
    // A slip of one letter decides before words that are the same; what is barred before the rest.
    const bool likely_barred = !order.empty() && detail::is_barred(order.front());
    auto slip = detail::one_letter_from(words, true);
    if (!slip && likely_barred) slip = detail::one_letter_from(words, false);
    const bool barred = slip ? detail::is_barred(*slip) : likely_barred;
    std::vector<std::size_t> nearest;
    if (slip && most > 0) {
        nearest.push_back(*slip);
        order.erase(std::remove(order.begin(), order.end(), *slip), order.end());
    }
    constexpr double very_near = 0.35;  // most of the words of some name, well spelled
    for (const auto index : order) {
        if (nearest.size() == most) break;
        if (detail::is_barred(index) == barred &&
            (best[index] < very_near || detail::shows_a_word(index, likeness)))
            nearest.push_back(index);
    }
    return nearest;
}

/// The names of `nearest_feedstocks`.
inline std::vector<std::string> nearest_names(std::string_view words, std::size_t most) {
    std::vector<std::string> names;
    for (const auto index : nearest_feedstocks(words, most))
        names.emplace_back(feedstock_name(index));
    return names;
}

}  // namespace feed
