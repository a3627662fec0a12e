#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace feed {

/// A number read from the start of a text, and how many characters it took.
struct NumberText {
    double number = 0.0;
    std::size_t length = 0;
    /// The other reading of a comma before three digits ("1,200": 1.2 or 1200), else 0.
    double other = 0.0;
};

namespace detail {

constexpr bool is_digit(char c) noexcept {
    return c >= '0' && c <= '9';
}

constexpr std::string_view trim(std::string_view text) noexcept {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t'))
        text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
        text.remove_suffix(1);
    return text;
}

/// Scales by a power of ten. Exact to the last bit for the up to 15 digits people write: both the
/// digits and 10^22 are exact doubles, and one division or product rounds once (Clinger 1990).
constexpr double scale_by_ten(double digits, int exponent) noexcept {
    constexpr double powers[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                 1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    while (exponent > 22) {
        digits *= 1e22;
        exponent -= 22;
    }
    while (exponent < -22) {
        digits /= 1e22;
        exponent += 22;
    }
    return exponent < 0 ? digits / powers[-exponent] : digits * powers[exponent];
}

/// The exponent after a number ("e-3"), and how many characters it takes; 0 where there is none.
constexpr std::size_t read_exponent(std::string_view text, int& exponent) noexcept {
    if (text.size() < 2 || (text[0] != 'e' && text[0] != 'E')) return 0;
    const bool negative = text[1] == '-';
    const std::size_t first = negative || text[1] == '+' ? 2 : 1;
    std::size_t next = first;
    int power = 0;
    for (; next < text.size() && is_digit(text[next]); ++next) {
        if (power < 10000) power = power * 10 + (text[next] - '0');
    }
    if (next == first) return 0;
    exponent += negative ? -power : power;
    return next;
}

/// What the first comma and point of a number are: its decimal mark, or marks between thousands.
struct NumberMarks {
    char decimal = '.';
    char thousands = '\0';
    bool either = false;  ///< "1,200": a comma that may be both
};

/// The place after a run of digits.
constexpr std::size_t after_digits(std::string_view text, std::size_t at) noexcept {
    while (at < text.size() && is_digit(text[at]))
        ++at;
    return at;
}

/// A comma is a decimal mark unless exactly three digits follow it; several groups of three, or a
/// point after the group, make it a mark of thousands.
constexpr NumberMarks number_marks(std::string_view text) noexcept {
    const std::size_t whole = after_digits(text, 0);
    if (whole == 0 || whole >= text.size()) return {};
    const char first = text[whole];
    if (first != ',' && first != '.') return {};
    const std::size_t group = after_digits(text, whole + 1);
    const std::size_t digits = group - whole - 1;
    if (digits == 0) return {};
    const char other = first == ',' ? '.' : ',';
    const bool thousands = digits == 3 && whole <= 3 && text[0] != '0';
    const auto followed_by = [&](char mark) {
        return group + 1 < text.size() && text[group] == mark && is_digit(text[group + 1]);
    };
    if (thousands && followed_by(other)) return {other, first, false};
    if (thousands && followed_by(first)) return {other, first, false};
    if (first == '.') return {};
    return {',', '\0', thousands};
}

/// Digits with at most one decimal mark and an optional exponent, no sign.
constexpr std::optional<NumberText> read_decimal(std::string_view text) noexcept {
    const NumberMarks marks = number_marks(text);
    std::uint64_t digits = 0;
    int exponent = 0;
    std::size_t at = 0;
    bool any = false;
    bool point = false;
    for (; at < text.size(); ++at) {
        const char c = text[at];
        const bool digit_follows = at + 1 < text.size() && is_digit(text[at + 1]);
        if (c == marks.decimal && !point && (c == '.' || digit_follows)) {
            point = true;
        } else if (c == marks.thousands && c != '\0' && !point && digit_follows) {
            continue;
        } else if (is_digit(c)) {
            any = true;
            if (digits < 100000000000000000ULL) {
                digits = digits * 10 + static_cast<std::uint64_t>(c - '0');
                if (point) --exponent;
            } else if (!point) {
                ++exponent;
            }
        } else {
            break;
        }
    }
    if (!any) return std::nullopt;
    if (text[at - 1] == '.') return std::nullopt;
    at += read_exponent(text.substr(at), exponent);
    if (exponent > 400 || exponent < -400) return std::nullopt;
    NumberText read{scale_by_ten(static_cast<double>(digits), exponent), at, 0.0};
    if (marks.either) read.other = read.number * 1000.0;
    return read;
}

struct VulgarFraction {
    std::string_view utf8;
    double number;
};
inline constexpr VulgarFraction vulgar_fractions[] = {
    {"\xC2\xBC", 0.25},          {"\xC2\xBD", 0.5},           {"\xC2\xBE", 0.75},
    {"\xE2\x85\x93", 1.0 / 3.0}, {"\xE2\x85\x94", 2.0 / 3.0}, {"\xE2\x85\x9B", 0.125},
    {"\xE2\x85\x9C", 0.375},     {"\xE2\x85\x9D", 0.625},     {"\xE2\x85\x9E", 0.875}};

constexpr std::optional<NumberText> read_vulgar(std::string_view text) noexcept {
    for (const auto& fraction : vulgar_fractions) {
        if (text.substr(0, fraction.utf8.size()) == fraction.utf8) {
            return NumberText{fraction.number, fraction.utf8.size(), 0.0};
        }
    }
    return std::nullopt;
}

constexpr std::size_t blanks(std::string_view text) noexcept {
    std::size_t count = 0;
    while (count < text.size() && text[count] == ' ')
        ++count;
    return count;
}

/// "/2" after a numerator, with the plain slash or the sign for fractions (U+2044).
constexpr std::optional<NumberText> read_denominator(std::string_view text) noexcept {
    constexpr std::string_view fraction_slash = "\xE2\x81\x84";
    std::size_t slash = 0;
    if (text.substr(0, 1) == "/") slash = 1;
    if (text.substr(0, fraction_slash.size()) == fraction_slash) slash = fraction_slash.size();
    if (slash == 0) return std::nullopt;
    const auto below = read_decimal(text.substr(slash));
    if (!below || below->number == 0.0) return std::nullopt;
    return NumberText{below->number, below->length + slash, 0.0};
}

}  // namespace detail

/// Reads a number the way people write amounts: "1.2", "3e-2", "1/2", "1 1/2", a vulgar fraction
/// sign alone or after a whole number, with an optional sign. The decimal mark is a point in every
/// locale; a comma where it can only be one ("1,5"). Returns the number, the characters taken and,
/// for a comma that may part thousands, the other reading; or nothing when the text does not start
/// with one. Threads: pure.
constexpr std::optional<NumberText> read_number(std::string_view text) noexcept {
    std::size_t start = 0;
    double sign = 1.0;
    if (!text.empty() && (text.front() == '-' || text.front() == '+')) {
        sign = text.front() == '-' ? -1.0 : 1.0;
        start = 1;
    }
    const auto rest = text.substr(start);
    if (const auto vulgar = detail::read_vulgar(rest)) {
        return NumberText{sign * vulgar->number, start + vulgar->length, 0.0};
    }
    const auto whole = detail::read_decimal(rest);
    if (!whole) return std::nullopt;
    const auto after = rest.substr(whole->length);
    if (const auto below = detail::read_denominator(after)) {
        return NumberText{sign * (whole->number / below->number),
                          start + whole->length + below->length, 0.0};
    }
    const std::size_t gap = detail::blanks(after);
    const auto tail = after.substr(gap);
    if (const auto vulgar = detail::read_vulgar(tail)) {
        return NumberText{sign * (whole->number + vulgar->number),
                          start + whole->length + gap + vulgar->length, 0.0};
    }
    // "1 1/2", and "1-1/2" as recipes of the United States write it.
    const bool dash = gap == 0 && !after.empty() && after.front() == '-';
    if (dash) {
        const auto above = detail::read_decimal(after.substr(1));
        const auto below =
            above ? detail::read_denominator(after.substr(1 + above->length)) : std::nullopt;
        if (below && above->number < below->number)
            return NumberText{sign * (whole->number + above->number / below->number),
                              start + whole->length + 1 + above->length + below->length, 0.0};
    }
    if (gap > 0) {
        if (const auto above = detail::read_decimal(tail)) {
            if (const auto below = detail::read_denominator(tail.substr(above->length))) {
                return NumberText{sign * (whole->number + above->number / below->number),
                                  start + whole->length + gap + above->length + below->length, 0.0};
            }
        }
    }
    return NumberText{sign * whole->number, start + whole->length, whole->other};
}

/// A number that fills the whole text and has one reading, or nothing.
constexpr std::optional<double> parse_number(std::string_view text) noexcept {
    const auto clean = detail::trim(text);
    const auto number = read_number(clean);
    if (!number || number->length != clean.size() || number->other != 0.0) return std::nullopt;
    return number->number;
}

}  // namespace feed
