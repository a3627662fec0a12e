#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount_type.hpp"
#include "feed/feedstock/amount_units.hpp"
#include "feed/feedstock/count_text.hpp"
#include "feed/feedstock/size_words.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::detail {

inline Error amount_error(ErrorCode code, std::string_view text, std::string allowed,
                          std::string message) {
    return make_error(code, "amount", std::string(text), std::move(allowed), std::move(message));
}

inline constexpr std::string_view amount_form =
    "a number and a unit, such as 1.2 kg, 3 L, 2 cup, 6 piece, half a bucket";

/// A unit found in a text.
struct UnitAt {
    const AmountUnit* unit = nullptr;
    const Container* container = nullptr;
    bool qualified = false;
    bool spoon_letter = false;  ///< a lone "T"
    std::size_t end = 0;
    constexpr bool is_vessel() const noexcept {
        return container != nullptr || (unit != nullptr && unit->is_vessel());
    }
    constexpr bool is_defined_size() const noexcept {
        return unit != nullptr && unit->kind != UnitKind::measure && !unit->is_vessel();
    }
};

/// Finds units and vessels in one text, with those of the keeper first.
class UnitReader {
public:
    UnitReader(std::string_view text, std::span<const Container> containers)
        : text_(text), containers_(containers) {
        for (const auto& container : containers)
            names_.push_back(singular_text(plain_text(container.name)));
    }

    /// The words after a place, without what joins them to an amount ("of", ":", "-").
    std::string_view words_after(std::size_t at) const {
        auto rest = trim(text_.substr(std::min(at, text_.size())));
        while (!rest.empty() && (rest.front() == '-' || rest.front() == ':' ||
                                 rest.front() == ',' || rest.front() == '.'))
            rest = trim(rest.substr(1));
        // "a wheelbarrow full of leaves", "2 cups worth of grounds".
        for (const std::string_view word : {"full", "worth"})
            if (const auto full = take_word(rest, 0, word))
                if (take_word(rest, *full, "of")) rest = trim(rest.substr(*full));
        if (const auto behind = take_word(rest, 0, "of")) rest = trim(rest.substr(*behind));
        if (const auto behind = take_word(rest, 0, "x")) rest = trim(rest.substr(*behind));
        return rest;
    }

    Error unknown_unit(std::string_view unit) const {
        std::string allowed(unit_names_for_people);
        for (const auto& container : containers_)
            allowed += ", " + container.name;
        std::string message = "unit \"" + std::string(unit) + "\" is not known";
        const std::string near = nearest_unit(unit_text(unit), 2);
        if (near.empty())
            message += "; a vessel of your own can be declared under containers with its volume";
        Error error =
            amount_error(ErrorCode::unit_unknown, text_, std::move(allowed), std::move(message));
        if (near.empty()) return error;
        std::string mended(text_);
        if (const auto at = mended.find(unit); at != std::string::npos)
            mended.replace(at, unit.size(), near);
        return offered(std::move(error), "; did you mean ", {std::move(mended)}, "?");
    }

    /// A word before "of" that is no measure, and the thing behind it.
    Error unknown_measure(const std::string& word, const std::string& thing) const {
        const std::string near = nearest_unit(word, 1);
        const bool is_slip = !near.empty() && near.front() == word.front();
        Error error =
            amount_error(ErrorCode::unit_unknown, text_, std::string(unit_names_for_people),
                         "\"" + word + "\" is no measure that is known");
        if (is_slip)
            return offered(std::move(error), "; did you mean ", {"a " + near + " of " + thing},
                           "?");
        return offered(std::move(error), "; write for instance ",
                       {"a cup of " + thing, "500 g " + thing});
    }

    /// The unit whose words start at a place; the longest one.
    std::optional<UnitAt> unit_at(std::size_t at) const {
        std::optional<UnitAt> best;
        at = after_blanks(text_, at);
        if (at > 0 && at < text_.size() && text_[at] == '#' && is_digit(text_[at - 1])) {
            // "2# carrots" are two pounds.
            UnitAt pounds;
            pounds.unit = unit_named("lb");
            pounds.end = at + 1;
            return pounds;
        }
        if (at < text_.size() && text_[at] == '-') ++at;
        std::size_t end = at;
        for (int word = 0; word < 4; ++word) {
            const auto next = unit_word_end(end);
            if (next == end) break;
            end = next;
            if (auto found = unit_named_by(text_.substr(at, end - at))) {
                found->end = end;
                best = found;
                // No unit of more words begins with one of mass ("g", "pound").
                if (found->is_defined_size() && found->unit->kind == UnitKind::mass) break;
            }
            if (end < text_.size() && !is_blank(text_[end]) && text_[end] != '-') break;
        }
        return best;
    }

protected:
    /// "a heaped tablespoon": the unit after a word of size. Pieces have sizes of their own.
    std::optional<UnitAt> sized_unit(std::size_t place, const SizeWord*& size) const {
        // "a half-full bucket": the number took the half.
        if (place < text_.size() && text_[place] == '-') ++place;
        for (const auto& one : size_words) {
            const auto behind = take_word(text_, place, one.word);
            if (!behind) continue;
            const auto unit = unit_at(*behind);
            if (!unit || (unit->unit == nullptr && unit->container == nullptr)) continue;
            const bool piece = unit->unit != nullptr && unit->unit->kind == UnitKind::measure &&
                               unit->unit->size == 0.0 && unit->unit->measure == Measure::piece;
            if (piece || unit->is_defined_size()) continue;
            size = &one;
            return unit;
        }
        return std::nullopt;
    }

    /// "a mop bucket of leaves": a vessel behind a word or two that say which one, said; none of
    /// them may bar what it stands with ("plastic"). Only where "of" makes it a vessel of
    /// something.
    std::optional<UnitAt> vessel_behind(std::size_t place, std::string& said) const {
        std::size_t at = after_blanks(text_, place);
        const std::size_t start = at;
        for (int words = 0; words < 2; ++words) {
            const auto word = word_at(text_, at);
            const std::string one = singular_text(plain_text(word));
            if (one.empty() || one == "of" || has_word(table::en::barred_words, one))
                return std::nullopt;
            at = after_blanks(text_, at + word.size());
            auto unit = unit_at(at);
            if (!unit || unit->unit == nullptr || !unit->is_vessel()) continue;
            if (unit->unit->kind == UnitKind::mass || !take_word(text_, unit->end, "of")) continue;
            said = "\"" + std::string(trim(text_.substr(start, unit->end - start))) +
                   "\" is taken as any " + std::string(unit->unit->plain_name);
            return unit;
        }
        return std::nullopt;
    }

    std::string_view text_;
    std::span<const Container> containers_;

private:
    static constexpr bool in_unit(char c) noexcept {
        return is_letter(c) || is_digit(c) || c == '.' || c == '^';
    }

    std::size_t unit_word_end(std::size_t at) const {
        std::size_t start = after_blanks(text_, at);
        if (start > at && start >= text_.size()) return at;
        if (start < text_.size() && text_[start] == '-' && start == at && at > 0) ++start;
        // A unit starts with a letter: a digit is the next number.
        if (start >= text_.size() || !is_letter(text_[start])) return at;
        std::size_t end = start;
        while (end < text_.size() && in_unit(text_[end]))
            ++end;
        return end;
    }

    std::optional<UnitAt> unit_named_by(std::string_view written) const {
        if (written.size() > 40) return std::nullopt;
        UnitAt found;
        if (written == "T" || written == "Tb" || written == "Tbs") {
            found.unit = unit_named("tablespoon");
            found.spoon_letter = written == "T";
            return found;
        }
        if (written == "t") return found;  // a teaspoon or a tonne; see with_unit
        const std::string words = unit_text(written);
        const std::string one = singular_text(words);
        for (std::size_t i = 0; i < names_.size(); ++i) {
            if (names_[i] == one) {
                found.container = &containers_[i];
                return found;
            }
        }
        auto unit = find_unit(words);
        if (!unit && one != words) unit = find_unit(one);
        if (!unit) return std::nullopt;
        found.unit = unit->unit;
        found.qualified = unit->qualified;
        return found;
    }

    std::vector<std::string> names_;
};

}  // namespace feed::detail
