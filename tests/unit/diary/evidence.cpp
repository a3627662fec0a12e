#include "feed/diary/course_evidence.hpp"

#include "catch2.hpp"
#include "feed/diary/bed_today.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/diary/look_back_check.hpp"
#include "feed/forecast/forecast.hpp"
#include "table_portion.hpp"

using feed::Date;
using feed::Diary;
using feed::Observation;
using feed::Portion;
using feed_test::Approx;
using feed_test::portion;

namespace {

feed::CourseEvidence evidence_of(const Diary& diary) {
    const feed::DiarySpan span = *feed::span_of(diary);
    const feed::detail::EffectiveTime time(diary, span, feed::decay::TemperatureResponse::haug);
    return feed::course_evidence_of(diary, span.last, time);
}

/// An invented lunch-club tote that was fed on the first of each month.
Diary tote() {
    Diary diary;
    diary.bed.temperature = feed::celsius(25);
    diary.bed.worms.wet_mass = feed::wet_kilograms(1.0);
    diary.bed_date = Date{2026, 1, 1};
    for (int month = 1; month <= 6; ++month)
        diary.feedings.push_back({{2026, month, 1}, {portion("apple-flesh", 0.2)}, "", ""});
    return diary;
}

}  // namespace

TEST_CASE("looks become evidence on the feeding they speak of") {
    Diary diary = tote();
    Observation weighed;
    weighed.date = {2026, 1, 8};
    weighed.left = feed::wet_kilograms(0.05);
    Observation by_eye;
    by_eye.date = {2026, 2, 6};
    by_eye.share_gone = 0.6;
    Observation named;
    named.date = {2026, 3, 9};
    named.of_feeding = Date{2026, 2, 1};
    named.gone = feed::FoodGone::yes;
    Observation nothing;
    nothing.date = {2026, 3, 10};
    nothing.smell = feed::Smell::earthy;
    diary.observations = {weighed, by_eye, named, nothing};
    const feed::CourseEvidence found = evidence_of(diary);
    REQUIRE(found.looks.size() == 3);
    CHECK(found.unused.empty());
    CHECK(found.observation == std::vector<std::size_t>{0, 1, 2});
    CHECK(0.5 * (found.looks[0].low + found.looks[0].high) == Approx(0.25));
    CHECK(found.looks[0].weighed);
    CHECK(found.looks[0].feeding == 0);
    // 60 % gone by eye is read in tenths.
    CHECK(found.looks[1].low == Approx(0.35));
    CHECK(found.looks[1].high == Approx(0.45));
    CHECK(found.looks[1].feeding == 1);
    CHECK(found.looks[2].feeding == 1);
    CHECK(found.looks[2].high == feed::gone_share);
    // 7 days at 25 C: the temperature factor is 1, moisture and air take a little off.
    CHECK(found.looks[0].effective_days <= 7.0);
    CHECK(found.looks[0].effective_days > 6.5);
    double shares = 0.0;
    for (const double share : found.feedings[0].pool_shares)
        shares += share;
    CHECK(shares == Approx(1.0));
}

TEST_CASE("a colder bin has gone through less effective time") {
    Diary diary = tote();
    Observation cold;
    cold.date = {2026, 1, 1};
    cold.temperatures = {{"", feed::celsius(10)}};
    Observation look;
    look.date = {2026, 1, 11};
    look.share_gone = 0.5;
    diary.observations = {cold, look};
    const double effective = evidence_of(diary).looks.at(0).effective_days;
    // Haug's bracket: 0.5277 at 10 C against 1.3753 at 25 C.
    CHECK(effective == Approx(10.0 * 0.5277 / 1.3753).epsilon(0.02));
}

TEST_CASE("looks that no feeding explains are listed, not refused") {
    Diary diary = tote();
    Observation before;
    before.date = {2025, 12, 1};
    before.share_gone = 0.5;
    Observation unknown;
    unknown.date = {2026, 2, 3};
    unknown.of_feeding = Date{2026, 1, 17};
    unknown.gone = feed::FoodGone::yes;
    Observation too_much;
    too_much.date = {2026, 3, 5};
    too_much.left = feed::wet_kilograms(0.9);
    diary.observations = {before, unknown, too_much};
    const feed::CourseEvidence found = evidence_of(diary);
    CHECK(found.looks.empty());
    REQUIRE(found.unused.size() == 3);
    CHECK(found.unused[1].text.find("2026-01-17") != std::string::npos);
    CHECK(found.unused[2].text.find("more was weighed than was fed") != std::string::npos);
}

TEST_CASE("a slow bin is learnt from its diary, and its forecast slows down") {
    Diary diary = tote();
    // What a bin at half the labile rate leaves, by the plain two-pool sum.
    const auto shares = feed::pool_shares(*diary.feedings[0].portions[0].feedstock);
    for (int month = 1; month <= 6; ++month) {
        for (const int day : {4, 8, 15}) {
            Observation look;
            look.date = {2026, month, day};
            const double t = day - 1.0;
            const double left = shares[0] * std::exp(-0.15 * t) + shares[1] * std::exp(-0.06 * t) +
                                shares[2] * std::exp(-0.012 * t);
            look.left = feed::wet_kilograms(0.2 * left);
            diary.observations.push_back(look);
        }
    }
    const feed::Calibration own = feed::calibrate(diary);
    CHECK(own.used == 18);
    CHECK(own.misfits.empty());
    CHECK(own.rates[0].after_per_day == Approx(0.15).epsilon(0.2));
    CHECK(own.rates[0].after_high_per_day < 0.30);
    feed::ForecastOptions options;
    options.ranges = feed::calibrated(options.ranges, own);
    const std::vector<feed::Feeding> plan{{feed::days(0), {portion("apple-flesh", 2.0)}}};
    const feed::Forecast usual = feed::forecast(diary.bed, plan);
    const feed::Forecast slow = feed::forecast(diary.bed, plan, options);
    CHECK(slow.soft_ahead_wet_kg.value[10] > usual.soft_ahead_wet_kg.value[10]);
    const auto width = [](const feed::Forecast& f) {
        return f.food_left_wet_kg.high[10] - f.food_left_wet_kg.low[10];
    };
    CHECK(width(slow) < width(usual));
}

TEST_CASE("a look-back is closed by what was seen") {
    feed::LookBack said;
    said.day = 7;
    said.share_left = 0.4;
    const feed::WetMass fed = feed::wet_kilograms(1.0);
    using feed::LookBackVerdict;
    Observation look;
    CHECK(feed::close_look_back(said, look, fed).verdict == LookBackVerdict::nothing_said);
    look.share_gone = 0.6;
    CHECK(feed::close_look_back(said, look, fed).verdict == LookBackVerdict::as_forecast);
    look.share_gone = 0.3;
    // Over half is left: less than expected or not, never more food.
    said.share_left = 0.95;
    look.share_gone = 0.4;
    CHECK(feed::close_look_back(said, look, fed).verdict == LookBackVerdict::as_forecast);
    look.share_gone = 0.7;
    CHECK(feed::close_look_back(said, look, fed, 0.4).verdict == LookBackVerdict::faster);
    CHECK(feed::close_look_back(said, look, fed, 0.6).verdict == LookBackVerdict::as_forecast);
    // Not gone is news only where it should have been.
    look.share_gone.reset();
    look.gone = feed::FoodGone::no;
    CHECK(feed::close_look_back(said, look, fed).verdict == LookBackVerdict::as_forecast);
    said.share_left = 0.02;
    CHECK(feed::close_look_back(said, look, fed).verdict == LookBackVerdict::slower);
    look.gone = feed::FoodGone::unsaid;
    said.share_left = 0.4;
    look.share_gone = 0.3;
    const auto slower = feed::close_look_back(said, look, fed);
    CHECK(slower.verdict == LookBackVerdict::slower);
    // What goes in and when is the ration's to say.
    CHECK(slower.text.find("feed") == std::string::npos);
    look.share_gone.reset();
    look.gone = feed::FoodGone::yes;
    CHECK(feed::close_look_back(said, look, fed).verdict == LookBackVerdict::faster);
    look.left = feed::wet_kilograms(0.45);
    CHECK(feed::close_look_back(said, look, fed).verdict == LookBackVerdict::as_forecast);
}
