#include "feed/ration/refresh.hpp"

#include <catch2.hpp>
#include <cmath>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

namespace {

/// A settled tray with a tap (invented), so salty that it is watched.
RationInput salty_tray() {
    RationInput in;
    in.bed.container.kind = ContainerKind::tray;
    in.bed.container.volume = litres(60);
    in.bed.worms.wet_mass = wet_kilograms(0.5);
    in.bed.age = days(240);
    in.bed.temperature = celsius(20);
    in.bed.squeeze = Squeeze::drops;
    const auto salt = kitchen::from_table("table-salt");
    in.bed.earlier.push_back({days(-19), {{salt, wet_kilograms(0.08)}}, {}, {}});
    return in;
}

double salt_kg(const Bed& bed) {
    return bed_numbers(bed, completed(bed), {}).salt_kg.value;
}

}  // namespace

TEST_CASE("water takes salt out of a bed as it does out of soil") {
    // 6, 12 and 24 inches of water leave a half, a fifth and a tenth of the salt of a foot of soil
    // (extension pages on reclamation, from memory), where the foot holds 5 inches of water. A bed
    // that is full takes the same share by what runs through over what it holds.
    CompletedBed full;
    full.water_capacity = known(kilograms(5), kilograms(5), kilograms(5), Grade::a);
    full.water = full.water_capacity;
    const std::array<std::pair<double, double>, 3> published{{{6, 0.5}, {12, 0.2}, {24, 0.1}}};
    for (const auto& [water, left] : published) {
        const Ranged reckoned = flushed_salt_left(full, water);
        CHECK(reckoned.value == Approx(left).margin(0.06));
        CHECK(reckoned.low < left);
        CHECK(reckoned.high > left);
        CHECK(flush_water_for(full, reckoned.value) == Approx(water));
    }
    // What a bed drinks up takes nothing along.
    full.water = known(kilograms(2), kilograms(2), kilograms(2), Grade::a);
    CHECK(flushed_salt_left(full, 3.0).value == 1.0);
    CHECK(flushed_salt_left(full, 9.0).value == Approx(std::exp(-0.58 * 6.0 / 5.0)));
}

TEST_CASE("a third of the bed changed leaves two thirds of its salt") {
    const RationInput in = salty_tray();
    const double before = salt_kg(in.bed);
    BedChange third;
    third.taken_share = 1.0 / 3.0;
    CHECK(salt_kg(with_change(in, third).bed) == Approx(before * 2.0 / 3.0).epsilon(0.01));
    const RefreshAnswer answer = refresh(in, RefreshChange::bedding);
    CHECK(answer.verdict == RefreshVerdict::does);
    CHECK(answer.after.salt_after < answer.after.salt_before);
    CHECK(answer.after.worse().empty());
    CHECK(answer.after.wetness_after > 0.60);
    CHECK(answer.after.wetness_after < 0.70);
    CHECK(answer.feed_on);
}

TEST_CASE("a flush is for salty beds that drain") {
    RationInput in = salty_tray();
    const RefreshAnswer flushed = refresh(in, RefreshChange::flush);
    CHECK(flushed.verdict == RefreshVerdict::does);
    CHECK(flushed.after.change.flushed_kg > 0.0);
    CHECK(flushed.after.salt_after < limits::salt.watch);
    CHECK(flushed.after.after[static_cast<std::size_t>(Hazard::salty)] == Level::none);
    // It is sodden afterwards: dry bedding goes in, and no food before that.
    CHECK_FALSE(flushed.days.empty());
    CHECK((!flushed.feed_on || *flushed.feed_on >= 1));
    in.bed.drainage = Drainage::none;
    const RefreshAnswer closed = refresh(in, RefreshChange::flush);
    CHECK(closed.verdict == RefreshVerdict::no_drain);
    CHECK(closed.after.change.flushed_kg == 0.0);
    CHECK(closed.after.change.taken_share == Approx(1.0 / 3.0));
    in.bed.earlier.clear();
    CHECK(refresh(in, RefreshChange::flush).verdict == RefreshVerdict::not_needed);
}

TEST_CASE("drying goes on with the step of the ration until the bed is no longer too wet") {
    RationInput in = salty_tray();
    in.bed.earlier.clear();
    in.bed.squeeze = Squeeze::streams;
    const RefreshAnswer dried = refresh(in, RefreshChange::dry);
    REQUIRE(dried.verdict == RefreshVerdict::does);
    REQUIRE(dried.today.answer == RationAnswer::act_first);
    double step_kg = 0.0;
    for (const PutIn& put : dried.today.put_in) {
        if (put.part == Part::bedding) step_kg = put.wet_mass.in_kilograms();
    }
    CHECK(dried.days.front().bedding.front().wet_mass.in_kilograms() == step_kg);
    CHECK(dried.after.after[static_cast<std::size_t>(Hazard::wet)] == Level::none);
    CHECK(dried.after.wetness_after < dried.after.wetness_before);
    in.bed.squeeze = Squeeze::damp;
    CHECK(refresh(in, RefreshChange::dry).verdict == RefreshVerdict::not_needed);
}

TEST_CASE("the halves of a split bed are the whole") {
    const RationInput in = salty_tray();
    BedChange half;
    half.taken_share = 0.5;
    half.worms_went_too = true;
    const CompletedBed whole = completed(in.bed);
    const CompletedBed one = completed(with_change(in, half).bed);
    CHECK(2.0 * one.worms.value.in_kilograms() == Approx(whole.worms.value.in_kilograms()));
    CHECK(2.0 * one.dry_mass.value.in_kilograms() == Approx(whole.dry_mass.value.in_kilograms()));
    CHECK(2.0 * in_kilograms(one.water.value) == Approx(in_kilograms(whole.water.value)));
    CHECK(2.0 * one.contents.value() == Approx(whole.contents.value()));
    CHECK(2.0 * salt_kg(with_change(in, half).bed) == Approx(salt_kg(in.bed)).epsilon(0.01));
    const RefreshAnswer split = refresh(in, RefreshChange::split);
    CHECK(split.verdict == RefreshVerdict::does);
    CHECK(2.0 * split.after.ration.week.in_kilograms() == Approx(split.today.week.in_kilograms()));
}

TEST_CASE("no bed goes where its worms die") {
    RationInput in = salty_tray();
    in.bed.earlier.clear();
    RefreshOptions cold;
    cold.temperature = celsius(-5);
    CHECK(refresh(in, RefreshChange::winter, cold).verdict == RefreshVerdict::too_cold);
    CHECK_FALSE(refresh(in, RefreshChange::winter, cold).feed_on);
    RefreshOptions hot;
    hot.temperature = celsius(38);
    CHECK(refresh(in, RefreshChange::move, hot).verdict == RefreshVerdict::too_warm);
    // At the limit itself they eat nothing: it is no place either.
    hot.temperature = limits_of(Species::eisenia_fetida).warmest;
    const RefreshAnswer limit = refresh(in, RefreshChange::move, hot);
    CHECK(limit.verdict == RefreshVerdict::too_warm);
    CHECK_FALSE(limit.feed_on);
    RefreshOptions cool;
    cool.temperature = celsius(6);
    const RefreshAnswer winter = refresh(in, RefreshChange::winter, cool);
    CHECK(winter.verdict == RefreshVerdict::does);
    CHECK(winter.after.ration.week < winter.today.week);
    const RefreshAnswer moved = refresh(in, RefreshChange::move);
    REQUIRE(moved.feed_on);
    CHECK(*moved.feed_on >= 3);
}

TEST_CASE("what comes first is said first") {
    RationInput in = salty_tray();
    in.bed.earlier.clear();
    in.bed.ph = 4.5;
    for (const RefreshChange change :
         {RefreshChange::bedding, RefreshChange::flush, RefreshChange::dry, RefreshChange::split,
          RefreshChange::move, RefreshChange::winter}) {
        INFO(text(change));
        CHECK(refresh(in, change).verdict == RefreshVerdict::act_first);
    }
}
