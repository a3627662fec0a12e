#include "feed/ration/harvest.hpp"

#include <catch2.hpp>
#include <cmath>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

namespace {

/// A new bin (invented): a tote of 60 L with so much bedding and so many worms.
RationInput bin_with(std::string_view bedding, double bedding_kg, double worms_kg) {
    RationInput in;
    in.bed.container.kind = ContainerKind::tote;
    in.bed.container.volume = litres(60);
    in.bed.worms.wet_mass = wet_kilograms(worms_kg);
    in.bed.age = days(0);
    in.bed.temperature = celsius(20);
    in.bed.squeeze = Squeeze::drops;
    in.bed.bedding = {{kitchen::from_table(bedding), wet_kilograms(bedding_kg)}};
    return in;
}

RationInput old_bin() {
    RationInput in = bin_with("newspaper", 1.0, 0.45);
    in.bed.bedding.clear();
    in.bed.age = days(240);
    return in;
}

}  // namespace

TEST_CASE("new bins are ready when pages say that one harvests") {
    // 3 to 6 months (Oregon city page), 2 to 4 months (keepers): 61 to 183 days.
    for (const std::string_view bedding : {"cardboard-corrugated", "newspaper"}) {
        for (const double bedding_kg : {1.0, 2.0}) {
            for (const double worms_kg : {0.45, 0.9}) {
                const HarvestTime time = harvest_time(bin_with(bedding, bedding_kg, worms_kg));
                INFO(bedding << ", " << bedding_kg << " kg, worms " << worms_kg << " kg");
                REQUIRE(time.day);
                CHECK(*time.day >= 61);
                CHECK(*time.day <= 183);
                REQUIRE(time.earliest);
                CHECK(*time.earliest <= *time.day);
                CHECK((!time.latest || *time.latest >= *time.day));
                CHECK(time.turned == 0.0);
            }
        }
    }
}

TEST_CASE("half of the solids of a feed, or a tenth less or more, becomes castings") {
    // 50 (10) % of the solids leave as carbon dioxide in vermicomposting (authorea 292853).
    for (const double worms_kg : {0.45, 0.9}) {
        const RationInput in = bin_with("cardboard-corrugated", 1.0, worms_kg);
        bool from_diary = false;
        const std::vector<Portion> week = detail::usual_week(in, from_diary);
        ForecastOptions options;
        options.days = 365;
        std::vector<Feeding> feedings;
        for (int day = 7; day < 91; day += 7)
            feedings.push_back({days(day), week, {}, {}});
        const Forecast year = forecast(in.bed, feedings, options);
        const ForecastBalance& sum = year.balance;
        const double solids =
            sum.organic_start_kg + sum.ash_start_kg + sum.organic_fed_kg + sum.ash_fed_kg;
        const double turned = year.castings_in_bed_dry_kg.value.back();
        CHECK(turned / solids > 0.40);
        CHECK(turned / solids < 0.60);
    }
}

TEST_CASE("a settled bin is ready, and its castings are told by volume and weight") {
    const HarvestAnswer answer = harvest(old_bin());
    REQUIRE(answer.time.day);
    CHECK(*answer.time.day == 0);
    CHECK(answer.way == HarvestWay::aside);
    // By hand: half of the castings, which are 0.8 (what a settled bed is taken to be) of the
    // contents at 150 kg dry a m3.
    const double contents_l = in_litres(completed(old_bin().bed).contents);
    CHECK(answer.castings.volume_l.value == Approx(0.5 * 0.8 * contents_l).epsilon(0.01));
    // A litre of settled bed at the aim: 0.150 kg dry and 0.65 x 4.5 times as much water.
    CHECK(answer.castings.wet_kg.value ==
          Approx(answer.castings.volume_l.value * 0.150 * (1.0 + 0.65 * 4.5)).epsilon(0.01));
    CHECK(answer.castings.volume_l.low < answer.castings.volume_l.value);
    CHECK(answer.castings.volume_l.high > answer.castings.volume_l.value);
}

TEST_CASE("a bin younger than two months is not harvested, and a full one is") {
    RationInput young = old_bin();
    young.bed.age = days(10);
    const HarvestTime time = harvest_time(young);
    CHECK((!time.day || *time.day >= 50));
    RationInput full = old_bin();
    full.bed.age = days(70);
    full.bed.depth_of_contents = completed(full.bed).inside.depth;
    const HarvestTime now = harvest_time(full);
    REQUIRE(now.day);
    CHECK(*now.day == 0);
    CHECK(now.by_room);
}

TEST_CASE("the bed after a harvest is filled, as wet as it should be, and fed by the ration") {
    const RationInput in = old_bin();
    for (const HarvestWay way : {HarvestWay::aside, HarvestWay::light, HarvestWay::trays}) {
        const HarvestAnswer answer = harvest(in, {}, way);
        INFO(text(way));
        CHECK(answer.after.worse().empty());
        REQUIRE(answer.after.change.bedding.size() == 1);
        CHECK(answer.after.change.taken_m3 > 0.0);
        CHECK(answer.after.wetness_after > 0.60);
        CHECK(answer.after.wetness_after < 0.70);
        // The ration afterwards is that of the same bed with the same note.
        const Ration same = ration(with_change(in, answer.after.change));
        CHECK(answer.after.ration.answer == same.answer);
        CHECK(answer.after.ration.scraps.in_kilograms() == same.scraps.in_kilograms());
    }
    const HarvestAnswer half = harvest(in, {}, HarvestWay::half);
    const Bed left = with_change(in, half.after.change).bed;
    CHECK(completed(left).worms.value.in_kilograms() ==
          Approx(0.5 * completed(in.bed).worms.value.in_kilograms()));
    CHECK(half.after.two_weeks_kg < harvest(in).after.two_weeks_kg);
}

TEST_CASE("harvests that were noted set the amount and narrow it") {
    Diary diary;
    diary.bed = old_bin().bed;
    diary.bed_date = Date{2026, 1, 1};
    const auto noted = [](int month, std::string action) {
        Observation seen;
        seen.date = {2026, month, 1};
        seen.action = std::move(action);
        return seen;
    };
    diary.observations = {noted(2, "harvested 30 L"), noted(5, "harvested 30 L"),
                          noted(6, "took out a third")};
    const HarvestRecord record = harvest_record(diary, {2026, 7, 1});
    REQUIRE(record.harvests.size() == 2);  // a share tells no amount
    // By hand: a normal prior of sd 0.35 on the logarithm and an error of 0.25 each.
    double sum = 0.0;
    for (const PastHarvest& one : record.harvests) {
        CHECK(one.taken_l == Approx(30.0));
        sum += std::log(one.taken_l / one.expected_l);
    }
    const double left = 1.0 / (1.0 / 0.1225 + 2.0 / 0.0625);
    CHECK(record.factor == Approx(std::exp(left * sum / 0.0625)));
    CHECK(record.log_sd == Approx(std::sqrt(left + 0.0625)));
    const RationInput in = ration_input_of(diary, Date{2026, 7, 1});
    const HarvestAnswer without = harvest(in);
    const HarvestAnswer with = harvest_of(diary, in);
    CHECK(with.castings.volume_l.value == Approx(record.factor * without.castings.volume_l.value));
    CHECK(with.castings.volume_l.high / with.castings.volume_l.low <
          without.castings.volume_l.high / without.castings.volume_l.low);
}

TEST_CASE("what the diary fed goes on being fed") {
    RationInput in = old_bin();
    bool from_diary = true;
    detail::usual_week(in, from_diary);
    CHECK_FALSE(from_diary);
    const auto carrot = kitchen::from_table("carrot");
    for (const int ago : {28, 21, 14, 7})
        in.bed.earlier.push_back({days(-ago), {{carrot, wet_kilograms(0.3)}}, {}, {}});
    const std::vector<Portion> week = detail::usual_week(in, from_diary);
    CHECK(from_diary);
    REQUIRE(week.size() == 1);
    CHECK(week[0].wet_mass.in_kilograms() == Approx(0.3));
}
