#pragma once
#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "feed/feedstock/names.hpp"
#include "feed/feedstock/nearest_names.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/quantity/sorted.hpp"

// The ways in which words are held against the names of the table, the strictest first.
namespace feed::detail {

/// An entry that matches, before it becomes a feedstock.
struct NameMatch {
    std::size_t index = 0;
    std::string_view part;
    std::string_view remark;
    std::uint8_t rank = 0;
};

/// What words were found to name. No matches: nothing is called so.
struct NameReading {
    std::vector<NameMatch> matches;       ///< best rank first
    std::vector<std::string> left_aside;  ///< words that only say how it was cut or kept
    bool loosely = false;                 ///< words were left aside or corrected
    std::string barred_word;              ///< the word that bars it, where that decided
    std::vector<std::size_t> slips_to;    ///< feedstocks that a slip may have meant, when several
};

/// The entries with a key: the English ones, else those of all other languages together.
inline std::vector<NameMatch> match_key(std::string_view key) {
    std::vector<NameMatch> matches;
    if (key.empty()) return matches;
    for (const auto& language : languages) {
        for (const auto& name : names_with_key(language.names, key)) {
            const bool known =
                std::any_of(matches.begin(), matches.end(),
                            [&](const NameMatch& one) { return one.index == name.feedstock; });
            if (!known) matches.push_back({name.feedstock, name.part, name.remark, name.rank});
        }
        if (!matches.empty() && language.code == "en") break;
    }
    sort_by(matches, [](const NameMatch& match) { return match.rank; });
    return matches;
}

inline constexpr std::size_t most_words_left_aside = 5;

/// The name that is left when as few words as possible that say only how it was cut are dropped.
inline NameReading match_without_descriptors(const std::vector<std::string>& words) {
    NameReading reading;
    std::vector<std::size_t> droppable;
    for (std::size_t i = 0; i < words.size() && droppable.size() < most_words_left_aside; ++i) {
        if (has_word(table::en::left_aside, words[i])) droppable.push_back(i);
    }
    const std::size_t subsets = std::size_t{1} << droppable.size();
    for (std::size_t dropped = 1; dropped <= droppable.size(); ++dropped) {
        for (std::size_t subset = 1; subset < subsets; ++subset) {
            std::vector<std::string> kept;
            std::vector<std::string> aside;
            std::size_t next = 0;
            for (std::size_t i = 0; i < words.size(); ++i) {
                const bool may = next < droppable.size() && droppable[next] == i;
                const bool drop = may && ((subset >> next) & 1u) != 0;
                next += may ? 1 : 0;
                (drop ? aside : kept).push_back(words[i]);
            }
            if (aside.size() != dropped) continue;
            reading.matches = match_key(key_of(kept));
            if (reading.matches.empty()) continue;
            reading.left_aside = std::move(aside);
            reading.loosely = true;
            return reading;
        }
    }
    return reading;
}

/// Takes a word for a part without a row of its own from one end ("trimmings" of "parsnip
/// trimmings", "bottom" of "bottom of a lettuce"); false where there is none.
inline bool drop_part_word(std::vector<std::string>& words) {
    if (words.size() < 2) return false;
    if (has_word(table::en::part_words, words.back()))
        words.pop_back();
    else if (has_word(table::en::part_words, words.front()))
        words.erase(words.begin());
    else
        return false;
    return true;
}

/// The name that stands as it is beside words for a part ("avocado meat" of "avocado meat scraps").
inline NameReading match_whole_beside_part(std::vector<std::string> words) {
    NameReading reading;
    while (reading.matches.empty() && drop_part_word(words))
        reading.matches = match_key(key_of(words));
    reading.loosely = true;
    return reading;
}

/// The name beside a word for a part that has no row of its own.
inline NameReading match_without_part(std::vector<std::string> words) {
    while (drop_part_word(words)) {
        NameReading reading;
        reading.matches = match_key(key_of(words));
        if (reading.matches.empty()) reading = match_without_descriptors(words);
        reading.loosely = true;
        const bool is_scrap =
            std::all_of(reading.matches.begin(), reading.matches.end(), [](const NameMatch& one) {
                return table::feedstocks[one.index].group == Group::scraps;
            });
        if (!reading.matches.empty() && is_scrap) return reading;
    }
    return {};
}

/// The longest barred name of two words or more that stands among the words, unbroken ("railway
/// sleeper" of "railway sleeper chips").
inline NameReading match_barred_name(const std::vector<std::string>& words) {
    NameReading reading;
    for (std::size_t size = words.size(); size-- > 2;) {
        for (std::size_t start = 0; start + size <= words.size(); ++start) {
            const auto first = words.begin() + static_cast<std::ptrdiff_t>(start);
            const std::vector<std::string> run(first, first + static_cast<std::ptrdiff_t>(size));
            reading.matches = match_key(key_of(run));
            const bool barred =
                !reading.matches.empty() &&
                std::all_of(reading.matches.begin(), reading.matches.end(),
                            [](const NameMatch& one) { return is_barred(one.index); });
            if (!barred) continue;
            reading.barred_word = run.back();
            reading.loosely = true;
            return reading;
        }
    }
    reading.matches.clear();
    return reading;
}

/// What a barred name or word among the words names, unless another word says that it is not
/// there. Of several words the last: "turkey bones" are bones.
inline NameReading match_barred_word(const std::vector<std::string>& words) {
    for (const auto& word : words) {
        if (has_word(table::en::without_words, word)) return {};
    }
    NameReading reading = match_barred_name(words);
    if (!reading.matches.empty()) return reading;
    for (auto word = words.rbegin(); word != words.rend(); ++word) {
        if (!has_word(table::en::barred_words, *word)) continue;
        reading.matches = match_key(*word);
        reading.barred_word = *word;
        reading.loosely = true;
        return reading;
    }
    return reading;
}

/// What words name as they stand, or without those that say only how it was cut.
inline NameReading match_strictly(const std::vector<std::string>& words) {
    NameReading reading;
    reading.matches = match_key(key_of(words));
    return reading.matches.empty() ? match_without_descriptors(words) : reading;
}

inline NameReading match_loosely(const std::vector<std::string>& words) {
    auto reading = match_strictly(words);
    if (reading.matches.empty() || reading.loosely) {
        // "Cold cuts scraps" are no cold scraps; "almond milk bits" are no milk.
        auto whole = match_whole_beside_part(words);
        const bool barred = !whole.matches.empty() && is_barred(whole.matches.front().index);
        if (barred || (reading.matches.empty() && !whole.matches.empty())) return whole;
    }
    if (reading.matches.empty()) reading = match_barred_word(words);
    if (reading.matches.empty()) reading = match_without_part(words);
    return reading;
}

inline bool is_known_word(std::string_view word) {
    return has_word(table::en::vocabulary, word) || has_word(table::en::left_aside, word) ||
           has_word(table::en::part_words, word);
}

/// The words of the vocabulary that a word may be a slip of: those with the fewest letters wrong.
inline std::vector<std::string_view> corrections_of(std::string_view word) {
    std::vector<std::string_view> best;
    std::size_t fewest = slips_allowed(word.size());
    if (fewest == 0) return best;
    const auto [first, last] = places_with_first_letter(table::en::vocabulary, word);
    for (std::size_t i = first; i < last; ++i) {
        const std::string_view known = table::en::vocabulary[i];
        if (known.size() < 3) continue;
        const std::size_t slips = slips_between(word, known, fewest);
        if (slips > fewest) continue;
        if (slips < fewest) best.clear();
        fewest = slips;
        best.push_back(known);
    }
    return best;
}

inline constexpr std::size_t most_corrections = 24;

/// Every way to mend the words that are not known.
inline std::vector<std::vector<std::string>> mended(const std::vector<std::string>& words) {
    std::vector<std::vector<std::string>> ways{words};
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (is_known_word(words[i])) continue;
        const auto corrections = corrections_of(words[i]);
        if (corrections.empty() || ways.size() * corrections.size() > most_corrections) return {};
        std::vector<std::vector<std::string>> more;
        for (const auto& way : ways) {
            for (const auto correction : corrections) {
                more.push_back(way);
                more.back()[i] = std::string(correction);
            }
        }
        ways = std::move(more);
    }
    return ways;
}

/// What the ways to mend words name. Where some name something as they stand only those ("orange
/// peel" for "orange peal", not an orange and peas), unless two are on either side of the border.
inline std::vector<NameReading> mended_readings(const std::vector<std::string>& words) {
    std::vector<NameReading> all;
    std::vector<NameReading> exact;
    bool one_side = true;
    for (const auto& way : mended(words)) {
        auto reading = match_loosely(way);
        if (reading.matches.empty()) continue;
        const auto barred = [](const NameReading& one) {
            return is_barred(one.matches.front().index);
        };
        one_side = one_side && (all.empty() || barred(all.front()) == barred(reading));
        if (!match_key(key_of(way)).empty()) exact.push_back(reading);
        all.push_back(std::move(reading));
    }
    return one_side && !exact.empty() ? exact : all;
}

/// "orangepeel": two words of names without the blank between them.
inline NameReading match_unparted(const std::vector<std::string>& words) {
    NameReading reading;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (word.size() < 6 || is_known_word(word)) continue;
        for (std::size_t at = 3; at + 3 <= word.size(); ++at) {
            const std::string second = singular(word.substr(at));
            if (!is_known_word(word.substr(0, at)) || !is_known_word(second)) continue;
            auto parted = words;
            parted[i] = word.substr(0, at);
            parted.push_back(second);
            reading.matches = match_key(key_of(parted));
            if (!reading.matches.empty()) {
                reading.loosely = true;
                return reading;
            }
        }
    }
    return reading;
}

/// The name that a slip of letters meant. Several: none is taken, and `slips_to` lists them.
inline NameReading match_slip(const std::vector<std::string>& words) {
    NameReading found;
    if (std::all_of(words.begin(), words.end(), is_known_word)) return found;
    found = match_unparted(words);
    if (!found.matches.empty()) return found;
    for (auto& reading : mended_readings(words)) {
        const std::size_t index = reading.matches.front().index;
        if (std::find(found.slips_to.begin(), found.slips_to.end(), index) != found.slips_to.end())
            continue;
        auto known = std::move(found.slips_to);
        known.push_back(index);
        if (known.size() == 1) found = std::move(reading);
        found.slips_to = std::move(known);
    }
    const bool all_barred = std::all_of(found.slips_to.begin(), found.slips_to.end(),
                                        [](auto i) { return is_barred(i); });
    if (all_barred) found.slips_to.resize(std::min<std::size_t>(found.slips_to.size(), 1));
    if (found.slips_to.size() > 1) found.matches.clear();
    found.loosely = true;
    return found;
}

/// Nothing is taken across the border between harmless and barred: the two are asked about.
inline void ask_about(NameReading& reading, std::size_t other) {
    reading.slips_to = {reading.matches.front().index, other};
    reading.matches.clear();
}

/// Where a slip is taken for a name while another one is as near across the border.
inline void keep_to_one_side(NameReading& reading, std::string_view text) {
    if (reading.matches.empty()) return;
    const bool barred = is_barred(reading.matches.front().index);
    const auto one_letter = one_letter_from(text);
    if (const auto& other = one_letter.on_side(!barred)) ask_about(reading, *other);
}

/// A barred word beside a slip of a harmless name: "almnd milk".
inline void ask_where_a_slip_decides(NameReading& reading, std::string_view text,
                                     const std::vector<std::string>& words) {
    if (reading.barred_word.empty()) return;
    const auto one_letter = one_letter_from(text);
    if (one_letter.harmless) return ask_about(reading, *one_letter.harmless);
    if (std::all_of(words.begin(), words.end(), is_known_word)) return;
    for (const auto& way : mended(words)) {
        const auto harmless = match_strictly(way);
        if (harmless.matches.empty() || is_barred(harmless.matches.front().index)) continue;
        return ask_about(reading, harmless.matches.front().index);
    }
}

/// A barred name of one word among words that name nothing else ("carne picada"); another name
/// beside it leaves it a question ("mustard greens").
inline NameReading match_barred_rest(const std::vector<std::string>& words) {
    NameReading reading;
    for (const auto& word : words) {
        if (has_word(table::en::without_words, word)) return {};
        auto matches = match_key(word);
        const bool barred = !matches.empty() &&
                            std::all_of(matches.begin(), matches.end(),
                                        [](const NameMatch& one) { return is_barred(one.index); });
        if (!barred && !matches.empty()) return {};
        if (!barred) continue;
        reading.matches = std::move(matches);
        reading.barred_word = word;
        reading.loosely = true;
    }
    return reading;
}

/// What words name, by every way of comparing until one finds something.
inline NameReading read_name(std::string_view text) {
    if (text.size() > longest_name) return {};
    const auto words = name_words(text);
    if (words.empty() || words.size() > 12) return {};
    auto reading = match_loosely(words);
    if (!reading.matches.empty()) {
        ask_where_a_slip_decides(reading, text, words);
        return reading;
    }
    reading = match_slip(words);
    const bool is_no_slip = reading.matches.empty() && reading.slips_to.empty();
    keep_to_one_side(reading, text);
    if (!is_no_slip) return reading;
    reading = match_barred_rest(words);
    ask_where_a_slip_decides(reading, text, words);
    return reading;
}

}  // namespace feed::detail
