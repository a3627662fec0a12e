#pragma once
// What the words of one thing mean: the keeper's own first, then the table, prepared as they say.
#include <algorithm>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/feedstock/thing_list.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/sorted.hpp"

namespace feed {

/// A word of the keeper's that stands for other words: "bananas" for "banana peels".
struct Meaning {
    std::string said;
    std::string means;
};

/// What a keeper's file says about words: vessels, feedstocks of its own, meanings.
struct KeeperWords {
    std::span<const Container> containers;
    std::span<const std::shared_ptr<const Feedstock>> own;
    std::span<const Meaning> meanings;
};

/// One thing of a text: how much of what.
struct ReadThing {
    std::string written;                         ///< the piece of the text
    std::string words;                           ///< the keeper's words for the feedstock
    std::shared_ptr<const Feedstock> feedstock;  ///< prepared as the words say
    std::vector<Preparation> preparations;       ///< those that were said
    Amount amount;
    MassFromAmount mass;
    /// It is never fed; bar_words() say why and where with it instead. The amount may be missing
    /// then and counts as one piece.
    bool barred = false;
    std::vector<std::string> said;  ///< what was taken for granted, a sentence each
};

/// What a text holds: the things that are clear, and what has to be asked.
struct ReadThings {
    std::vector<ReadThing> things;  ///< in the order of the text
    Errors questions;               ///< ambiguous, vague or unknown parts, each with its repair
};

namespace detail {

/// What one piece of a name weighs by its own words, or null.
inline const table::NumberWord* piece_by_name(const std::vector<std::string>& words) {
    return number_of(table::en::piece_grams, key_of(words));
}

/// A word of how wet bedding is, and what that makes of it.
struct WaterWord {
    std::string_view word;
    Preparation preparation;
};
inline constexpr WaterWord water_words[] = {
    {"damp", Preparation::damped},       {"dampened", Preparation::damped},
    {"moist", Preparation::damped},      {"moistened", Preparation::damped},
    {"soaked", Preparation::soaked},     {"soggy", Preparation::soaked},
    {"wet", Preparation::soaked},        {"sodden", Preparation::soaked},
    {"waterlogged", Preparation::soaked}};

/// How wet words say that something is, or nothing.
inline std::optional<Preparation> said_wetness(std::string_view words) {
    const auto said = name_words(words);
    for (const WaterWord& water : water_words)
        if (std::find(said.begin(), said.end(), water.word) != said.end()) return water.preparation;
    return std::nullopt;
}

/// The preparations that a name says: among the words that were left aside, and, of a bedding that
/// the table has dry, how wet it is. Those of cutting say nothing new of what is described as cut.
inline std::vector<Preparation> said_preparations(std::string_view words,
                                                  const std::vector<std::string>& left_aside,
                                                  const Feedstock& feedstock) {
    std::vector<Preparation> list;
    const auto& moisture = feedstock[Property::moisture_wet];
    const bool is_wet = moisture && moisture->value > 0.5;
    for (const auto& word : left_aside) {
        const auto preparation = parse_preparation(word);
        const bool says_more = preparation && *preparation != Preparation::chopped &&
                               *preparation != Preparation::damped;
        if (says_more) list.push_back(*preparation);
        if (word == "dry" && is_wet && feedstock.group == Group::scraps)
            list.push_back(Preparation::dried);
    }
    const bool soaked = std::find(list.begin(), list.end(), Preparation::soaked) != list.end();
    if (is_wet || soaked || !feedstock.has(Role::bedding)) return list;
    if (const auto how = said_wetness(words)) list.push_back(*how);
    return list;
}

/// Words that make another thing of it than the table describes: "dry rice" where the row is
/// cooked.
inline std::string_view contradiction_in(const std::vector<std::string>& left_aside,
                                         const Feedstock& feedstock) {
    const bool is_cooked = feedstock.id.find("-cooked") != std::string::npos;
    const auto& moisture = feedstock[Property::moisture_wet];
    const bool soaked_row = feedstock.has(Role::bedding) && moisture && moisture->value > 0.5 &&
                            feedstock.name.find("soaked") != std::string::npos;
    for (const auto& word : left_aside) {
        const bool dry = word == "dry" || word == "dried" || word == "uncooked";
        if (dry && (is_cooked || soaked_row)) return word;
        if (word == "raw" && is_cooked) return word;
    }
    return {};
}

inline Error swells(std::string_view written, std::string_view word, const Feedstock& feedstock) {
    const bool cooked = feedstock.id.find("-cooked") != std::string::npos;
    const std::string how = cooked ? "cooked" : "soaked";
    return offered(lookup_error(ErrorCode::ambiguous_feedstock, written, {feedstock.name},
                                "\"" + std::string(written) + "\" is known here only " + how +
                                    ", not " + std::string(word)),
                   "; weigh it " + how + " and write ", {feedstock.name});
}

/// What was found in the table, prepared as the words describe it. Errors: words that contradict
/// the row (ambiguous_feedstock).
inline Result<Found> described(std::string_view words, Found found) {
    if (found.feedstock->stance == Stance::avoid) return found;
    if (const auto word = contradiction_in(found.left_aside, *found.feedstock); !word.empty())
        return swells(words, word, *found.feedstock);
    found.preparations = said_preparations(words, found.left_aside, *found.feedstock);
    if (!found.preparations.empty())
        found.feedstock =
            std::make_shared<const Feedstock>(prepared(*found.feedstock, found.preparations));
    return found;
}

/// The feedstock with the weight that one piece has by its name: a cherry tomato is no medium
/// tomato. The same where the name has none, and where the feedstock is the keeper's own.
inline std::shared_ptr<const Feedstock> with_own_piece(std::shared_ptr<const Feedstock> feedstock,
                                                       std::string_view words) {
    auto list = name_words(words);
    const auto row = find_id(feedstock->id);
    if (!row || feedstock->name != feedstock_name(*row)) return feedstock;
    const auto* own = piece_by_name(list);
    std::erase_if(list, [](const auto& word) { return has_word(table::en::left_aside, word); });
    if (own == nullptr) own = piece_by_name(list);
    if (own == nullptr) return feedstock;
    auto changed = std::make_shared<Feedstock>(*feedstock);
    std::erase_if(changed->measures, [](const MeasuredMass& one) {
        return one.measure <= Measure::piece_large || one.measure == Measure::head;
    });
    // What was soaked or drained weighs more or less by its water.
    const auto dry_share = [](const Feedstock& f) {
        const auto& moisture = f[Property::moisture_wet];
        return moisture && moisture->value < 1.0 ? 1.0 - moisture->value : 1.0;
    };
    const double times = dry_share(feedstock_at(*row)) / dry_share(*feedstock);
    changed->measures.push_back({Measure::piece, wet_grams(times * own->value), Grade::d,
                                 "common practice", own->low / own->value, own->high / own->value});
    return changed;
}

/// What the words of one thing mean, with the feedstocks and words of the keeper's file first.
class ThingReader {
public:
    explicit ThingReader(const KeeperWords& keeper) : keeper_(keeper) {
        for (const auto& own : keeper.own)
            own_keys_.push_back(own_key(own->name));
        for (const auto& meaning : keeper.meanings)
            meaning_keys_.push_back(own_key(meaning.said));
    }

    /// The feedstock that words name. `reading` is what the table says; a feedstock of the keeper's
    /// own has no alternatives.
    Result<Found> find(std::string_view words, const NameReading* reading = nullptr) const {
        const std::string key = has_own_words() ? own_key(words) : std::string();
        for (std::size_t i = 0; i < meaning_keys_.size(); ++i) {
            if (meaning_keys_[i] != key) continue;
            const auto& meant = keeper_.meanings[i].means;
            if (own_key(meant) != key) return find_meant(meant);
        }
        if (auto own = own_with(key)) return *std::move(own);
        return of_table(words, reading);
    }

    /// Whether words name something without guessing.
    bool names(std::string_view words) const {
        if (words.empty() || words.size() > longest_name) return false;
        if (has_own_words()) {
            const std::string key = own_key(words);
            const auto is_key = [&](const std::string& one) { return one == key; };
            if (std::any_of(meaning_keys_.begin(), meaning_keys_.end(), is_key)) return true;
            if (std::any_of(own_keys_.begin(), own_keys_.end(), is_key)) return true;
        }
        const auto list = name_words(words);
        if (list.size() > 8) return false;
        return !match_strictly(list).matches.empty();
    }

    /// Whether the longer words name one thing as they stand where the shorter may be several, or
    /// have a weight of their own ("bunch of grapes").
    bool names_one_better(std::string_view longer, std::string_view shorter) const {
        auto list = name_words(longer);
        if (match_key(key_of(list)).empty())
            std::erase_if(list,
                          [](const auto& word) { return has_word(table::en::left_aside, word); });
        const auto known = match_key(key_of(list));
        if (known.empty()) return false;
        if (piece_by_name(list) != nullptr) return true;
        const auto several = match_strictly(name_words(shorter)).matches;
        return several.size() > 1 && several[0].rank == several[1].rank;
    }

    /// Whether words name what is never fed to worms.
    bool bars(std::string_view words) const {
        const auto found = words.empty() ? Result<Found>(Errors{}) : find(words);
        return found && found->feedstock->stance == Stance::avoid;
    }

    std::span<const Container> containers() const noexcept { return keeper_.containers; }

private:
    bool has_own_words() const noexcept { return !own_keys_.empty() || !meaning_keys_.empty(); }

    /// A name of the keeper's, made comparable: the singular, without joining words before it ("my
    /// mix"); those inside tell names apart ("mix a").
    static std::string own_key(std::string_view name) {
        std::string key = singular_text(plain_text(name));
        for (auto blank = key.find(' '); blank != std::string::npos; blank = key.find(' ')) {
            if (!is_joining_word(std::string_view(key).substr(0, blank))) break;
            key.erase(0, blank + 1);
        }
        return key;
    }

    /// The keeper's own feedstock with a key.
    std::optional<Found> own_with(const std::string& key) const {
        for (std::size_t i = 0; i < own_keys_.size(); ++i) {
            if (own_keys_[i] != key) continue;
            Found found;
            found.feedstock = keeper_.own[i];
            return found;
        }
        return std::nullopt;
    }

    /// What a meaning means, without looking for another meaning: two may not lead in a circle.
    Result<Found> find_meant(std::string_view words) const {
        const std::string key = own_key(words);
        if (auto own = own_with(key)) return *std::move(own);
        return of_table(words, nullptr);
    }

    static Result<Found> of_table(std::string_view words, const NameReading* reading) {
        auto found = reading != nullptr ? found_by(words, *reading) : look_up(words);
        return found ? described(words, *std::move(found)) : std::move(found);
    }

    KeeperWords keeper_;
    std::vector<std::string> own_keys_;
    std::vector<std::string> meaning_keys_;
};

}  // namespace detail
}  // namespace feed
