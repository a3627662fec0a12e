#pragma once
#include <algorithm>
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
#include "feed/feedstock/size_words.hpp"
#include "feed/feedstock/unit_reader.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/in_units.hpp"
#include "feed/quantity/number_print.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"

namespace feed::detail {

/// An amount that was read, and where it ends in the text.
struct AmountReading {
    Amount amount;
    CountText count;
    std::size_t after_count = 0;
    std::size_t end = 0;
    bool counted = false;       ///< there was no unit
    bool no_count = false;      ///< there was no number ("handful of spinach")
    bool of_vessel = false;     ///< a vessel of a size that was said ("10 L bucket")
    bool unit_is_word = false;  ///< the unit may be the name of a thing ("2 boxes")
};

inline void say(std::string& said, const std::string& what) {
    if (what.empty() || said.find(what) != std::string::npos) return;
    said += (said.empty() ? "" : "; ") + what;
}

/// Reads amounts in one text.
class AmountReader : public UnitReader {
public:
    using UnitReader::UnitReader;

    /// The amount that starts at a place: a number with its unit, or a unit that can be one
    /// ("handful of spinach"). Errors: see parse_amount.
    Result<AmountReading> read(std::size_t at) const {
        if (trim(text_.substr(std::min(at, text_.size()))).empty())
            return amount_error(ErrorCode::empty, text_, std::string(amount_form),
                                "the amount is empty");
        auto count = read_count(text_, at);
        bool no_count = false;
        if (!count) {
            const SizeWord* size = nullptr;
            auto unit = unit_at(after_blanks(text_, at));
            if (!unit) unit = sized_unit(after_blanks(text_, at), size);
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

    /// The same number counted in pieces of whatever is named.
    Amount count_of(const AmountReading& reading) const { return counted(reading.count); }

private:
    Result<AmountReading> with_unit(AmountReading reading) const {
        if (const auto times = take_times(reading.end)) {
            reading.end = *times;
            reading.after_count = *times;
        }
        if (auto sized = sized_vessel(reading)) return *std::move(sized);
        auto place = after_blanks(text_, reading.end);
        if (const auto vague = vague_amount_at(place)) return vague_amount(*vague);
        // "a couple of kg".
        if (const auto of = take_word(text_, place, "of"); of && unit_at(*of)) place = *of;
        const SizeWord* size = nullptr;
        auto unit = sized_unit(place, size);
        if (!unit) unit = unit_at(place);
        std::string kind;
        if (!unit) unit = vessel_behind(place, kind);
        if (!unit && place < text_.size() && text_[place] == '%')
            return amount_error(ErrorCode::wrong_type, trim(text_.substr(0, place + 1)),
                                std::string(amount_form), "a share is no amount");
        if (!unit) {
            reading.amount = counted(reading.count);
            reading.counted = true;
            return reading;
        }
        if (unit->unit == nullptr && unit->container == nullptr) return teaspoon_or_tonne(reading);
        reading.amount = amount_in(reading.count, *unit);
        reading.unit_is_word = !unit->is_defined_size();
        reading.end = unit->end;
        if (!kind.empty()) say(reading.amount.said, kind);
        if (size != nullptr) scale(reading.amount, *size);
        if (const auto so = skip_or_so(text_, reading.end)) {
            reading.end = *so;
            reading.amount.low_share *= 1.0 - about_spread;
            reading.amount.high_share *= 1.0 + about_spread;
        }
        if (unit->is_defined_size()) skip_vessel(reading);
        take_fill(reading, *unit);
        go_on(reading, *unit);
        if (!std::isfinite(reading.amount.mass.value()) ||
            !std::isfinite(reading.amount.volume.value()))
            return amount_error(ErrorCode::out_of_range, text_, "an amount that exists",
                                "the amount is larger than can be counted");
        return reading;
    }

    /// "a bucket half full of leaves", "a 10 L bucket, half full".
    void take_fill(AmountReading& reading, const UnitAt& unit) const {
        if (!unit.is_vessel() && !reading.of_vessel) return;
        std::size_t end = 0;
        const SizeWord* fill = fill_at(text_, reading.end, end);
        if (fill == nullptr) return;
        scale(reading.amount, *fill);
        reading.end = end;
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
        if (const auto vessel = unit_at(product.end); vessel && vessel->is_vessel()) {
            product.end = vessel->end;
            product.of_vessel = true;
        }
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
        take_fill(product, *unit);
        return Result<AmountReading>(std::move(product));
    }

    /// The bag of "500 g bag of carrots" says nothing more.
    void skip_vessel(AmountReading& reading) const {
        const auto vessel = unit_at(reading.end);
        // "200 g carton" names the carton.
        if (vessel && vessel->is_vessel() && !words_after(vessel->end).empty()) {
            reading.end = vessel->end;
            reading.of_vessel = true;
        }
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
        // "a whole cabbage": one of whatever people count of it.
        if (unit.name == "whole") {
            amount.kind = AmountKind::measure;
            amount.unit = text(Measure::piece);
            amount.counted = true;
            return amount;
        }
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

    /// "lots of", "a tiny bit of": where the vague word stands.
    std::optional<std::size_t> vague_amount_at(std::size_t at) const {
        if (is_vague_amount(at)) return at;
        for (const std::string_view size :
             {"tiny", "little", "small", "wee", "big", "huge", "good", "fair", "whole"}) {
            const auto behind = take_word(text_, at, size);
            if (behind && is_vague_amount(*behind)) return after_blanks(text_, *behind);
        }
        return std::nullopt;
    }

    Error vague_amount(std::size_t at) const {
        const std::string word(word_at(text_, after_blanks(text_, at)));
        const auto behind = take_word(text_, after_blanks(text_, at) + word.size(), "of");
        const std::string thing(behind ? trim(text_.substr(*behind)) : std::string_view());
        return ambiguous_with("\"" + word + "\" may be any amount", "write for instance ",
                              {"1 kg of " + thing, "half a bucket of " + thing});
    }

    Error no_number(std::size_t at) const {
        if (const auto vague = vague_amount_at(at)) return vague_amount(*vague);
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
};

}  // namespace feed::detail
