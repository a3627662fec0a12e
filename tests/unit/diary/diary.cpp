#include "feed/diary/diary.hpp"

#include "catch2.hpp"
#include "table_portion.hpp"

using feed::Date;
using feed::Diary;
using feed::Observation;
using feed_test::Approx;
using feed_test::portion;

namespace {

Observation look(Date date) {
    Observation seen;
    seen.date = date;
    return seen;
}

std::string texts(const std::vector<feed::Slip>& slips) {
    std::string all;
    for (const feed::Slip& slip : slips)
        all += slip.text + "\n";
    return all;
}

constexpr double pound = feed::kilograms_per_pound;

}  // namespace

// A weekly log in print: its own running total jumps 7.29 lb in a week entered as 3.91 lb, and one
// week adds nothing (common practice).
TEST_CASE("a running total that does not add up is pointed out once and not refused") {
    Diary diary;
    double total_lb = 0.0;
    const double entered_lb[] = {1.07, 2.20, 3.91, 2.50, 2.10};
    const double grown_lb[] = {1.07, 2.20, 7.29, 0.0, 2.10};
    for (int week = 0; week < 5; ++week) {
        Observation seen = look(feed::date_of(20000 + 7 * week));
        seen.weight_in = feed::wet_kilograms(entered_lb[week] * pound);
        total_lb += grown_lb[week];
        seen.running_total = feed::wet_kilograms(total_lb * pound);
        diary.observations.push_back(seen);
    }
    const auto slips = feed::slips_of(diary);
    INFO(texts(slips));
    REQUIRE(slips.size() == 2);
    CHECK(slips[0].entry == 2);
    CHECK(slips[0].text.find("3.31 kg") != std::string::npos);  // 7.29 lb
    CHECK(slips[0].text.find("1.77 kg") != std::string::npos);  // 3.91 lb
    CHECK(slips[1].entry == 3);
    CHECK(slips[1].text.find("grows by 0 kg") != std::string::npos);
}

TEST_CASE("a tidy diary has no slips") {
    Diary diary;
    double total_kg = 0.0;
    for (int week = 0; week < 4; ++week) {
        const Date date = feed::date_of(20000 + 7 * week);
        diary.feedings.push_back({date, {portion("apple-flesh", 0.5)}, "Kim", ""});
        Observation seen = look(date);
        seen.weight_in = feed::wet_kilograms(0.5);
        total_kg += 0.5;
        if (week != 1) seen.running_total = feed::wet_kilograms(total_kg);  // a gap
        seen.temperatures = {{"back", feed::celsius(21)}, {"middle", feed::celsius(23)}};
        diary.observations.push_back(seen);
    }
    CHECK(texts(feed::slips_of(diary)).empty());
}

TEST_CASE("slips of dates, weights, temperatures and contradictions are named") {
    Diary diary;
    diary.feedings = {{{2026, 3, 9}, {portion("apple-flesh", 1.0)}, "", ""},
                      {{2026, 3, 2}, {portion("apple-flesh", 1.0)}, "", ""}};
    Observation first = look({2026, 3, 9});
    first.weight_in = feed::wet_kilograms(2.2);  // pounds, perhaps
    first.temperatures = {{"middle", feed::celsius(72)}};
    Observation second = look({2026, 3, 4});
    second.gone = feed::FoodGone::yes;
    second.share_gone = 0.2;
    second.pooling = true;
    second.squeeze = feed::Squeeze::crumbly;
    diary.observations = {first, second};
    const std::string all = texts(feed::slips_of(diary));
    CHECK(all.find("feeding of 2026-03-02 stands after one of 2026-03-09") != std::string::npos);
    CHECK(all.find("look of 2026-03-04 stands after one of 2026-03-09") != std::string::npos);
    CHECK(all.find("the weight in is 2.2 kg, but the feeding of that day adds up to 1 kg") !=
          std::string::npos);
    CHECK(all.find("Fahrenheit") != std::string::npos);
    CHECK(all.find("called gone") != std::string::npos);
    CHECK(all.find("water stands") != std::string::npos);
    CHECK(feed::slips_of(diary).size() == 6);
}

TEST_CASE("the bed on a day has the earlier feedings and what was last seen") {
    Diary diary;
    diary.bed.squeeze = feed::Squeeze::drops;
    diary.bed.age = feed::days(10);
    diary.bed_date = Date{2026, 3, 1};
    diary.feedings = {{{2026, 3, 8}, {portion("apple-flesh", 0.4)}, "", ""},
                      {{2026, 3, 2}, {portion("banana-peel", 0.3)}, "", ""},
                      {{2026, 3, 20}, {portion("tomato", 0.3)}, "", ""}};
    Observation early = look({2026, 3, 5});
    early.squeeze = feed::Squeeze::streams;
    early.ph = 6.5;
    Observation late = look({2026, 3, 12});
    late.squeeze = feed::Squeeze::damp;
    late.temperatures = {{"back", feed::celsius(20)}, {"front", feed::celsius(24)}};
    diary.observations = {late, early};
    const feed::Bed bed = feed::bed_on(diary, {2026, 3, 15});
    REQUIRE(bed.earlier.size() == 2);
    CHECK(feed::in_days(bed.earlier[0].day) == -13.0);
    CHECK(feed::in_days(bed.earlier[1].day) == -7.0);
    CHECK(bed.squeeze == feed::Squeeze::damp);
    CHECK(bed.ph == 6.5);
    CHECK(feed::in_days(*bed.age) == Approx(24.0));
    CHECK(feed::in_celsius(std::get<feed::Temperature>(bed.temperature)) == Approx(22.0));
    const feed::Bed before = feed::bed_on(diary, {2026, 3, 4});
    CHECK(before.squeeze == feed::Squeeze::drops);
    CHECK(before.earlier.size() == 1);
}

TEST_CASE("an empty diary spans nothing") {
    CHECK_FALSE(feed::span_of(Diary{}).has_value());
    CHECK(feed::slips_of(Diary{}).empty());
}
