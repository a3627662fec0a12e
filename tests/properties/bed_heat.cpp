// What is promised of the heat of a feeding, over random beds and feedings: a wider layer and more
// bed around the food never make either warmer; more food, or a warmer room, never cooler.
#include <bed_kitchen.hpp>
#include <catch2.hpp>

#include "feed/bed/heat.hpp"

using namespace feed;

namespace {

struct HeatCase {
    HeatPocket pocket;
    HeatBed bed;
    double length;
    double width;
    double depth;
};

HeatBed bed_of(double length, double width, double depth, double density, double around_c) {
    HeatBed bed;
    bed.surface_m2 = length * width;
    bed.outer_m2 = outer_faces_m2(length, width, depth);
    bed.wet_kg = density * bed.surface_m2 * depth;
    bed.around_c = {around_c, around_c - 2.0, around_c + 2.0};
    return bed;
}

HeatCase random_case(kitchen::Dice& dice) {
    HeatCase c;
    c.length = dice.between(0.2, 2.0);
    c.width = dice.between(0.2, 1.0);
    c.depth = dice.between(0.08, 0.4);
    c.bed = bed_of(c.length, c.width, c.depth, dice.between(300.0, 800.0), dice.between(2.0, 32.0));
    c.pocket.wet_kg = c.bed.surface_m2 * std::exp(dice.between(std::log(0.1), std::log(60.0)));
    c.pocket.volume_m3 = c.pocket.wet_kg / dice.between(300.0, 900.0);
    const double labile = c.pocket.wet_kg * dice.between(0.02, 0.25);
    c.pocket.labile_kg = {labile, 0.8 * labile, 1.2 * labile};
    c.pocket.spread_m2 = dice.between(0.1, 1.0) * c.bed.surface_m2;
    return c;
}

// Steps of a quarter of a day, and the few widths tried for the bed, leave a trace of their own;
constexpr double trace_c = 0.5;

bool never_warmer(const PocketAndBed& before, const PocketAndBed& after) {
    return after.pocket_c.value <= before.pocket_c.value + trace_c &&
           after.bed_c.value <= before.bed_c.value + trace_c;
}

}  // namespace

TEST_CASE("a wider layer is never hotter") {
    kitchen::Dice dice(20261128);
    for (int i = 0; i < 3000; ++i) {
        const HeatCase c = random_case(dice);
        HeatPocket wider = c.pocket;
        wider.spread_m2 = std::min(c.bed.surface_m2, c.pocket.spread_m2 * dice.between(1.05, 3.0));
        const PocketAndBed narrow = pocket_and_bed_heat(c.pocket, c.bed);
        const PocketAndBed wide = pocket_and_bed_heat(wider, c.bed);
        CAPTURE(i, c.pocket.wet_kg, c.pocket.labile_kg.value, c.pocket.spread_m2, wider.spread_m2,
                c.bed.surface_m2, c.bed.around_c.value, narrow.pocket_c.value, wide.pocket_c.value,
                narrow.bed_c.value, wide.bed_c.value);
        REQUIRE(never_warmer(narrow, wide));
    }
}

TEST_CASE("bedding around the food is never hotter") {
    kitchen::Dice dice(20261129);
    for (int i = 0; i < 3000; ++i) {
        const HeatCase c = random_case(dice);
        const double more = dice.between(0.005, 0.1);
        HeatBed deeper = c.bed;
        deeper.outer_m2 = outer_faces_m2(c.length, c.width, c.depth + more);
        deeper.wet_kg += 40.0 * more * c.bed.surface_m2;
        CAPTURE(i);
        REQUIRE(never_warmer(pocket_and_bed_heat(c.pocket, c.bed),
                             pocket_and_bed_heat(c.pocket, deeper)));
    }
}

TEST_CASE("more of the same food and a warmer room are never cooler") {
    kitchen::Dice dice(20261130);
    for (int i = 0; i < 2000; ++i) {
        HeatCase c = random_case(dice);
        const double times = dice.between(1.05, 2.0);
        HeatPocket more = c.pocket;
        more.wet_kg *= times;
        more.volume_m3 *= times;
        more.labile_kg = times * more.labile_kg;
        const PocketAndBed before = pocket_and_bed_heat(c.pocket, c.bed);
        const PocketAndBed after = pocket_and_bed_heat(more, c.bed);
        CAPTURE(i, before.pocket_c.value, after.pocket_c.value, before.bed_c.value,
                after.bed_c.value, c.pocket.wet_kg, times);
        REQUIRE(after.bed_c.value >= before.bed_c.value - trace_c);
        HeatBed warmer = c.bed;
        warmer.around_c = {c.bed.around_c.value + 3.0, c.bed.around_c.low, c.bed.around_c.high};
        const PocketAndBed warm = pocket_and_bed_heat(c.pocket, warmer);
        REQUIRE(warm.pocket_c.value >= before.pocket_c.value - trace_c);
        REQUIRE(warm.bed_c.value >= before.bed_c.value - trace_c);
        // The interval holds the value.
        REQUIRE(before.pocket_c.low <= before.pocket_c.value);
        REQUIRE(before.pocket_c.value <= before.pocket_c.high);
        REQUIRE(before.bed_c.low <= before.bed_c.value);
        REQUIRE(before.bed_c.value <= before.bed_c.high);
    }
}
