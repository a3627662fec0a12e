#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace feed {

/// A day of the Gregorian calendar, run backwards without end (proleptic).
struct Date {
    int year = 1970;
    int month = 1;
    int day = 1;
    friend constexpr bool operator==(const Date&, const Date&) noexcept = default;
};

constexpr bool is_leap_year(int year) noexcept {
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

/// Days in a month 1..12 of a year.
constexpr int days_in_month(int year, int month) noexcept {
    constexpr int lengths[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month == 2 && is_leap_year(year) ? 29 : lengths[month - 1];
}

/// Days since 1970-01-01, negative before. Constant time.
/// The year is counted from March, so that the leap day is its last; 400 years have 146,097 days.
constexpr std::int64_t day_number(Date date) noexcept {
    const std::int64_t year = date.month > 2 ? date.year : date.year - 1;
    const std::int64_t era = (year >= 0 ? year : year - 399) / 400;
    const std::int64_t year_of_era = year - era * 400;
    const std::int64_t month_from_march = date.month > 2 ? date.month - 3 : date.month + 9;
    const std::int64_t day_of_year = (153 * month_from_march + 2) / 5 + date.day - 1;
    const std::int64_t day_of_era =
        year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return era * 146097 + day_of_era - 719468;
}

/// The weekday of a day, 0 for Thursday as day 0 was one, to 6 for Wednesday.
constexpr std::int64_t weekday_number(Date date) noexcept {
    return ((day_number(date) % 7) + 7) % 7;
}

/// The day with a number; inverse of `day_number`.
constexpr Date date_of(std::int64_t number) noexcept {
    const std::int64_t shifted = number + 719468;
    const std::int64_t era = (shifted >= 0 ? shifted : shifted - 146096) / 146097;
    const std::int64_t day_of_era = shifted - era * 146097;
    const std::int64_t year_of_era =
        (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    const std::int64_t day_of_year =
        day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    const std::int64_t month_from_march = (5 * day_of_year + 2) / 153;
    const auto day = static_cast<int>(day_of_year - (153 * month_from_march + 2) / 5 + 1);
    const auto month =
        static_cast<int>(month_from_march < 10 ? month_from_march + 3 : month_from_march - 9);
    const auto year = static_cast<int>(year_of_era + era * 400 + (month <= 2 ? 1 : 0));
    return {year, month, day};
}

/// Reads "2026-03-14" (ISO 8601, extended form, years 0001 to 9999). Nothing when the text is not
/// such a date or the day does not exist. No allocation, no locale.
constexpr std::optional<Date> parse_date(std::string_view text) noexcept {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto number = [&](std::size_t from, std::size_t count) {
        int value = 0;
        for (std::size_t i = from; i < from + count; ++i) {
            if (text[i] < '0' || text[i] > '9') return -1;
            value = value * 10 + (text[i] - '0');
        }
        return value;
    };
    const Date date{number(0, 4), number(5, 2), number(8, 2)};
    if (date.year < 1 || date.month < 1 || date.month > 12) return std::nullopt;
    if (date.day < 1 || date.day > days_in_month(date.year, date.month)) return std::nullopt;
    return date;
}

/// "2026-03-14". Years 0 to 9999.
inline std::string text(Date date) {
    std::string written = "0000-00-00";
    const auto put = [&](int value, std::size_t from, std::size_t count) {
        for (std::size_t i = from + count; i > from; --i, value /= 10)
            written[i - 1] = static_cast<char>('0' + value % 10);
    };
    put(date.year, 0, 4);
    put(date.month, 5, 2);
    put(date.day, 8, 2);
    return written;
}

}  // namespace feed
