#include "note_day.hpp"

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "feed/feedstock/count_text.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "month_day.hpp"
#include "note_text.hpp"

namespace feed::io {
namespace {

using feed::detail::trim;

/// Words at either end that say how many days ago it was.
constexpr std::array<std::pair<std::string_view, std::int64_t>, 10> day_words_said{
    {{"yesterday morning", 1},
     {"yesterday evening", 1},
     {"last night", 1},
     {"yesterday", 1},
     {"this morning", 0},
     {"this afternoon", 0},
     {"this evening", 0},
     {"just now", 0},
     {"tonight", 0},
     {"today", 0}}};

/// The text without words at its start, in any case; nothing where they do not stand there.
std::optional<std::string_view> without_start(std::string_view text, std::string_view words) {
    if (text.size() <= words.size() || !parts_words(text[words.size()])) return std::nullopt;
    if (plain_text(text.substr(0, words.size())) != words) return std::nullopt;
    text.remove_prefix(words.size());
    while (!text.empty() && parts_words(text.front()))
        text.remove_prefix(1);
    return text;
}

std::string_view last_word(std::string_view text) {
    const auto blank = text.find_last_of(' ');
    return blank == std::string_view::npos ? std::string_view() : text.substr(blank + 1);
}

/// Days since a weekday was last, 0 where it is today.
std::int64_t days_since(std::int64_t weekday, Date today) {
    return (weekday_number(today) - weekday + 7) % 7;
}

/// "... on Monday", "... last Monday", "... Monday".
std::optional<std::int64_t> take_weekday_at_end(std::string_view& words, Date today) {
    const std::string_view word = last_word(words);
    const auto day = weekday_named(word);
    if (!day) return std::nullopt;
    const std::string_view rest = trim(words.substr(0, words.size() - word.size()));
    const auto before = last_word(rest);
    const bool joined = plain_text(before) == "on" || plain_text(before) == "last";
    constexpr std::size_t shortest_full_name = 6;
    // "In the sun" names no day.
    if (!joined && word.size() < shortest_full_name) return std::nullopt;
    words = joined ? trim(rest.substr(0, rest.size() - before.size())) : rest;
    return days_since(*day, today);
}

/// "... 2 days ago", "... a week ago".
std::optional<std::int64_t> take_ago(std::string_view& words) {
    const auto rest = without_end(words, "ago");
    if (!rest) return std::nullopt;
    const std::string unit = singular(plain_text(last_word(*rest)));
    if (unit != "day" && unit != "week") return std::nullopt;
    const std::string_view counted = trim(rest->substr(0, rest->size() - last_word(*rest).size()));
    const bool alone = counted.find(' ') == std::string_view::npos;
    const std::string_view number = alone ? counted : last_word(counted);
    const auto count = feed::detail::read_count(number);
    constexpr double most_days = 400.0;
    if (!count || count->length != number.size() || count->value < 1.0) return std::nullopt;
    const double days = count->value * (unit == "week" ? 7.0 : 1.0);
    if (days > most_days) return std::nullopt;
    words = trim(counted.substr(0, counted.size() - number.size()));
    return std::llround(days);
}

/// "on Monday ...", "last Monday ...", "2 days ago ...": the day before the words.
std::optional<std::int64_t> take_day_at_start(std::string_view& words, Date today) {
    for (const std::string_view joins : {"on", "last"}) {
        const auto rest = without_start(words, joins);
        if (!rest) continue;
        const auto word = rest->substr(0, rest->find_first_of(" :,"));
        const auto day = weekday_named(word);
        if (!day || word.size() == rest->size()) continue;
        words = trim(rest->substr(word.size() + 1));
        return days_since(*day, today);
    }
    constexpr std::string_view ago = " ago ";
    const auto at = words.find(ago);
    if (at == std::string_view::npos) return std::nullopt;
    std::string_view when = words.substr(0, at + ago.size() - 1);
    const auto days = take_ago(when);
    if (!days || !when.empty()) return std::nullopt;
    words = trim(words.substr(at + ago.size()));
    return days;
}

/// A date at the start, perhaps behind "on".
std::optional<Date> take_date_at_start(std::string_view& words) {
    std::string_view rest = without_start(words, "on").value_or(words);
    const auto date = parse_date(rest.substr(0, 10));
    if (!date) return std::nullopt;
    rest.remove_prefix(10);
    if (!rest.empty() && rest.front() == ':') rest.remove_prefix(1);
    words = trim(rest);
    return date;
}

}  // namespace

std::optional<std::int64_t> weekday_named(std::string_view word) {
    constexpr std::array<std::string_view, 7> weekdays{"thursday", "friday",  "saturday", "sunday",
                                                       "monday",   "tuesday", "wednesday"};
    const std::string plain = plain_text(word);
    for (std::size_t day = 0; day < weekdays.size(); ++day)
        if (plain.size() >= 3 && weekdays[day].substr(0, plain.size()) == plain)
            return static_cast<std::int64_t>(day);
    return std::nullopt;
}

Date take_day(std::string_view& words, Date today) {
    const auto ago = [&](std::int64_t days) { return date_of(day_number(today) - days); };
    if (const auto date = take_date_at_start(words)) return *date;
    if (const auto date = take_month_day_at_start(words, today)) return *date;
    for (const auto& [said, days] : day_words_said) {
        if (const auto rest = without_start(words, said)) {
            words = *rest;
            return ago(days);
        }
    }
    const auto start = words.substr(0, words.find(' '));
    constexpr std::size_t shortest_full_name = 6;
    if (const auto day = weekday_named(start); day && start.size() >= shortest_full_name) {
        words = trim(words.substr(start.size()));
        return ago(days_since(*day, today));
    }
    if (const auto days = take_day_at_start(words, today)) return ago(*days);
    if (without_start(words, "note")) return today;
    for (const auto& [said, days] : day_words_said) {
        if (const auto rest = without_end(words, said)) {
            words = *rest;
            return ago(days);
        }
    }
    if (const auto date = take_month_day_at_end(words, today)) return *date;
    if (const auto days = take_weekday_at_end(words, today)) return ago(*days);
    if (const auto days = take_ago(words)) return ago(*days);
    return today;
}

}  // namespace feed::io
