// In random households work on a bed keeps what it promises.
#include <catch2.hpp>
#include <ration_kitchen.hpp>

#include "feed/ration/harvest.hpp"
#include "feed/ration/refresh.hpp"

using namespace feed;

TEST_CASE("more of a bed changed, or more water run through it, never leaves more salt") {
    kitchen::Dice dice(211);
    const auto table = kitchen::whole_table();
    const auto salt = kitchen::from_table("table-salt");
    const auto salt_kg_of = [](const Bed& bed) {
        return bed_numbers(bed, completed(bed), {}).salt_kg.value;
    };
    for (int i = 0; i < 300; ++i) {
        RationInput in = kitchen::input_of(kitchen::random_case(dice, table));
        // So salty that no bedding is saltier.
        const double salt_kg = 10.0 * completed(in.bed).contents.value();
        in.bed.earlier.push_back({days(-20), {{salt, wet_kilograms(salt_kg)}}});
        double last = 1e9;
        double last_kg = salt_kg_of(in.bed);
        for (const double share : {0.1, 0.25, 1.0 / 3.0, 0.5, 0.75}) {
            BedChange change;
            change.taken_share = share;
            const double left_kg = salt_kg_of(with_change(in, change).bed);
            INFO("household " << i << ", share " << share);
            REQUIRE(left_kg <= last_kg * (1.0 + 1e-9));
            last_kg = left_kg;
            fill_up(in, share * completed(in.bed).contents.value(), change);
            // By dry mass: a wet bed that becomes drier has the same salt in less water.
            const Bed filled = with_change(in, change).bed;
            const double salt_left =
                salt_kg_of(filled) / completed(filled).dry_mass.value.in_kilograms();
            REQUIRE(salt_left <= last * (1.0 + 1e-9));
            last = salt_left;
        }
        last = 1e9;
        for (const double water_kg : {1.0, 5.0, 10.0, 20.0, 40.0}) {
            BedChange change;
            change.flushed_kg = water_kg;
            const Bed flushed = with_change(in, change).bed;
            REQUIRE(salt_kg_of(flushed) <= last * (1.0 + 1e-9));
            last = salt_kg_of(flushed);
        }
    }
}

TEST_CASE("the bed after a harvest or a change of bedding has nothing raised that it had not") {
    kitchen::Dice dice(223);
    const auto table = kitchen::whole_table();
    int done = 0;
    for (int i = 0; i < 400; ++i) {
        const RationInput in = kitchen::input_of(kitchen::random_case(dice, table),
                                                 i % 2 == 0 ? UnitSystem::metric : UnitSystem::us);
        const RefreshAnswer changed = refresh(in, RefreshChange::bedding);
        INFO("household " << i);
        if (changed.verdict == RefreshVerdict::does) {
            ++done;
            const auto worse = changed.after.worse();
            INFO((worse.empty() ? std::string("nothing") : std::string(text(worse[0]))));
            REQUIRE(worse.empty());
        }
        const HarvestAnswer harvested = harvest(in);
        const auto worse = harvested.after.worse();
        INFO((worse.empty() ? std::string("nothing") : std::string(text(worse[0]))));
        REQUIRE(worse.empty());
        REQUIRE(harvested.castings.volume_l.low <= harvested.castings.volume_l.high);
        if (harvested.time.day) {
            REQUIRE(harvested.time.earliest);
            REQUIRE(*harvested.time.earliest <= *harvested.time.day);
        }
    }
    CHECK(done > 100);
}

TEST_CASE("the halves of a bed are the whole") {
    kitchen::Dice dice(227);
    const auto table = kitchen::whole_table();
    for (int i = 0; i < 300; ++i) {
        RationInput in = kitchen::input_of(kitchen::random_case(dice, table));
        if (!in.bed.worms.wet_mass && !in.bed.worms.count) in.bed.worms.count = 1000.0;
        BedChange half;
        half.taken_share = 0.5;
        half.worms_went_too = true;
        const CompletedBed whole = completed(in.bed);
        const CompletedBed one = completed(with_change(in, half).bed);
        const auto twice = [](double a, double b) {
            return std::abs(2.0 * a - b) <= 1e-9 * (1.0 + b);
        };
        INFO("household " << i);
        REQUIRE(twice(one.worms.value.in_kilograms(), whole.worms.value.in_kilograms()));
        REQUIRE(twice(one.dry_mass.value.in_kilograms(), whole.dry_mass.value.in_kilograms()));
        REQUIRE(twice(in_kilograms(one.water.value), in_kilograms(whole.water.value)));
        REQUIRE(twice(in_kilograms(one.salt.value), in_kilograms(whole.salt.value)));
    }
}
