#pragma once
#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/feedstock/amount_type.hpp"
#include "feed/feedstock/amount_units.hpp"
#include "feed/feedstock/count_text.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/in_units.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::detail {

inline Error amount_error(ErrorCode code, std::string_view text, std::string allowed,
                          std::string message) {
    return make_error(code, "amount", std::string(text), std::move(allowed), std::move(message));
}

inline constexpr std::string_view amount_form =
    "a number and a unit, such as 1.2 kg, 3 L, 2 cup, 6 piece, half a bucket";

/// An amount that was read, and where it ends in the text.
struct AmountReading {
    Amount amount;
    CountText count;
    std::size_t after_count = 0;
    std::size_t end = 0;
    bool counted = false;       ///< there was no unit
    bool no_count = false;      ///< there was no number ("handful of spinach")
    bool unit_is_word = false;  ///< the unit may be the name of a thing ("2 boxes")
};

/// A word before a unit that says how full or large it is, with the share (grade D).
struct SizeWord {
    std::string_view word;
    double share, low, high;
};
inline constexpr SizeWord size_words[] = {
    {"heaped", 1.5, 1.2, 2.0}, {"heaping", 1.5, 1.2, 2.0},    {"rounded", 1.25, 1.1, 1.5},
    {"level", 1.0, 1.0, 1.0},  {"scant", 0.9, 0.8, 1.0},      {"generous", 1.2, 1.0, 1.5},
    {"big", 1.4, 1.0, 2.0},    {"large", 1.4, 1.0, 2.0},      {"huge", 1.8, 1.2, 2.5},
    {"small", 0.7, 0.4, 1.0},  {"little", 0.7, 0.4, 1.0},     {"tiny", 0.4, 0.2, 0.7},
    {"medium", 1.0, 0.8, 1.2}, {"good", 1.1, 1.0, 1.3},       {"full", 1.0, 1.0, 1.0},
    {"loose", 1.0, 0.8, 1.0},  {"overflowing", 1.3, 1.1, 1.6}};

/// Words for an amount that nobody can weigh from afar.
inline constexpr std::array<std::string_view, 20> vague_amounts{
    "lot",    "lots",      "plenty", "bit",    "bits",  "load",   "loads",
    "pile",   "piles",     "heap",   "heaps",  "ton",   "tons",   "much",
    "little", "truckload", "stack",  "amount", "layer", "dusting"};

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

inline void say(std::string& said, const std::string& what) {
    if (what.empty() || said.find(what) != std::string::npos) return;
    said += (said.empty() ? "" : "; ") + what;
}

/// Reads amounts in one text.
class AmountReader {
public:
    AmountReader(std::string_view text, std::span<const Container> containers)
        : text_(text), containers_(containers) {
        for (const auto& container : containers)
            names_.push_back(singular_text(plain_text(container.name)));
    }

    /// The amount that starts at a place: a number with its unit, or a unit that can be one
    /// ("handful of spinach"). Errors: see parse_amount.
    Result<AmountReading> read(std::size_t at) const {
        if (trim(text_.substr(std::min(at, text_.size()))).empty())
            return amount_error(ErrorCode::empty, text_, std::string(amount_form),
                                "the amount is empty");
        auto count = read_count(text_, at);
        bool no_count = false;
        if (!count) {
            const auto unit = unit_at(after_blanks(text_, at));
            if (!unit || unit->is_defined_size()) return no_number(at);
            count.emplace();
            count->length = after_blanks(text_, at);
            no_count = true;
        }
        if (const auto wrong = check_count(*count)) return *wrong;
        AmountReading reading;
        reading.no_count = no_count;
        reading.count = *count;
        reading.end = reading.after_count = count->length;
        return with_unit(std::move(reading));
    }

    /// The words after a place, without what joins them to an amount ("of", ":", "-").
    std::string_view words_after(std::size_t at) const {
        auto rest = trim(text_.substr(std::min(at, text_.size())));
        while (!rest.empty() && (rest.front() == '-' || rest.front() == ':' ||
                                 rest.front() == ',' || rest.front() == '.'))
            rest = trim(rest.substr(1));
        // "a wheelbarrow full of leaves".
        if (const auto full = take_word(rest, 0, "full"))
            if (take_word(rest, *full, "of")) rest = trim(rest.substr(*full));
        if (const auto behind = take_word(rest, 0, "of")) rest = trim(rest.substr(*behind));
        if (const auto behind = take_word(rest, 0, "x")) rest = trim(rest.substr(*behind));
        return rest;
    }

    /// The same number counted in pieces of whatever is named.
    Amount count_of(const AmountReading& reading) const { return counted(reading.count); }

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

    /// The unit whose words start at a place; the longest one.
    std::optional<UnitAt> unit_at(std::size_t at) const {
        std::optional<UnitAt> best;
        at = after_blanks(text_, at);
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

    Result<AmountReading> with_unit(AmountReading reading) const {
        if (const auto times = take_times(reading.end)) {
            reading.end = *times;
            reading.after_count = *times;
        }
        if (auto sized = sized_vessel(reading)) return *std::move(sized);
        auto place = after_blanks(text_, reading.end);
        if (is_vague_amount(place)) return vague_amount(place);
        // "a couple of kg".
        if (const auto of = take_word(text_, place, "of"); of && unit_at(*of)) place = *of;
        const SizeWord* size = nullptr;
        auto unit = sized_unit(place, size);
        if (!unit) unit = unit_at(place);
        if (!unit) {
            reading.amount = counted(reading.count);
            reading.counted = true;
            return reading;
        }
        if (unit->unit == nullptr && unit->container == nullptr) return teaspoon_or_tonne(reading);
        reading.amount = amount_in(reading.count, *unit);
        reading.unit_is_word = !unit->is_defined_size();
        reading.end = unit->end;
        if (size != nullptr) scale(reading.amount, *size);
        if (unit->is_defined_size()) skip_vessel(reading);
        go_on(reading, *unit);
        if (!std::isfinite(reading.amount.mass.value()) ||
            !std::isfinite(reading.amount.volume.value()))
            return amount_error(ErrorCode::out_of_range, text_, "an amount that exists",
                                "the amount is larger than can be counted");
        return reading;
    }

    /// "a heaped tablespoon": the unit after a word of size. Pieces have sizes of their own.
    std::optional<UnitAt> sized_unit(std::size_t place, const SizeWord*& size) const {
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

    /// "x" or a sign of multiplication after a number.
    std::optional<std::size_t> take_times(std::size_t at) const {
        at = after_blanks(text_, at);
        if (text_.substr(at, 2) == "\xC3\x97") return at + 2;
        if (at < text_.size() && text_[at] == '*') return at + 1;
        const bool is_x = at < text_.size() && (text_[at] == 'x' || text_[at] == 'X');
        const bool alone =
            is_x && (at + 1 >= text_.size() || is_blank(text_[at + 1]) || is_digit(text_[at + 1]));
        return alone ? std::optional(at + 1) : std::nullopt;
    }

    /// "2 x 500 g", "a 10 litre bucket of": a number of amounts. "1 200 g" is asked about.
    std::optional<Result<AmountReading>> sized_vessel(const AmountReading& reading) const {
        const auto start = after_blanks(text_, reading.end);
        const auto number = read_number(text_.substr(std::min(start, text_.size())));
        if (!number || number->number <= 0.0) return std::nullopt;
        const auto unit = unit_at(start + number->length);
        if (!unit || !unit->is_defined_size()) return std::nullopt;
        CountText each;
        each.value = each.low = each.high = number->number;
        each.other = number->other;
        if (const auto wrong = check_count(each)) return Result<AmountReading>(*wrong);
        AmountReading product = reading;
        const bool times = reading.after_count > reading.count.length;
        product.end = unit->end;
        const std::size_t before = product.end;
        if (const auto vessel = unit_at(product.end); vessel && vessel->is_vessel())
            product.end = vessel->end;
        if (!times && reading.count.digits && product.end == before) {
            const std::string one(trim(text_.substr(0, reading.count.length)));
            const std::string two(trim(text_.substr(start, unit->end - start)));
            return Result<AmountReading>(ambiguous({with_beginning(one + two, unit->end),
                                                    with_beginning(one + " x " + two, unit->end)}));
        }
        product.count.value *= each.value;
        product.count.low *= each.value;
        product.count.high *= each.value;
        product.amount = amount_in(product.count, *unit);
        return Result<AmountReading>(std::move(product));
    }

    /// The bag of "500 g bag of carrots" says nothing more.
    void skip_vessel(AmountReading& reading) const {
        const auto vessel = unit_at(reading.end);
        // "200 g carton" names the carton.
        if (vessel && vessel->is_vessel() && !words_after(vessel->end).empty())
            reading.end = vessel->end;
    }

    /// What may follow: the other end of a range, a smaller unit that adds up, "and a half", the
    /// same amount in brackets.
    void go_on(AmountReading& reading, const UnitAt& unit) const {
        if (const auto part = read_and_part(text_, reading.end)) {
            add(reading.amount, part->number / reading.count.value);
            reading.end = part->length;
        }
        add_upper_end(reading, unit);
        for (int more = 0; more < 3 && add_smaller_unit(reading, unit); ++more) {
        }
        take_brackets(reading);
    }

    static void add(Amount& amount, double share) {
        amount.count *= 1.0 + share;
        amount.mass = kilograms(amount.mass.value() * (1.0 + share));
        amount.volume = cubic_metres(amount.volume.value() * (1.0 + share));
    }

    void add_upper_end(AmountReading& reading, const UnitAt& unit) const {
        const auto mark = take_range_mark(text_, reading.end);
        if (!mark || reading.count.low != reading.count.high) return;
        const auto upper = read_one_count(text_, *mark);
        if (!upper || upper->value <= 0.0) return;
        // "a cup or two": the unit is not said again.
        const auto again = unit_at(upper->length);
        double value = upper->value;
        if (again) {
            if (!same_kind(unit, *again)) return;
            value *= again->unit->size / unit.unit->size;
        } else if (upper->digits) {
            return;
        }
        if (value <= reading.count.value) return;
        CountText both = reading.count;
        both.low = both.value;
        both.high = value;
        both.value = 0.5 * (both.low + both.high);
        reading.amount = amount_in(both, unit);
        reading.end = again ? again->end : upper->length;
    }

    static bool same_kind(const UnitAt& a, const UnitAt& b) {
        return a.unit != nullptr && b.unit != nullptr && a.unit->size > 0.0 && b.unit->size > 0.0 &&
               a.unit->kind == b.unit->kind;
    }

    bool add_smaller_unit(AmountReading& reading, const UnitAt& unit) const {
        constexpr std::array<std::string_view, 4> joining{"and", "plus", "und", "et"};
        auto at = after_blanks(text_, reading.end);
        if (at < text_.size() && text_[at] == ',') ++at;  // "2 lb, 3 oz"
        if (const auto behind = take_one_of(text_, at, joining)) at = *behind;
        const auto more = read_one_count(text_, at);
        if (!more || !more->digits || more->value <= 0.0) return false;
        const auto smaller = unit_at(more->length);
        if (!smaller || !same_kind(unit, *smaller) || smaller->unit->size >= unit.unit->size)
            return false;
        const double in_first = more->value * smaller->unit->size / unit.unit->size;
        add(reading.amount, in_first / reading.amount.count);
        reading.end = smaller->end;
        return true;
    }

    /// "1 cup (110 g)": of two amounts the weight is the surer one.
    void take_brackets(AmountReading& reading) const {
        const auto open = after_blanks(text_, reading.end);
        if (open >= text_.size() || text_[open] != '(') return;
        const auto close = text_.find(')', open);
        if (close == std::string_view::npos) return;
        const auto inner = text_.substr(open + 1, close - open - 1);
        const auto count = read_count(inner);
        if (!count || count->value <= 0.0 || count->other != 0.0) return;
        const AmountReader reader(inner, {});
        const auto unit = reader.unit_at(count->length);
        if (!unit || unit->unit == nullptr || unit->end != inner.size()) return;
        if (unit->unit->kind == UnitKind::mass && reading.amount.kind != AmountKind::mass)
            reading.amount = amount_in(*count, *unit);
        reading.end = close + 1;
    }

    static Amount counted(const CountText& count) {
        Amount amount;
        amount.kind = AmountKind::measure;
        amount.unit = text(Measure::piece);
        amount.counted = true;
        set_count(amount, count);
        return amount;
    }

    static void set_count(Amount& amount, const CountText& count) {
        amount.count = count.value;
        amount.low_share = count.low / count.value;
        amount.high_share = count.high / count.value;
        if (!count.vague.empty())
            amount.said = "\"" + std::string(count.vague) + "\" is taken as " +
                          significant(count.value, 3) + ", " + significant(count.low, 3) + " to " +
                          significant(count.high, 3);
    }

    static Amount amount_in(const CountText& count, const UnitAt& found) {
        Amount amount;
        set_count(amount, count);
        if (found.container != nullptr) {
            amount.kind = AmountKind::volume;
            amount.volume = cubic_metres(count.value * found.container->volume.value());
            amount.unit = found.container->name;
            return amount;
        }
        const AmountUnit& unit = *found.unit;
        amount.kind = unit.kind == UnitKind::mass     ? AmountKind::mass
                      : unit.kind == UnitKind::volume ? AmountKind::volume
                                                      : AmountKind::measure;
        amount.count *= unit.count;
        amount.mass =
            kilograms(unit.kind == UnitKind::mass ? in_units(count.value, unit.size) : 0.0);
        amount.volume =
            litres(unit.kind == UnitKind::mass ? 0.0 : in_units(count.value, unit.size));
        amount.measure = unit.measure;
        amount.unit = std::string(unit.count == 1.0 ? unit.name : text(unit.measure));
        amount.low_share *= unit.low;
        amount.high_share *= unit.high;
        say(amount.said, what_is_assumed(found));
        return amount;
    }

    static std::string what_is_assumed(const UnitAt& found) {
        const AmountUnit& unit = *found.unit;
        const std::string plain(unit.plain_name);
        if (found.spoon_letter) return "\"T\" is taken as a tablespoon";
        if (unit.differs_by_country && !found.qualified)
            return "\"" + plain + "\" is taken as " + std::string(unit.name) + "; write imperial " +
                   plain + " for the other one";
        if (!unit.is_vessel()) return "";
        const bool small = unit.size < 0.1 && unit.kind == UnitKind::volume;
        const double factor = small ? 1000.0 : 1.0;
        const char* in = unit.kind == UnitKind::mass ? " kg" : small ? " ml" : " L";
        const bool vowel = std::string_view("aeiou").find(plain[0]) != std::string_view::npos;
        return (vowel ? "an " : "a ") + plain + " is taken as " +
               significant(unit.size * factor, 2) + in + " (" +
               significant(unit.size * unit.low * factor, 2) + " to " +
               significant(unit.size * unit.high * factor, 2) + in + ")" +
               (unit.kind == UnitKind::volume && !small ? "; give yours under containers" : "");
    }

    static void scale(Amount& amount, const SizeWord& size) {
        amount.count *= size.share;
        amount.mass = kilograms(amount.mass.value() * size.share);
        amount.volume = cubic_metres(amount.volume.value() * size.share);
        amount.low_share *= size.low / size.share;
        amount.high_share *= size.high / size.share;
    }

    bool is_vague_amount(std::size_t at) const {
        const auto end = take_one_of(text_, at, vague_amounts);
        return end && take_word(text_, *end, "of").has_value();
    }

    Error vague_amount(std::size_t at) const {
        const std::string word(word_at(text_, after_blanks(text_, at)));
        const auto behind = take_word(text_, after_blanks(text_, at) + word.size(), "of");
        const std::string thing(behind ? trim(text_.substr(*behind)) : std::string_view());
        return ambiguous_with("\"" + word + "\" may be any amount", "write for instance ",
                              {"1 kg of " + thing, "half a bucket of " + thing});
    }

    Error no_number(std::size_t at) const {
        if (is_vague_amount(at)) return vague_amount(at);
        const auto rest = trim(text_.substr(at));
        const std::string word = plain_text(rest.substr(0, rest.find(' ')));
        const bool not_finite = word == "nan" || word == "inf" || word == "infinity";
        return amount_error(not_finite ? ErrorCode::not_a_number : ErrorCode::wrong_type, text_,
                            std::string(amount_form),
                            "\"" + std::string(rest) + "\" does not start with a number");
    }

    Error ambiguous(std::vector<std::string> readings) const {
        return ambiguous_with("\"" + std::string(text_) + "\" can be read in two ways", "write ",
                              std::move(readings));
    }
    Error ambiguous_with(const std::string& what, const std::string& lead,
                         std::vector<std::string> repairs) const {
        Error error = amount_error(ErrorCode::ambiguous_amount, text_, "", what + "; ");
        const std::size_t before = error.message.size();
        error = offered(std::move(error), lead, std::move(repairs));
        error.allowed = error.message.substr(before);
        return error;
    }

    /// The text with another beginning instead of its first characters.
    std::string with_beginning(const std::string& beginning, std::size_t length) const {
        return beginning + std::string(text_.substr(std::min(length, text_.size())));
    }

    /// "1 t" is a teaspoon to a cook and a tonne to a yard.
    Error teaspoon_or_tonne(const AmountReading& reading) const {
        const std::string number(trim(text_.substr(0, reading.count.length)));
        const auto behind = after_blanks(text_, reading.end) + 1;
        return ambiguous({with_beginning(number + " teaspoon", behind),
                          with_beginning(number + " tonne", behind)});
    }

    std::optional<Error> check_count(const CountText& count) const {
        if (!std::isfinite(count.value) || !std::isfinite(count.high))
            return amount_error(ErrorCode::not_a_number, text_, std::string(amount_form),
                                "the amount is not a finite number");
        if (count.value < 0.0)
            return offered(amount_error(ErrorCode::out_of_range, text_, "more than 0",
                                        "an amount cannot be negative"),
                           "; write ",
                           {with_beginning(significant(-count.value, 9), count.length)});
        if (std::min(count.low, count.high) <= 0.0)
            return amount_error(ErrorCode::out_of_range, text_, "more than 0",
                                "an amount of zero says nothing; leave the entry out");
        if (count.other != 0.0)
            return ambiguous({with_beginning(significant(count.other / 1000.0, 9), count.length),
                              with_beginning(significant(count.other, 9), count.length)});
        if (count.low > count.high)
            return offered(
                amount_error(ErrorCode::low_above_high, text_, "the lower end first",
                             "the lower end is above the upper end"),
                "; write ",
                {with_beginning(significant(count.high, 6) + " to " + significant(count.low, 6),
                                count.length)});
        return std::nullopt;
    }

    std::string_view text_;
    std::span<const Container> containers_;
    std::vector<std::string> names_;
};

}  // namespace feed::detail
