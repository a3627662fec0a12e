#pragma once
#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "feed/feedstock/names.hpp"
#include "feed/feedstock/table.hpp"

namespace feed {

namespace detail {

inline bool is_barred(std::size_t index) noexcept {
    return table::feedstocks[index].stance == Stance::avoid;
}

/// How like each word of the vocabulary is to one of the words wanted: 1 the same, less for a slip
/// or a beginning, 0 for nothing in common.
inline std::vector<double> likeness_of_vocabulary(const std::vector<std::string>& wanted) {
    std::vector<double> likeness(vocabulary_size, 0.0);
    for (const auto& word : wanted) {
        const std::uint32_t letters = letters_of(word);
        // A word that names use is no slip of another one.
        const bool known_word = has_word(table::en::vocabulary, word);
        const std::size_t allowed =
            known_word ? 0 : slips_allowed(word.size()) + (word.size() >= 5 ? 1 : 0);
        for (std::size_t i = 0; i < vocabulary_size; ++i) {
            const auto& known = vocabulary[i];
            double like = 0.0;
            if (known.text == word)
                like = 1.0;
            else if (word.size() >= 4 && known.text.substr(0, word.size()) == word)
                like = 0.6;
            else if (allowed > 0 && known.text[0] == word[0]) {
                const std::size_t slips = slips_between(word, letters, known, allowed);
                if (slips <= allowed) like = 0.95 - 0.15 * static_cast<double>(slips);
            }
            likeness[i] = std::max(likeness[i], like);
        }
    }
    return likeness;
}

}  // namespace detail

/// Places of up to `most` feedstocks of the table whose names are spelled or composed most like the
/// words, nearest first; ties in table order. All of them may be fed, or none of them: the nearest
/// one decides, so that a suggestion never leads from the harmless to the barred or back. Time: a
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
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return best[a] < best[b]; });
    const bool barred = !order.empty() && detail::is_barred(order.front());
    std::vector<std::size_t> nearest;
    for (const auto index : order) {
        if (nearest.size() == most) break;
        if (detail::is_barred(index) == barred) nearest.push_back(index);
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
