// More of a cause never lowers its hazard: over every row of the table, in beds of every state.
// Each test states the exact condition under which it holds.
#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <vector>

using namespace feed;

namespace {

/// How bad a hazard is: past the watch limit, growing with the hazard.
double badness(const HazardNumber& n) {
    return n.higher_is_worse ? n.value.value - n.watch : n.watch - n.value.value;
}

/// Never lower: neither the number (to rounding) nor the level.
bool never_lower(const HazardNumber& before, const HazardNumber& after) {
    const double slack = 1e-9 * (1.0 + std::abs(badness(before)));
    return badness(after) >= badness(before) - slack && after.level >= before.level;
}

struct Spot {
    BedNumbers bed;
    DecayedShares decayed;
    Load load;
    double spread;
};

std::vector<Spot> places() {
    std::vector<Spot> all;
    kitchen::Dice dice(20240501);
    const auto table = kitchen::whole_table();
    for (int i = 0; i < 25; ++i) {
        const kitchen::Household h = kitchen::random_household(dice, table);
        const BedNumbers bed = kitchen::numbers(h.bed);
        const DecayedShares decayed = decayed_shares(bed.horizon_days, bed.decay_speed);
        all.push_back({bed, decayed, load_of(h.feeding, decayed), 0.4 * bed.surface_m2});
    }
    return all;
}

Load plus(const Load& load, const Load& more, double kg) {
    Load sum = load;
    return sum.add(more, kg);
}

HazardNumber judge(Hazard h, const Spot& p, const Load& load) {
    return hazard_number(h, feeding_place(p.bed, p.spread), load);
}

}  // namespace

TEST_CASE("more of any row") {
    const auto all = places();
    int scraps = 0;
    int beddings = 0;
    int limes = 0;
    int salty = 0;
    int airy = 0;
    for (const auto& f : kitchen::whole_table()) {
        // What is never fed is not judged by amounts; of some of it hardly a figure is known.
        if (barred_in(*f, Place::worm_bed)) continue;
        for (const Spot& p : all) {
            const Load more = load_of(*f, 1.0, p.decayed);
            for (const double kg : {0.02, 0.3, 5.0}) {
                const Load sum = plus(p.load, more, kg);
                INFO(f->id << ", " << kg << " kg");
                // Scraps and poured water bring water and no room: never less wet.
                if (part_of(*f) == Part::scraps || part_of(*f) == Part::poured_water) {
                    ++scraps;
                    REQUIRE(never_lower(judge(Hazard::wet, p, p.load), judge(Hazard::wet, p, sum)));
                }
                if (part_of(*f) == Part::scraps) {
                    REQUIRE(never_lower(judge(Hazard::overfed, p, p.load),
                                        judge(Hazard::overfed, p, sum)));
                    REQUIRE(never_lower(judge(Hazard::underfed, p, sum),
                                        judge(Hazard::underfed, p, p.load)));
                }
                // Bedding that is drier, for what it holds, than bed and feeding: never wetter.
                const HazardNumber wet = judge(Hazard::wet, p, p.load);
                if (part_of(*f) == Part::bedding &&
                    more.bedding_water_kg.value <= wet.value.value * more.capacity_kg.value) {
                    ++beddings;
                    REQUIRE(never_lower(judge(Hazard::wet, p, sum), wet));
                }
                // Lime that is nothing but lime and brings its own air space: never more sour.
                const double filled = more.solids_m3 + more.water_kg.value / 1000.0;
                if (more.lime_g.low > 0.0 && more.labile_kg.high == 0.0 &&
                    more.acid_g.high == 0.0 && more.settled_m3 >= filled) {
                    ++limes;
                    REQUIRE(
                        never_lower(judge(Hazard::sour, p, sum), judge(Hazard::sour, p, p.load)));
                }
                // Saltier than bed and feeding at both ends of its range: never less salty.
                const HazardNumber before = judge(Hazard::salty, p, p.load);
                if (more.salt_missing_kg == 0.0 && p.load.salt_missing_kg == 0.0 &&
                    more.salt_kg.low >= before.value.high) {
                    ++salty;
                    REQUIRE(never_lower(before, judge(Hazard::salty, p, sum)));
                }
                // Looser than the food with its bed, and no scraps: never less air.
                const HazardNumber air = judge(Hazard::airless, p, p.load);
                if (part_of(*f) == Part::bedding && !air.higher_is_worse && more.settled_m3 > 0.0 &&
                    1.0 - filled / more.settled_m3 >= air.value.value) {
                    ++airy;
                    REQUIRE(never_lower(judge(Hazard::airless, p, sum), air));
                }
                // Water never makes a bed drier.
                if (part_of(*f) == Part::poured_water && more.dry_kg.high == 0.0)
                    REQUIRE(never_lower(judge(Hazard::dry, p, sum), judge(Hazard::dry, p, p.load)));
            }
        }
    }
    CHECK(scraps > 10000);
    CHECK(beddings > 2000);
    CHECK(limes > 100);
    CHECK(salty > 500);
    CHECK(airy > 500);
}

TEST_CASE("a higher figure of any row") {
    const auto all = places();
    for (const auto& f : kitchen::whole_table()) {
        const auto raised = [&](Property property, double by) {
            Feedstock copy = *f;
            if (auto& d = copy[property]) {
                d->value += by;
                d->low += by;
                d->high += by;
            }
            return copy;
        };
        const Feedstock saltier = raised(Property::sodium_wet, 0.01);
        const Feedstock richer = raised(Property::nitrogen_dry, 0.01);
        const Feedstock fatter = raised(Property::fat_dry, 0.05);
        const Feedstock sourer = raised(Property::titratable_acidity_wet, 0.01);
        for (const Spot& p : all) {
            const auto with = [&](Hazard h, const Feedstock& what) {
                return judge(h, p, plus(p.load, load_of(what, 0.4, p.decayed), 1.0));
            };
            INFO(f->id);
            REQUIRE(never_lower(with(Hazard::salty, *f), with(Hazard::salty, saltier)));
            REQUIRE(never_lower(with(Hazard::ammonia, *f), with(Hazard::ammonia, richer)));
            REQUIRE(never_lower(with(Hazard::greasy, *f), with(Hazard::greasy, fatter)));
            REQUIRE(never_lower(with(Hazard::sour, *f), with(Hazard::sour, sourer)));
        }
    }
}

TEST_CASE("more worms, more surface, more heat, more lime, more age of the diary") {
    kitchen::Dice dice(7);
    const auto table = kitchen::whole_table();
    for (int i = 0; i < 300; ++i) {
        const kitchen::Household h = kitchen::random_household(dice, table);
        const auto number = [&](Hazard hazard, const Bed& bed, double spread_share = 0.4) {
            CheckOptions week;
            week.until_next = days(7);
            const BedNumbers n = kitchen::numbers(bed, week);
            return hazard_number(hazard, feeding_place(n, spread_share * n.surface_m2),
                                 load_of(h.feeding, decayed_shares(7.0, 1.0)));
        };
        Bed crowded = h.bed;
        crowded.worms.wet_mass = 2.0 * *h.bed.worms.wet_mass;
        // More worms eat more: never more overfed, never less underfed. Both limits move
        // with the worms.
        REQUIRE(number(Hazard::overfed, crowded).level <= number(Hazard::overfed, h.bed).level);
        REQUIRE(number(Hazard::underfed, h.bed).level <= number(Hazard::underfed, crowded).level);
        REQUIRE(never_lower(number(Hazard::hot, h.bed, 0.8), number(Hazard::hot, h.bed, 0.2)));
        Bed warmer = h.bed;
        warmer.temperature = celsius(in_celsius(std::get<Temperature>(h.bed.temperature)) + 4.0);
        REQUIRE(never_lower(number(Hazard::hot, h.bed), number(Hazard::hot, warmer)));
        Bed limed = h.bed;
        limed.lime = kilograms(0.1) + h.bed.lime.value_or(kilograms(0));
        REQUIRE(never_lower(number(Hazard::sour, limed), number(Hazard::sour, h.bed)));
        Bed older = h.bed;
        for (Feeding& feeding : older.earlier)
            feeding.day = feeding.day - days(3);
        REQUIRE(never_lower(number(Hazard::sour, older), number(Hazard::sour, h.bed)));
        REQUIRE(number(Hazard::salty, older).value.value ==
                number(Hazard::salty, h.bed).value.value);
        if (*h.bed.squeeze != Squeeze::pooling) {
            Bed wetter = h.bed;
            wetter.squeeze = static_cast<Squeeze>(static_cast<int>(*h.bed.squeeze) + 1);
            REQUIRE(never_lower(number(Hazard::wet, h.bed), number(Hazard::wet, wetter)));
            REQUIRE(never_lower(number(Hazard::dry, wetter), number(Hazard::dry, h.bed)));
        }
        if (h.bed.ph) {
            Bed sourer = h.bed;
            sourer.ph = *h.bed.ph - 0.5;
            REQUIRE(never_lower(number(Hazard::sour, h.bed), number(Hazard::sour, sourer)));
        }
    }
}
