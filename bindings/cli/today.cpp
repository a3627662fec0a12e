#include "today.hpp"

#include <cstdlib>
#include <ctime>
#include <string_view>

#include "command.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/note.hpp"

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
    if (const auto date = feed::io::day_said(written, today())) return *date;
    return offered(feed::make_error(feed::ErrorCode::out_of_range, "--date", written,
                                    "a day such as 2026-03-14 (year-month-day), today or yesterday",
                                    "this is no day as it is written here"),
                   "; write for instance ", {"today", "yesterday", feed::text(today())});
}

std::optional<feed::Error> lies_ahead(feed::Date date, const Arguments& arguments) {
    const auto days = feed::day_number(date) - feed::day_number(today());
    if (days <= 0 || arguments.has("--force")) return std::nullopt;
    const std::string now = feed::text(today());
    const std::string ahead = feed::io::counted(static_cast<std::size_t>(days), "day");
    return feed::make_error(feed::ErrorCode::out_of_range, "--date", feed::text(date),
                            "today, " + now + ", or a day before; --force takes it as it is",
                            "this day is " + ahead + " ahead; is it meant?");
}

}  // namespace feed_command
