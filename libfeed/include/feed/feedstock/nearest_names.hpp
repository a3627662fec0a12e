#pragma once
#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "feed/feedstock/table.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed {

namespace detail {

/// How many of `wanted` have a word in `words` that is the same but for a letter slip.
inline std::size_t words_shared(const std::vector<std::string>& wanted,
                                const std::vector<std::string>& words) {
    std::size_t shared = 0;
    for (const auto& want : wanted) {
        const std::size_t allowed = want.size() >= 8 ? 2 : want.size() >= 4 ? 1 : 0;
        shared += static_cast<std::size_t>(
            std::any_of(words.begin(), words.end(), [&](const std::string& word) {
                const std::size_t gap = word.size() > want.size() ? word.size() - want.size()
                                                                  : want.size() - word.size();
                return gap <= allowed && edit_distance(want, word) <= allowed;
            }));
    }
    return shared;
}

/// Unlikeness of two singular texts, 0 for the same; above 1 when they have nothing in common.
inline double unlikeness(const std::vector<std::string>& wanted, std::string_view wanted_text,
                         std::string_view text) {
    const auto words = words_of(text);
    const std::size_t shared = words_shared(wanted, words);
    const auto [shorter, longer] = std::minmax({wanted_text.size(), text.size()});
    const double longest = static_cast<double>(longer);
    // The letters that are missing are a lower bound of the distance.
    if (shared == 0 && static_cast<double>(longer - shorter) > 0.4 * longest) return 2.0;
    const double letters = static_cast<double>(edit_distance(wanted_text, text)) / longest;
    const double all = static_cast<double>(wanted.size() + words.size() - shared);
    const double tokens = 1.0 - static_cast<double>(shared) / all;
    if (shared == 0 && letters > 0.4) return 2.0;
    return std::min(letters, tokens) + 0.1 * std::max(letters, tokens);
}

}  // namespace detail

/// What is longer is no slip of a name; it would only cost time.
inline constexpr std::size_t longest_name = 100;

/// Names of up to `most` feedstocks of the table that are spelled or composed most like the words,
/// nearest first; ties in table order. Time: the names x the letters squared; for errors only.
inline std::vector<std::string> nearest_names(std::string_view words, std::size_t most) {
    const std::string text = singular_text(plain_text(words));
    const auto wanted = words_of(text);
    if (wanted.empty() || text.size() > longest_name) return {};
    std::vector<double> best(feedstock_count(), 2.0);
    // Of the parts one word names, the one that is usually fed comes first.
    const auto consider = [&](std::size_t index, std::string_view name, int rank) {
        const double unlike = detail::unlikeness(wanted, text, singular_text(plain_text(name)));
        best[index] = std::min(best[index], unlike + 0.001 * rank);
    };
    for (const auto& alias : table::aliases)
        consider(alias.feedstock, alias.text, alias.rank);
    for (std::size_t i = 0; i < feedstock_count(); ++i)
        consider(i, feedstock_name(i), 0);
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        if (best[i] < 0.9) order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return best[a] < best[b]; });
    std::vector<std::string> names;
    for (const auto index : order) {
        if (names.size() == most) break;
        names.emplace_back(feedstock_name(index));
    }
    return names;
}

}  // namespace feed
