// The rates of a bin as a face of the course that its looks taught.
#include "feed/diary/calibration.hpp"

#include "catch2.hpp"
#include "feed/diary/bed_today.hpp"
#include "table_portion.hpp"

using namespace feed;
using feed_test::Approx;
using feed_test::portion;

namespace {

constexpr std::int64_t first_day = 20000;

/// An invented tote fed once, looked at by eye on some days.
struct Seen {
    int day;
    double share_gone;
};
Diary looked_at(std::vector<Seen> looks, int feedings = 1) {
    Diary diary;
    diary.bed.temperature = celsius(25);
    diary.bed.worms.wet_mass = wet_kilograms(1.0);
    diary.bed_date = date_of(first_day);
    for (int i = 0; i < feedings; ++i)
        diary.feedings.push_back(
            {date_of(first_day + 20 * i), {portion("apple-flesh", 0.4)}, "", ""});
    for (const Seen& seen : looks) {
        Observation look;
        look.date = date_of(first_day + seen.day);
        look.share_gone = seen.share_gone;
        diary.observations.push_back(look);
    }
    return diary;
}

}  // namespace

TEST_CASE("without looks the published ranges come back") {
    for (const Diary& diary : {Diary{}, looked_at({})}) {
        const Calibration none = calibrate(diary);
        CHECK(none.used == 0);
        CHECK(none.misfits.empty());
        for (const RateChange& rate : none.rates) {
            CHECK(rate.after_per_day == kind(rate.parameter).value);
            CHECK(rate.after_low_per_day == kind(rate.parameter).low);
            CHECK(rate.after_high_per_day == kind(rate.parameter).high);
            CHECK_FALSE(rate.outside_published);
        }
    }
}

// One learner: what `observe` says of the rates is what every verb goes on with.
TEST_CASE("the rates of a calibration are those of the bed today") {
    const Diary slow = looked_at({{4, 0.1}, {9, 0.3}, {24, 0.1}, {29, 0.2}, {44, 0.2}}, 3);
    const Calibration learned = calibrate(slow);
    REQUIRE(learned.used == 5);
    CHECK(learned.rates[0].after_per_day < learned.rates[0].before_per_day);
    const BedToday today = bed_today(slow.bed, slow, slow.observations.back().date);
    for (const RateChange& rate : learned.rates) {
        CHECK(rate.after_per_day == today.ranges.value[rate.parameter]);
        CHECK(rate.after_low_per_day == today.ranges.low[rate.parameter]);
        CHECK(rate.after_high_per_day == today.ranges.high[rate.parameter]);
    }
}

TEST_CASE("a slip of the pen is named, and hardly moves the rates") {
    // What about 0.3 a day leaves of soft fruit; on day 20 gone and left were mixed up.
    std::vector<Seen> looks{{3, 0.4}, {6, 0.6}, {9, 0.8}, {12, 0.8}, {16, 0.9}, {20, 0.9}};
    const Calibration clean = calibrate(looked_at(looks));
    CHECK(clean.misfits.empty());
    looks.back().share_gone = 0.1;
    const Diary slipped_diary = looked_at(looks);
    const Calibration slipped = calibrate(slipped_diary);
    REQUIRE(slipped.misfits.size() == 2);
    CHECK(slipped.misfits[0].kind == Misfit::Kind::outlier);
    CHECK(slipped.misfits[0].observation == 5);
    CHECK(slipped.misfits[0].text.find(text(slipped_diary.observations[5].date)) !=
          std::string::npos);
    CHECK(slipped.misfits[0].text.find("far more") != std::string::npos);
    CHECK(slipped.misfits[1].kind == Misfit::Kind::contradiction);
    CHECK(slipped.rates[0].after_per_day == Approx(clean.rates[0].after_per_day).epsilon(0.25));
}

TEST_CASE("more left than before is called a contradiction") {
    const Calibration update = calibrate(looked_at({{4, 0.7}, {8, 0.3}}));
    REQUIRE(update.misfits.size() == 1);
    CHECK(update.misfits[0].kind == Misfit::Kind::contradiction);
    CHECK(update.misfits[0].observation == 1);
    CHECK(update.misfits[0].rival == 0);
    // Of another feeding it is none; nor is "not gone" after half.
    CHECK(calibrate(looked_at({{4, 0.7}, {24, 0.3}}, 2)).misfits.empty());
    Diary diary = looked_at({{4, 0.5}, {8, 0.5}});
    diary.observations[1].share_gone.reset();
    diary.observations[1].gone = FoodGone::no;
    CHECK(calibrate(diary).misfits.empty());
}

TEST_CASE("a look that no feeding explains is listed") {
    Diary diary = looked_at({{4, 0.5}});
    Observation before;
    before.date = date_of(first_day - 3);
    before.share_gone = 0.5;
    diary.observations.push_back(before);
    const Calibration found = calibrate(diary);
    CHECK(found.used == 1);
    REQUIRE(found.unused.size() == 1);
    CHECK(found.unused[0].entry == 1);
}
