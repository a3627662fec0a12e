#pragma once
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
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

/// Feedstocks whose names are one letter away from a text, on either side of the border.
struct OneLetterAway {
    std::optional<std::size_t> harmless;
    std::optional<std::size_t> barred;

    const std::optional<std::size_t>& on_side(bool of_barred) const {
        return of_barred ? barred : harmless;
    }
};

/// A key that is held against names.
struct ComparedKey {
    std::string key;
    std::uint32_t odd_letters = 0;

    explicit ComparedKey(std::string text)
        : key(std::move(text)), odd_letters(odd_letters_of(key)) {}

    bool is_as_long_as(std::string_view known) const noexcept {
        return known.size() <= key.size() + 1 && key.size() <= known.size() + 1;
    }
};

/// The keys that a text may have been meant to have: its own; that of its words as they stand, as
/// "fres" is no plural of "fre"; that with the words that join, as "an" may be a slip of "en".
inline std::vector<ComparedKey> keys_meant(std::string_view text) {
    std::vector<std::string> written = words_of(plain_text(text));
    std::vector<std::string> joined;
    joined.reserve(written.size());
    for (const auto& word : written)
        joined.push_back(singular(word));
    const auto joins = [](const std::string& word) { return is_joining_word(singular(word)); };
    written.erase(std::remove_if(written.begin(), written.end(), joins), written.end());
    std::vector<ComparedKey> keys;
    for (auto key : {name_key(text), key_of(std::move(written)), key_of(std::move(joined))}) {
        const bool seen = std::any_of(keys.begin(), keys.end(),
                                      [&](const ComparedKey& one) { return one.key == key; });
        if (!seen) keys.emplace_back(std::move(key));
    }
    return keys;
}

/// Whether a name is one letter away from one of some keys.
inline bool is_one_letter_from(std::span<const ComparedKey> keys, std::string_view known) {
    const auto as_long = [&](const ComparedKey& key) { return key.is_as_long_as(known); };
    if (std::none_of(keys.begin(), keys.end(), as_long)) return false;
    const std::uint32_t odd = odd_letters_of(known);
    return std::any_of(keys.begin(), keys.end(), [&](const ComparedKey& key) {
        return may_be_slips(key.odd_letters, odd, 1) && as_long(key) &&
               differ_by_a_letter(key.key, known);
    });
}

/// What has a name in any language that is one letter away from a text, the first of either side.
/// Other than for a slip that is mended, the first letter may differ too. Time: a pass over the
/// names. Threads: any.
inline OneLetterAway one_letter_from(std::string_view text) {
    OneLetterAway found;
    const auto keys = keys_meant(text);
    for (const auto& language : languages) {
        for (const auto& name : language.names) {
            if (!is_one_letter_from(keys, name.key)) continue;
            auto& side = is_barred(name.feedstock) ? found.barred : found.harmless;
            if (!side) side = name.feedstock;
        }
    }
    return found;
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
        const auto [first, last] = places_with_first_letter(table::en::vocabulary, word);
        for (std::size_t i = first; i < last; ++i) {
            const std::string_view known = table::en::vocabulary[i];
            double like = 0.0;
            if (known == word)
                like = 1.0;
            else if (word.size() >= 4 && known.substr(0, word.size()) == word)
                like = 0.6;
            else if (allowed > 0) {
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
    const auto one_letter = detail::one_letter_from(words);
    const auto& slip =
        one_letter.barred || !likely_barred ? one_letter.barred : one_letter.harmless;
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
