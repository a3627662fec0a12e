#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "feed/feedstock/name_match.hpp"
#include "feed/feedstock/preparation.hpp"
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
    std::vector<std::string> left_aside;  ///< words that only said how it was cut or kept
    std::vector<Preparation>
        preparations;  ///< that the words said, done to `feedstock`; look_up does none
    std::string said;  ///< one sentence where a choice was made for the keeper, or empty
};

namespace detail {

inline Candidate candidate(const NameMatch& match) {
    return {match.index, std::string(feedstock_id(match.index)),
            std::string(feedstock_name(match.index)), std::string(match.part)};
}

inline Error lookup_error(ErrorCode code, std::string_view words,
                          const std::vector<std::string>& names, std::string message) {
    std::string allowed;
    for (const auto& name : names)
        allowed += (allowed.empty() ? "" : "; ") + name;
    return make_error(code, "feedstock", std::string(words), std::move(allowed),
                      std::move(message));
}

/// One line for somebody who asks for what nobody should feed.
inline std::string never_fed(std::string_view name) {
    return "\"" + std::string(name) + "\" is never fed";
}

inline std::string feedstock_list(const std::vector<std::string>& names) {
    std::string list;
    for (std::size_t i = 0; i < names.size(); ++i)
        list += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
    return list;
}

inline Error unknown_feedstock(std::string_view words) {
    const auto nearest = nearest_feedstocks(words, 5);
    std::vector<std::string> names;
    names.reserve(nearest.size());
    for (const auto index : nearest)
        names.emplace_back(feedstock_name(index));
    std::string message = "no feedstock is called \"" + std::string(words) + "\"";
    auto error = lookup_error(ErrorCode::unknown_feedstock, words, names, std::move(message));
    if (names.empty()) {
        error.allowed = "a name from the table or a feedstock of your own";
        return offered(std::move(error), "; write a common name, such as ", {"banana peel"});
    }
    if (is_barred(nearest.front()))
        return offered(std::move(error), "; ", {names.front()}, " is never fed");
    return offered(std::move(error), "; did you mean ", {names.front()}, "?");
}

/// Where a slip may have meant several. What may be barred is named alone: nobody is led from it to
/// something harmless.
inline Error unclear_slip(std::string_view words, const std::vector<std::size_t>& meant) {
    std::vector<std::string> names;
    const bool any_barred = std::any_of(meant.begin(), meant.end(), is_barred);
    for (const auto index : meant) {
        if (is_barred(index) == any_barred) names.emplace_back(feedstock_name(index));
    }
    const std::string list = feedstock_list(names);
    std::string message = "no feedstock is called \"" + std::string(words) + "\"; ";
    message +=
        any_barred ? "check the spelling (" + never_fed(list) + ")" : "did you mean " + list + "?";
    auto error =
        lookup_error(any_barred ? ErrorCode::unknown_feedstock : ErrorCode::ambiguous_feedstock,
                     words, names, std::move(message));
    error.repairs = std::move(names);
    return error;
}

inline Error several_feedstocks(std::string_view words, const std::vector<NameMatch>& matches) {
    std::vector<std::string> names;
    std::vector<std::string> shown;
    for (const auto& match : matches) {
        if (match.rank != matches.front().rank) continue;
        const std::string name(feedstock_name(match.index));
        names.push_back(name);
        shown.push_back(
            "\"" + std::string(is_barred(match.index) ? name + "\" (never fed)" : name + "\""));
    }
    auto error = lookup_error(
        ErrorCode::ambiguous_feedstock, words, names,
        "\"" + std::string(words) + "\" may be " + feedstock_list(shown) + "; write which one");
    error.repairs = std::move(names);
    return error;
}

inline std::string choice_text(std::string_view words, const NameMatch& taken,
                               const std::vector<Candidate>& others, bool loosely) {
    if (others.empty() && !loosely && taken.remark.empty()) return "";
    std::string text;
    if (!others.empty() || loosely) {
        text = "\"" + std::string(words) + "\" is taken as " +
               std::string(feedstock_name(taken.index));
        if (!taken.part.empty() && text.find(taken.part) == std::string::npos)
            text += " (" + std::string(taken.part) + ")";
    }
    for (std::size_t i = 0; i < others.size(); ++i)
        text += (i == 0 ? "; the table also has " : ", ") + others[i].name + " (" +
                (others[i].part.empty() ? others[i].id : others[i].part) + ")";
    if (!taken.remark.empty()) text += (text.empty() ? "" : "; ") + std::string(taken.remark);
    return text;
}

/// What a reading of a name comes to: one feedstock, or why there is none.
inline Result<Found> found_by(std::string_view words, const NameReading& reading) {
    if (reading.slips_to.size() > 1) return unclear_slip(words, reading.slips_to);
    const auto& matches = reading.matches;
    if (matches.empty()) return unknown_feedstock(words);
    if (matches.size() > 1 && matches[1].rank == matches[0].rank)
        return several_feedstocks(words, matches);
    Found found;
    found.feedstock = std::make_shared<const Feedstock>(feedstock_at(matches[0].index));
    found.part = std::string(matches[0].part);
    found.left_aside = reading.left_aside;
    for (std::size_t i = 1; i < matches.size(); ++i)
        found.alternatives.push_back(candidate(matches[i]));
    found.said = choice_text(words, matches[0], found.alternatives, reading.loosely);
    return found;
}

}  // namespace detail

/// The feedstock of the table that words mean: an alias, id or name in English, German, French or
/// Spanish, in any case, number, order of words, accents and punctuation. Where a word names
/// several parts of a plant, the whole is taken and `said` names it and the others. Words that only
/// say how it was cut are left aside; a slip of letters that fits one name is mended and said; a
/// word that bars what it stands with ("plastic") finds what is never fed. Errors: empty;
/// unknown_feedstock with up to five of the nearest names; ambiguous_feedstock where the words fit
/// several feedstocks equally. Time: a few searches by halves; a pass over the vocabulary for a
/// slip. Threads: pure.
inline Result<Found> look_up(std::string_view words) {
    if (detail::name_words(words).empty())
        return detail::lookup_error(ErrorCode::empty, words, {"the name of a feedstock"},
                                    "the feedstock has no name");
    return detail::found_by(words, detail::read_name(words));
}

/// All feedstocks of the table that have every one of the words, or its start, in their name, id or
/// one alias; no words give the whole table. In the order of the table. Threads: pure.
inline std::vector<Candidate> search(std::string_view words) {
    const auto wanted = words_of(singular_text(plain_text(words)));
    std::vector<std::string> texts(feedstock_count());
    for (std::size_t i = 0; i < feedstock_count(); ++i)
        texts[i] = " " + singular_text(plain_text(feedstock_id(i))) + " " +
                   singular_text(plain_text(feedstock_name(i)));
    for (const auto& name : table::en::name_keys)
        texts[name.feedstock] += " " + std::string(name.key);
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
