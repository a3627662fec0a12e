// The two wetness factors (water released, capacity planned) against beds whose truth is known:
// each household gets a true release, evaporation, capacity and saturation drawn from their ranges,
// and the check, which knows only the squeeze test, is held against the saturation that follows.
#include <array>
#include <bed_kitchen.hpp>
#include <catch2.hpp>
#include <vector>

using namespace feed;

namespace {

struct Tally {
    int wet = 0;      // truly above four fifths of capacity
    int missed = 0;   // of these, level none
    int fine = 0;     // truly below seven tenths
    int alarmed = 0;  // of these, watch or act
    int accused = 0;  // of these, act

    void count(double saturation, Level level) {
        if (saturation > 0.8) {
            ++wet;
            missed += level == Level::none;
        } else if (saturation < 0.7) {
            ++fine;
            alarmed += level != Level::none;
            accused += level == Level::act;
        }
    }
    double missed_share() const { return static_cast<double>(missed) / wet; }
    double alarmed_share() const { return static_cast<double>(alarmed) / fine; }
};

struct Attempt {
    BedNumbers bed;
    Load load;
    double saturation;  // what really follows
};

std::vector<Attempt> trials(int households) {
    kitchen::Dice dice(4711);
    const auto table = kitchen::whole_table();
    std::vector<Attempt> all;
    for (int i = 0; i < households; ++i) {
        kitchen::Household h = kitchen::random_household(dice, table);
        h.bed.earlier.clear();
        const BedNumbers bed = kitchen::numbers(h.bed);
        const Load load = load_of(h.feeding, decayed_shares(bed.horizon_days, bed.decay_speed));
        const auto drawn = [&](double low, double high) {
            return 0.5 * (dice.between(low, high) + dice.between(low, high));
        };
        const double capacity = drawn(bed.capacity_kg.low, bed.capacity_kg.high);
        const double released = drawn(assumed::water_released.low, assumed::water_released.high) /
                                assumed::water_released.value;
        const double water = capacity * drawn(bed.saturation.low, bed.saturation.high) +
                             released * load.free_water_kg.value + load.bedding_water_kg.value -
                             drawn(bed.evaporation_kg.low, bed.evaporation_kg.high);
        all.push_back({bed, load, water / (capacity + load.capacity_kg.value)});
    }
    return all;
}

}  // namespace

TEST_CASE("wet beds are seldom missed and fine beds seldom accused") {
    Tally tally;
    for (const Attempt& t : trials(4000))
        tally.count(
            t.saturation,
            hazard_number(Hazard::wet, feeding_place(t.bed, t.bed.surface_m2), t.load).level);
    CHECK(tally.wet > 500);
    CHECK(tally.fine > 500);
    CHECK(tally.missed_share() <= 0.05);
    CHECK(tally.alarmed_share() <= 0.10);
    CHECK(tally.accused == 0);
}

TEST_CASE("the two factors chosen are near the best of their ranges") {
    // A wet bed missed costs as much as five false alarms: the remedy is a handful of card.
    const auto cost = [all = trials(4000)](double released, double planned) {
        Tally tally;
        for (const Attempt& t : all) {
            const double room = planned * (t.bed.capacity_kg.value + t.load.capacity_kg.value) -
                                t.bed.water_kg - t.load.bedding_water_kg.value;
            const double water =
                released / assumed::water_released.value * t.load.free_water_kg.value -
                t.bed.evaporation_kg.value;
            tally.count(t.saturation, water > room ? Level::watch : Level::none);
        }
        INFO(released << " " << planned << ": missed " << tally.missed_share() << ", alarmed "
                      << tally.alarmed_share());
        return 5.0 * tally.missed_share() + tally.alarmed_share();
    };
    double best = 1e9;
    for (const double released : {0.6, 0.7, 0.8, 0.9}) {
        for (const double planned : {0.60, 0.65, 0.70, 0.75, 0.80}) {
            best = std::min(best, cost(released, planned));
            CAPTURE(released, planned, cost(released, planned));
        }
    }
    const double chosen = cost(assumed::water_released.value, limits::planned_capacity_share.value);
    CAPTURE(best, chosen);
    CHECK(chosen <= best + 0.02);
}
