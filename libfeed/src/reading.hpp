#pragma once
#include <algorithm>
#include <array>
#include <iterator>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/diary/seen_row.hpp"
#include "feed/io/file_keys.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/yaml_tree.hpp"
#include "feed/quantity/border.hpp"

namespace feed::io {

/// A word of a file and what it stands for.
template <class T>
struct WordFor {
    std::string_view word;
    T meaning;
};

/// The words of an enumeration, in its order.
template <class T, std::size_t count>
constexpr std::array<WordFor<T>, count> words_for(
    const std::array<std::string_view, count>& words) {
    std::array<WordFor<T>, count> all{};
    for (std::size_t i = 0; i < count; ++i)
        all[i] = {words[i], static_cast<T>(i)};
    return all;
}
/// The same, and what else may be written for them.
template <class T, std::size_t count, std::size_t more>
constexpr std::array<WordFor<T>, count + more> words_for(
    const std::array<std::string_view, count>& words, const WordFor<T> (&others)[more]) {
    std::array<WordFor<T>, count + more> all{};
    std::copy_n(words_for<T>(words).begin(), count, all.begin());
    std::copy_n(std::begin(others), more, all.begin() + count);
    return all;
}

/// Collects the content problems of one file, each with its place, so that all come at once.
class Reading {
public:
    Reading(std::string file, std::string_view text) : file_(std::move(file)), text_(text) {}

    /// Notes a problem at a node; fills in file, line and column.
    void report(YamlView at, Error error);
    void report(YamlView at, ErrorCode code, std::string field, std::string allowed,
                std::string message);
    /// Notes problems that the core found in a text; `field` is put before the core's own field.
    void adopt(YamlView at, const std::string& field, const Errors& errors);
    /// Takes over the problems that the text itself has.
    void add(const YamlTree& tree);
    /// True once so many problems are known that more are only counted; counts one then. Ask before
    /// searching for words of help: a file may have a hundred thousand slips.
    bool only_counts() noexcept {
        if (!is_full()) return false;
        ++more_;
        return true;
    }
    bool is_full() const noexcept { return errors_.size() >= most_problems; }
    /// Notes that part of the file was not looked at, there being problems enough.
    void skip() noexcept { skipped_ = true; }
    /// Whether a list or mapping has no more members than a file may have; reports one that has,
    /// and then it need not be read.
    bool fits(YamlView at, const std::string& field, std::size_t most);
    bool has_problems() const noexcept { return !errors_.empty(); }
    std::size_t count() const noexcept { return errors_.size(); }
    /// The first problems in the order of the file, and how many more there are.
    Errors take();

    const std::string& file() const noexcept { return file_; }
    /// Where a node stands, the column in letters.
    Place place_of(YamlView at) const { return {at.place().line, column_of(at.place())}; }

    /// The text of a scalar; reports anything else.
    std::optional<std::string_view> scalar(YamlView at, const std::string& field);
    /// A number with its unit.
    std::optional<double> quantity(YamlView at, const std::string& field, QuantityKind kind);
    /// The same where less can be true than of the kind in general.
    std::optional<double> quantity(YamlView at, const std::string& field, QuantityKind kind,
                                   const Border& border);
    /// Whether a number keeps within its border; reports one that does not.
    bool holds(YamlView at, const std::string& field, double number, const Border& border);
    /// A window or one number.
    std::optional<WindowText> window(YamlView at, const std::string& field, QuantityKind kind);
    /// "yes", "no", "true" or "false".
    std::optional<bool> yes_or_no(YamlView at, const std::string& field);

    /// One of a fixed list of words; blanks, hyphens, underscores and case do not matter.
    template <class T, std::size_t count>
    std::optional<T> word(YamlView at, const std::string& field,
                          const std::array<WordFor<T>, count>& words) {
        std::array<std::string_view, count> list;
        for (std::size_t i = 0; i < count; ++i)
            list[i] = words[i].word;
        const auto index = word_index(at, field, list);
        return index ? std::optional<T>(words[*index].meaning) : std::nullopt;
    }
    template <class T, std::size_t count>
    std::optional<T> word(YamlView at, const std::string& field, const WordFor<T> (&words)[count]) {
        return word(at, field, std::to_array(words));
    }
    /// One of the words of an enumeration, where a keeper's own are taken too ("soggy" for
    /// streams).
    template <class T, std::size_t count>
    std::optional<T> word(YamlView at, const std::string& field,
                          const std::array<std::string_view, count>& words, SeenKey key) {
        if (const auto said = said_value(at, key)) return static_cast<T>(*said);
        return word(at, field, words_for<T>(words));
    }
    /// The value of a key that a keeper's words stand for, or nothing.
    static std::optional<int> said_value(YamlView at, SeenKey key);
    /// The place in a list of words.
    std::optional<std::size_t> word_index(YamlView at, const std::string& field,
                                          std::span<const std::string_view> words);

private:
    int column_of(Place place) const;

    std::string file_;
    std::string_view text_;
    Errors errors_;
    std::size_t more_ = 0;  ///< problems that were only counted
    bool skipped_ = false;
    // Lines are looked up in order most of the time: the last one found is kept.
    mutable int known_line_ = 1;
    mutable std::size_t known_start_ = 0;
};

/// One mapping of a file with a fixed list of keys. Reports what is not a mapping and every key
/// that is not on the list, with the nearest that is.
class Section {
public:
    Section(Reading& reading, YamlView node, std::string field, std::span<const keys::Key> allowed);
    bool is_mapping() const noexcept { return node_.is_mapping(); }
    YamlView node() const noexcept { return node_; }
    /// The value of a key that was given and is not empty.
    std::optional<YamlView> find(std::string_view key) const;
    /// The same; reports a missing key.
    std::optional<YamlView> require(std::string_view key) const;
    /// "bed: drainage" for the key "drainage" of the section "bed".
    std::string field(std::string_view key) const;

private:
    Reading& reading_;
    YamlView node_;
    std::string field_;
    std::vector<std::pair<std::string_view, YamlView>> pairs_;
};

/// The nearest of some words to what was written, or empty when none is near.
std::string nearest_word(std::string_view written, std::span<const std::string_view> words);
/// "a, b or c".
std::string listed(std::span<const std::string_view> words);

}  // namespace feed::io
