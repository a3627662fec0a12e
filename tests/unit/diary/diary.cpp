#include "feed/diary/diary.hpp"

#include <algorithm>

#include "catch2.hpp"
#include "feed/bed/completed.hpp"
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

namespace {

/// An invented tote, 25 cm of bed in 55 x 38 x 30 cm, described on the first of March.
feed::Diary described_tote() {
    feed::Diary diary;
    diary.bed.container.inside =
        feed::InsideSize{feed::metres(0.55), feed::metres(0.38), feed::metres(0.30)};
    diary.bed.depth_of_contents = feed::metres(0.25);
    diary.bed.squeeze = feed::Squeeze::damp;
    diary.bed_date = feed::Date{2026, 3, 1};
    return diary;
}
feed::Observation done(int day, std::string bedding, std::string action) {
    feed::Observation seen;
    seen.date = {2026, 3, day};
    seen.bedding = std::move(bedding);
    seen.action = std::move(action);
    return seen;
}
double contents_l(const feed::Diary& diary, int day) {
    return 1000.0 * feed::completed(feed::bed_on(diary, {2026, 3, day})).contents.value();
}
double room_l(const feed::Diary& diary, int day) {
    return 1000.0 * feed::completed(feed::bed_on(diary, {2026, 3, day})).free_room.value();
}

}  // namespace

TEST_CASE("a harvest takes from the bed and gives room") {
    feed::Diary diary = described_tote();
    // 0.55 x 0.38 m: 20.9 L for each 10 cm.
    CHECK(contents_l(diary, 9) == Approx(52.25));
    CHECK(room_l(diary, 9) == Approx(10.45));
    diary.observations = {done(5, "", "harvested 10 L")};
    CHECK(contents_l(diary, 4) == Approx(52.25));
    CHECK(contents_l(diary, 5) == Approx(42.25));
    CHECK(room_l(diary, 9) == Approx(20.45));
    diary.observations = {done(5, "", "took out a third of the finished castings, turned")};
    CHECK(contents_l(diary, 9) == Approx(52.25 * 2.0 / 3.0));
    // By weight: a settled bed of 0.65 of what it holds; 7 kg are some 10 L.
    diary.observations = {done(5, "", "harvested 7 kg")};
    CHECK(contents_l(diary, 9) < 45.0);
    CHECK(contents_l(diary, 9) > 40.0);
    // What is no amount of bed changes nothing, nor what was done before it was described.
    diary.observations = {done(5, "", "took out the rotten bread"), done(6, "", "harvested"),
                          done(7, "two scoops", "")};
    CHECK(contents_l(diary, 9) == Approx(52.25));
    diary.observations = {done(1, "", "harvested 10 L")};
    diary.bed_date = feed::Date{2026, 3, 2};
    CHECK(contents_l(diary, 9) == Approx(52.25));
    // Nobody harvests more than there is.
    diary.observations = {done(5, "", "harvested 500 L")};
    CHECK(contents_l(diary, 9) > 0.0);
}

TEST_CASE("bedding adds to the bed and takes its room") {
    feed::Diary diary = described_tote();
    diary.observations = {done(5, "1 kg shredded cardboard", "")};
    const auto card = feed::feedstock_at(*feed::find_id("cardboard-corrugated"));
    const double settled_l = 1000.0 / card[feed::Property::bulk_density_settled]->value;
    const double most_l = 62.7;  // all of the tote
    CHECK(contents_l(diary, 9) == Approx(std::min(most_l, 52.25 + settled_l)).epsilon(0.01));
    CHECK(room_l(diary, 9) < 10.45 - 0.9 * std::min(10.45, settled_l));
    // Scraps noted as bedding are no bedding.
    diary.observations = {done(5, "1 kg bananas", "")};
    CHECK(contents_l(diary, 9) == Approx(52.25));
}

TEST_CASE("water given since the last look is in the bed") {
    feed::Diary diary = described_tote();
    const auto saturation = [&](int day) {
        return feed::completed(feed::bed_on(diary, {2026, 3, day})).saturation.value;
    };
    const double before = saturation(9);
    diary.observations = {done(5, "", "added water 2 L")};
    const auto bed = feed::completed(feed::bed_on(diary, {2026, 3, 9}));
    CHECK(saturation(4) == before);
    CHECK(saturation(9) == Approx(before + 2.0 / feed::in_kilograms(bed.water_capacity.value)));
    feed::Observation look;
    look.date = {2026, 3, 6};
    look.squeeze = feed::Squeeze::damp;
    diary.observations.push_back(look);
    CHECK(saturation(9) == before);
    diary.observations = {done(5, "", "watered 100 L")};
    CHECK(saturation(9) == Approx(1.0));
}

TEST_CASE("weighed worms are the worms of the bed from that day on") {
    feed::Diary diary = described_tote();
    diary.bed.worms.wet_mass = feed::wet_kilograms(1.0);
    feed::Observation look;
    look.date = {2026, 3, 6};
    look.worm_weight = feed::wet_kilograms(0.6);
    diary.observations = {look};
    CHECK(feed::bed_on(diary, {2026, 3, 5}).worms.wet_mass->in_kilograms() == 1.0);
    CHECK(feed::bed_on(diary, {2026, 3, 6}).worms.wet_mass->in_kilograms() == 0.6);
}
