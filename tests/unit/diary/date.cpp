#include "feed/diary/date.hpp"

#include "catch2.hpp"

using feed::Date;

TEST_CASE("well-known days have their numbers") {
    CHECK(feed::day_number({1970, 1, 1}) == 0);
    CHECK(feed::day_number({2000, 3, 1}) == 11017);  // Unix time 951868800 / 86400
    CHECK(feed::day_number({1969, 12, 31}) == -1);
    // Julian day of 1858-11-17 is 2400000.5 and of 1970-01-01 is 2440587.5 (US Naval Observatory).
    CHECK(feed::day_number({1858, 11, 17}) == 2400000 - 2440587);
    CHECK(feed::day_number({2026, 1, 1}) - feed::day_number({2025, 1, 1}) == 365);
    CHECK(feed::day_number({2025, 1, 1}) - feed::day_number({2024, 1, 1}) == 366);
}

TEST_CASE("every day of eight centuries follows the one before and comes back") {
    std::int64_t number = feed::day_number({1599, 12, 31});
    for (int year = 1600; year < 2400; ++year) {
        for (int month = 1; month <= 12; ++month) {
            for (int day = 1; day <= feed::days_in_month(year, month); ++day) {
                const Date date{year, month, day};
                if (feed::day_number(date) != ++number || !(feed::date_of(number) == date))
                    FAIL("at " << feed::text(date));
            }
        }
    }
    CHECK(number == feed::day_number({2399, 12, 31}));
    CHECK(feed::day_number({2400, 1, 1}) - feed::day_number({2000, 1, 1}) == 146097);
}

TEST_CASE("ISO dates are read and everything else is not") {
    CHECK(feed::parse_date("2026-03-14") == Date{2026, 3, 14});
    CHECK(feed::parse_date("2024-02-29") == Date{2024, 2, 29});
    for (const char* wrong :
         {"2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-4-1",
          "14/03/2026", "2026-03-14T08:00", "20260314", "", "0000-01-01", "2026-03-1x"}) {
        INFO(wrong);
        CHECK_FALSE(feed::parse_date(wrong).has_value());
    }
    CHECK(feed::text(Date{987, 6, 5}) == "0987-06-05");
}
