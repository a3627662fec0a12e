#include "feed/bed/load.hpp"

#include <catch2.hpp>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

namespace {
const DecayedShares week = decayed_shares(7.0, 1.0);
}

TEST_CASE("the load of scraps by hand") {
    const Load load = load_of(kitchen::scraps().get(), 1.0, week);
    CHECK(load.scraps_wet_kg == 1.0);
    CHECK(load.water_kg.value == Approx(0.85));
    CHECK(load.free_water_kg.value == Approx(0.8 * 0.85));
    CHECK(load.acid_g.value == Approx(5.0));
    CHECK(load.labile_kg.value == Approx(0.15 * 0.95 * 0.8));
    CHECK(load.salt_kg.value == Approx(0.0005 * 2.54));
    CHECK(load.fat_kg.value == Approx(0.15 * 0.02));
    CHECK(load.settled_m3 == Approx(0.5 / 700.0));
    CHECK(load.capacity_kg.value == 0.0);
}

TEST_CASE("the load of bedding by hand") {
    const Load load = load_of(kitchen::card().get(), 0.2, week);
    CHECK(load.scraps_wet_kg == 0.0);
    CHECK(load.capacity_kg.value == Approx(0.2 * 0.95 * 3.0));
    CHECK(load.bedding_water_kg.value == Approx(0.01));
    CHECK(load.free_water_kg.value == 0.0);
}

TEST_CASE("water is poured in whole and lime acts by its grind") {
    const Load water = load_of(*kitchen::from_table("water-tap"), 0.7, week);
    CHECK(water.free_water_kg.value == Approx(0.7));
    const Load ground = load_of(*kitchen::from_table("eggshell-powder"), 0.1, week);
    const Load crushed = load_of(*kitchen::from_table("eggshell-crushed"), 0.1, week);
    CHECK(ground.lime_g.value == Approx(0.8 * 96.3).epsilon(0.01));
    CHECK(crushed.lime_g.value < 0.2 * ground.lime_g.value);
}

TEST_CASE("50 g of citric acid needs 41 g of shell at 95 %") {
    const double needed = 50.0 / limits::grams_citric_per_gram_lime.value / 0.95;
    CHECK(needed == Approx(41.1).margin(0.05));
}

TEST_CASE("a labile feed frees no ammonia at the break-even C:N of the published pools") {
    // 12 / (1 - 0.39) = 19.7; below it nitrogen is freed, above it is taken up.
    const auto surplus = [](double cn) {
        auto feed_stuff = kitchen::scraps()
                              .with(Property::nitrogen_dry, 0.42 / cn)
                              .with(Property::labile_share, 1.0)
                              .with(Property::cellulosic_share, 0.0)
                              .with(Property::lignin_like_share, 0.0);
        return load_of(feed_stuff.get(), 1.0, week).surplus_nitrogen_g.value;
    };
    CHECK(std::abs(surplus(12.0 / 0.61)) < 1e-12);
    CHECK(surplus(15.0) > 0.01);
    CHECK(surplus(30.0) < -0.01);
}

TEST_CASE("what has no figure is guessed or counted as missing, never zero") {
    auto bare = kitchen::Made(Group::scraps, Role::scraps).with(Property::moisture_wet, 0.9);
    const Load mild = load_of(bare.get(), 2.0, week);
    CHECK(mild.acid_guessed_kg == 2.0);
    CHECK(mild.acid_g.value == Approx(4.0));
    CHECK(mild.nitrogen_missing_kg == 2.0);
    CHECK(mild.salt_missing_kg == 2.0);
    CHECK(mild.fat_missing_kg == 2.0);
    CHECK(mild.grade == Grade::d);
    CHECK(load_of(bare.with(Caution::acidity).get(), 2.0, week).acid_g.value == Approx(16.0));
    auto rag = kitchen::Made(Group::beddings, Role::bedding).with(Property::moisture_wet, 0.0);
    const Load bedding = load_of(rag.get(), 1.0, week);
    CHECK(bedding.capacity_guessed_kg == 1.0);
    CHECK(bedding.capacity_kg.value == Approx(2.5));
}

TEST_CASE("loads add up and scale over every row of the table") {
    for (std::size_t i = 0; i < feedstock_count(); ++i) {
        const Feedstock f = feedstock_at(i);
        const Load one = load_of(f, 1.0, week);
        const Load three = load_of(f, 3.0, week);
        Load sum;
        sum.add(one, 2.0).add(one, 1.0);
        INFO(f.id);
        CHECK(sum.water_kg.value == Approx(three.water_kg.value));
        CHECK(sum.acid_g.value == Approx(three.acid_g.value));
        CHECK(sum.surplus_nitrogen_g.value == Approx(three.surplus_nitrogen_g.value));
        CHECK(sum.settled_m3 == Approx(three.settled_m3));
        CHECK(one.dry_kg.value + one.water_kg.value == Approx(1.0));
        CHECK(one.labile_kg.low <= one.labile_kg.value);
        CHECK(one.labile_kg.value <= one.labile_kg.high);
        CHECK(one.labile_kg.value <= one.dry_kg.value);
        CHECK(one.solids_m3 > -1e-15);
    }
}
