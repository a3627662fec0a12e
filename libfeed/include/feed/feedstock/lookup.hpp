#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "feed/feedstock/nearest_names.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed {

/// A feedstock of the table that words may mean.
struct Candidate {
    std::size_t index = 0;  ///< in the table
    std::string id;
    std::string name;
    std::string
        part;  ///< "core", "peel", "whole" ... where the words name several parts of a plant
};

/// What words were taken to mean.
struct Found {
    std::shared_ptr<const Feedstock> feedstock;
    std::string part;                     ///< the part of the plant taken, or empty
    std::vector<Candidate> alternatives;  ///< the other parts
    std::string said;  ///< one sentence where a choice was made for the keeper, or empty
};

namespace detail {

/// An entry that matches, before it becomes a feedstock.
struct NameMatch {
    std::size_t index = 0;
    std::string_view part;
    std::uint8_t rank = 0;
};

inline void add_match(std::vector<NameMatch>& matches, NameMatch match) {
    for (auto& known : matches) {
        if (known.index == match.index) {
            known.rank = std::min(known.rank, match.rank);
            return;
        }
    }
    matches.push_back(match);
}

/// Entries whose text, after `change`, is the one asked for. The texts are the aliases, then ids
/// and names.
template <class Change>
std::vector<NameMatch> names_equal(std::string_view wanted, Change change) {
    std::vector<NameMatch> matches;
    for (const auto& alias : table::aliases) {
        if (change(alias.text) == wanted)
            add_match(matches, {alias.feedstock, alias.part, alias.rank});
    }
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        if (change(feedstock_id(i)) == wanted || change(feedstock_name(i)) == wanted)
            add_match(matches, {i, "", 0});
    }
    return matches;
}

/// The words in the singular, sorted, without those that join ("peel of banana" is "banana peel").
inline std::string word_set(std::string_view text) {
    auto words = words_of(singular_text(plain_text(text)));
    words.erase(std::remove_if(words.begin(), words.end(),
                               [](const std::string& word) {
                                   return word == "of" || word == "the" || word == "and" ||
                                          word == "a" || word == "some" || word == "from" ||
                                          word == "my";
                               }),
                words.end());
    std::sort(words.begin(), words.end());
    std::string joined;
    for (const auto& word : words)
        joined += (joined.empty() ? "" : " ") + word;
    return joined;
}

/// The same without words that only say how it was cut or kept.
inline std::string without_descriptors(std::string_view plain) {
    constexpr std::array<std::string_view, 14> descriptors{
        "chopped", "diced",    "sliced", "torn", "ripped", "shredded", "fresh",
        "organic", "leftover", "old",    "ripe", "raw",    "crushed",  "overripe"};
    std::string kept;
    for (const auto& word : words_of(plain)) {
        if (std::find(descriptors.begin(), descriptors.end(), word) == descriptors.end())
            kept += (kept.empty() ? "" : " ") + word;
    }
    return kept;
}

/// The matches of the first way of comparing that finds any, best rank first.
inline std::vector<NameMatch> match_names(std::string_view plain, bool& loosely) {
    loosely = false;
    std::vector<NameMatch> matches;
    const auto first = std::lower_bound(
        table::aliases.begin(), table::aliases.end(), plain,
        [](const table::Alias& alias, std::string_view text) { return alias.text < text; });
    for (auto it = first; it != table::aliases.end() && it->text == plain; ++it)
        add_match(matches, {it->feedstock, it->part, it->rank});
    const auto as_plain = [](std::string_view text) { return plain_text(text); };
    const auto as_singular = [](std::string_view text) { return singular_text(plain_text(text)); };
    if (matches.empty()) matches = names_equal(plain, as_plain);
    if (matches.empty()) matches = names_equal(singular_text(plain), as_singular);
    if (matches.empty()) matches = names_equal(word_set(plain), word_set);
    if (matches.empty()) {
        const std::string kept = without_descriptors(plain);
        if (kept != plain && !kept.empty()) {
            loosely = true;
            matches = match_names(kept, loosely);
            loosely = true;
        }
    }
    std::stable_sort(matches.begin(), matches.end(),
                     [](const NameMatch& a, const NameMatch& b) { return a.rank < b.rank; });
    return matches;
}

inline Candidate candidate(const NameMatch& match) {
    return {match.index, std::string(feedstock_id(match.index)),
            std::string(feedstock_name(match.index)), std::string(match.part)};
}

inline Error lookup_error(ErrorCode code, std::string_view words,
                          const std::vector<std::string>& names, std::string message) {
    Error error;
    error.code = code;
    error.field = "feedstock";
    error.value = std::string(words);
    for (const auto& name : names)
        error.allowed += (error.allowed.empty() ? "" : "; ") + name;
    error.message = std::move(message);
    return error;
}

inline Error unknown_feedstock(std::string_view words) {
    const auto names = nearest_names(words, 5);
    std::string message = "no feedstock is called \"" + std::string(words) + "\"";
    if (names.empty())
        message += "; feedstocks of your own can be defined";
    else
        message += "; did you mean " + names.front() + "?";
    auto error = lookup_error(ErrorCode::unknown_feedstock, words, names, std::move(message));
    if (names.empty()) error.allowed = "a name from the table or a feedstock of your own";
    return error;
}

inline std::string choice_text(std::string_view words, const NameMatch& taken,
                               const std::vector<Candidate>& others, bool loosely) {
    if (others.empty() && !loosely) return "";
    std::string text =
        "\"" + std::string(words) + "\" is taken as " + std::string(feedstock_name(taken.index));
    if (!taken.part.empty()) text += " (" + std::string(taken.part) + ")";
    for (std::size_t i = 0; i < others.size(); ++i)
        text += (i == 0 ? "; the table also has " : ", ") + others[i].name + " (" +
                (others[i].part.empty() ? others[i].id : others[i].part) + ")";
    return text;
}

}  // namespace detail

/// The feedstock of the table that words mean: an alias, id or name in any case, number, order of
/// words and punctuation. Where a word names several parts of a plant, the part that is usually fed
/// is taken and `said` names it and the others. Words that only say how it was cut are left aside.
/// Errors: empty; unknown_feedstock with up to five of the nearest names; ambiguous_feedstock where
/// the words fit several feedstocks equally. Time: a pass over the names. Threads: pure.
inline Result<Found> look_up(std::string_view words) {
    const std::string plain = plain_text(words);
    if (plain.empty())
        return detail::lookup_error(ErrorCode::empty, words, {"the name of a feedstock"},
                                    "the feedstock has no name");
    bool loosely = false;
    const auto matches = detail::match_names(plain, loosely);
    if (matches.empty()) return detail::unknown_feedstock(words);
    const bool tied = matches.size() > 1 && matches[1].rank == matches[0].rank;
    if (tied) {
        std::vector<std::string> names;
        names.reserve(matches.size());
        for (const auto& match : matches)
            names.emplace_back(feedstock_name(match.index));
        return detail::lookup_error(ErrorCode::ambiguous_feedstock, words, names,
                                    "\"" + std::string(words) + "\" fits more than one feedstock");
    }
    Found found;
    found.feedstock = std::make_shared<const Feedstock>(feedstock_at(matches[0].index));
    found.part = std::string(matches[0].part);
    for (std::size_t i = 1; i < matches.size(); ++i)
        found.alternatives.push_back(detail::candidate(matches[i]));
    found.said = detail::choice_text(words, matches[0], found.alternatives, loosely);
    return found;
}

/// All feedstocks of the table that have every one of the words, or its start, in their name, id or
/// one alias; no words give the whole table. In the order of the table. Threads: pure.
inline std::vector<Candidate> search(std::string_view words) {
    const auto wanted = words_of(singular_text(plain_text(words)));
    std::vector<std::string> texts(feedstock_count());
    for (std::size_t i = 0; i < feedstock_count(); ++i)
        texts[i] = " " + singular_text(plain_text(feedstock_id(i))) + " " +
                   singular_text(plain_text(feedstock_name(i)));
    for (const auto& alias : table::aliases)
        texts[alias.feedstock] += " " + singular_text(alias.text);
    std::vector<Candidate> found;
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        const bool all = std::all_of(wanted.begin(), wanted.end(), [&](const std::string& word) {
            return texts[i].find(" " + word) != std::string::npos;
        });
        if (all)
            found.push_back({i, std::string(feedstock_id(i)), std::string(feedstock_name(i)), ""});
    }
    return found;
}

}  // namespace feed
