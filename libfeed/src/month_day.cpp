#include "month_day.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "note_day.hpp"

namespace feed::io {
namespace {

using feed::detail::trim;
using Tokens = std::vector<std::string_view>;

constexpr std::size_t most_tokens = 6;  // "on Mon 30 of November 2025"

std::optional<int> month_named(std::string_view word) {
    constexpr std::array<std::string_view, 12> months{
        "january", "february", "march",     "april",   "may",      "june",
        "july",    "august",   "september", "october", "november", "december"};
    const std::string plain = plain_text(word);
    for (std::size_t month = 0; month < months.size(); ++month)
        if (plain.size() >= 3 && months[month].substr(0, plain.size()) == plain)
            return static_cast<int>(month) + 1;
    return std::nullopt;
}

/// A number of that many digits at most, perhaps as "3rd" or "3.".
std::optional<int> number_in(std::string_view word, std::size_t least_digits,
                             std::size_t most_digits) {
    std::size_t digits = 0;
    int value = 0;
    while (digits < word.size() && word[digits] >= '0' && word[digits] <= '9') {
        if (digits == most_digits) return std::nullopt;
        value = 10 * value + (word[digits++] - '0');
    }
    const std::string behind = plain_text(word.substr(digits));
    const bool ends = behind.empty() || behind == "st" || behind == "nd" || behind == "rd" ||
                      behind == "th" || behind == ".";
    if (digits < least_digits || !ends) return std::nullopt;
    return value;
}

/// Words parted at blanks, commas and colons, at most so many.
Tokens tokens_of(std::string_view words) {
    Tokens tokens;
    constexpr std::string_view parting = " ,:";
    while (tokens.size() < most_tokens) {
        const auto from = words.find_first_not_of(parting);
        if (from == std::string_view::npos) break;
        words.remove_prefix(from);
        tokens.push_back(words.substr(0, words.find_first_of(parting)));
        words.remove_prefix(tokens.back().size());
    }
    return tokens;
}

/// The last such day up to `today`; or the next one where that comes soon: "5 Dec" at the end of
/// November is a slip that the caller asks about, and not last year's.
std::optional<Date> nearest_such_day(int month, int day, Date today) {
    constexpr std::int64_t soon_days = 60;
    constexpr int leap_years_apart = 8;  // 1896 to 1904
    for (int year = today.year + 1; year >= today.year - leap_years_apart; --year) {
        const Date date{year, month, day};
        if (parse_date(text(date)) && day_number(date) <= day_number(today) + soon_days)
            return date;
    }
    return std::nullopt;
}

struct Found {
    Date date;
    std::size_t tokens = 0;
};

/// A day of a month in the first tokens.
std::optional<Found> day_in(const Tokens& tokens, Date today) {
    std::size_t at = 0;
    const auto is = [&](std::string_view word) {
        return at < tokens.size() && plain_text(tokens[at]) == word;
    };
    if (is("on")) ++at;
    if (at < tokens.size() && weekday_named(tokens[at])) ++at;
    if (is("the")) ++at;
    if (at + 1 >= tokens.size()) return std::nullopt;
    std::optional<int> month = month_named(tokens[at]);
    std::optional<int> day;
    if (month) {
        day = number_in(tokens[at + 1], 1, 2);
        at += 2;
    } else {
        day = number_in(tokens[at++], 1, 2);
        if (is("of")) ++at;
        if (at < tokens.size()) month = month_named(tokens[at++]);
    }
    if (!month || !day) return std::nullopt;
    const auto year = at < tokens.size() ? number_in(tokens[at], 4, 4) : std::nullopt;
    if (year) {
        const Date date{*year, *month, *day};
        if (!parse_date(text(date))) return std::nullopt;
        return Found{date, at + 1};
    }
    const auto date = nearest_such_day(*month, *day, today);
    if (!date) return std::nullopt;
    return Found{*date, at};
}

}  // namespace

std::optional<Date> take_month_day_at_start(std::string_view& words, Date today) {
    const Tokens tokens = tokens_of(words);
    const auto found = day_in(tokens, today);
    if (!found) return std::nullopt;
    const std::string_view last = tokens[found->tokens - 1];
    words.remove_prefix(static_cast<std::size_t>(last.data() - words.data()) + last.size());
    while (!words.empty() && (words.front() == ':' || words.front() == ','))
        words.remove_prefix(1);
    words = trim(words);
    return found->date;
}

std::optional<Date> take_month_day_at_end(std::string_view& words, Date today) {
    // The longest text at the end that is nothing but a day.
    std::vector<std::size_t> starts;
    for (std::size_t at = 1; at < words.size(); ++at)
        if (words[at - 1] == ' ' && words[at] != ' ') starts.push_back(at);
    const std::size_t tried = std::min(starts.size(), most_tokens);
    for (std::size_t i = starts.size() - tried; i < starts.size(); ++i) {
        std::string_view end = words.substr(starts[i]);
        const auto date = take_month_day_at_start(end, today);
        if (!date || !end.empty()) continue;
        words = trim(words.substr(0, starts[i]));
        while (!words.empty() && (words.back() == ',' || words.back() == ':'))
            words.remove_suffix(1);
        return date;
    }
    return std::nullopt;
}

}  // namespace feed::io
