#include "today.hpp"

#include <cstdlib>
#include <ctime>
#include <string_view>

#include "feed/io/human_text.hpp"

namespace feed_command {
namespace {

/// Whole seconds since 1970, or nothing where the text is no such number.
std::optional<std::time_t> seconds_of(const char* text) {
    if (text == nullptr || *text == '\0') return std::nullopt;
    std::time_t seconds = 0;
    const std::string_view digits(text);
    if (digits.size() > 12) return std::nullopt;
    for (const char c : digits) {
        if (c < '0' || c > '9') return std::nullopt;
        seconds = 10 * seconds + (c - '0');
    }
    return seconds;
}

}  // namespace

feed::Date today() {
    // One thread, and nothing here changes the environment.
    const auto fixed =
        seconds_of(std::getenv("SOURCE_DATE_EPOCH"));  // NOLINT(concurrency-mt-unsafe)
    const std::time_t now = fixed ? *fixed : std::time(nullptr);
    std::tm parts{};
    if (fixed)
        gmtime_r(&now, &parts);
    else
        localtime_r(&now, &parts);
    return {parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday};
}

feed::Result<feed::Date> date_of_call(const Arguments& arguments) {
    if (!arguments.has("--date")) return today();
    const std::string& written = arguments.options.at("--date");
    if (const auto date = feed::parse_date(written)) return *date;
    feed::Error error;
    error.code = feed::ErrorCode::out_of_range;
    error.field = "--date";
    error.value = written;
    error.allowed = "a day such as 2026-03-14 (year-month-day)";
    error.message = "this is not a day of the calendar written as year-month-day";
    return error;
}

std::optional<feed::Error> lies_ahead(feed::Date date, const Arguments& arguments) {
    const auto days = feed::day_number(date) - feed::day_number(today());
    if (days <= 0 || arguments.has("--force")) return std::nullopt;
    feed::Error error;
    error.code = feed::ErrorCode::out_of_range;
    error.field = "--date";
    error.value = feed::text(date);
    error.allowed =
        "today, " + feed::text(today()) + ", or a day before; --force takes it as it is";
    error.message = "this day is " + feed::io::counted(static_cast<std::size_t>(days), "day") +
                    " ahead; is it meant?";
    return error;
}

}  // namespace feed_command
