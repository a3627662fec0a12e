#include "feed/bed/hazard_numbers.hpp"

#include <catch2.hpp>
#include <vector>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

namespace {

const double third_m2 = 0.55 * 0.38 / 3.0;

HazardNumbers judged(const Bed& bed, const std::vector<Portion>& feeding,
                     double spread = third_m2) {
    const BedNumbers numbers = kitchen::numbers(bed);
    return hazard_numbers(numbers, load_of(feeding, decayed_shares(numbers.horizon_days)), spread);
}

std::vector<Portion> a_feeding(double scraps_kg, double card_kg = 0.0) {
    return {{kitchen::scraps().share(), wet_kilograms(scraps_kg)},
            {kitchen::card().share(), wet_kilograms(card_kg)}};
}

}  // namespace

TEST_CASE("wet, worked by hand") {
    // Tote: 41.8 L at 150 kg/m3 dry = 6.27 kg, capacity 4.5 x 6.27 = 28.215 kg, water 0.65 of it.
    // Water of 1 kg scraps: 0.8 x 0.85 = 0.68 kg; a week takes 7 x 0.209 x 0.3 = 0.4389 kg.
    // Room: (0.7 - 0.65) x 28.215 = 1.41075 kg, with 200 g card 0.7 x 0.57 - 0.01 = 0.389 more.
    const HazardNumber wet = judged(kitchen::tote(), a_feeding(1.0, 0.2))[Hazard::wet];
    CHECK(wet.value.value == Approx(0.68 - 0.4389));
    CHECK(wet.watch == Approx(1.41075 + 0.389));
    CHECK(wet.act == Approx(0.15 * 28.215 + 0.8 * 0.57 - 0.01));
    CHECK(wet.level == Level::none);
}

TEST_CASE("salt of a bed and a feeding, worked by hand") {
    // Bed 6.27 + 18.33975 = 24.60975 kg at 0.05 %; 1 kg of scraps with 0.05 % sodium.
    const HazardNumber salty = judged(kitchen::tote(), a_feeding(1.0))[Hazard::salty];
    CHECK(salty.value.value == Approx((24.60975 * 0.0005 + 0.00127) / 25.60975));
}

TEST_CASE("salt stays and acid fades over the diary") {
    Bed bed = kitchen::tote();
    const HazardNumbers fresh = judged(bed, {});
    bed.earlier = {{days(-3), a_feeding(1.0)}};
    const HazardNumbers soon = judged(bed, {});
    bed.earlier = {{days(-40), a_feeding(1.0)}};
    const HazardNumbers late = judged(bed, {});
    CHECK(soon[Hazard::sour].value.value > 100.0 * late[Hazard::sour].value.value);
    CHECK(fresh[Hazard::sour].value.value == 0.0);
    CHECK(late[Hazard::salty].value.value == soon[Hazard::salty].value.value);
    CHECK(late[Hazard::salty].value.value > fresh[Hazard::salty].value.value);
}

TEST_CASE("acid by a measured pH") {
    Bed bed = kitchen::tote();
    bed.ph = 6.0;
    const double at_six = judged(bed, {})[Hazard::sour].value.value;
    bed.ph = 5.0;
    const double at_five = judged(bed, {})[Hazard::sour].value.value;
    CHECK(at_five == Approx(2.0 * at_six));
    // 6.27 kg dry x 0.05 mol x 64.04 g = 20.08 g; air 41.8 L less water 18.34 and solids 3.566 L.
    CHECK(at_six == Approx(20.0765 / (41.8 - 18.33975 - 3.56606)).epsilon(0.001));
    CHECK(judged(bed, {})[Hazard::sour].level == Level::act);
    bed.ph = 7.4;
    CHECK(judged(bed, {})[Hazard::sour].value.value == 0.0);
}

TEST_CASE("heat, worked by hand for a layer over the whole bed") {
    // 2 kg scraps: 0.228 kg labile over 0.209 m2; 0.3 x 0.39 = 0.117 a day, x 18 MJ/kg = 24.375 W a
    // kg.
    // Cover 0.35; layer of 2/1400 m3 over 0.209 m2 = 6.835 mm, half of it through 0.3 W/m/K.
    const Bed bed = kitchen::tote();
    const HazardNumber hot = judged(bed, a_feeding(2.0), 0.209)[Hazard::hot];
    const double watts_m2 = 0.228 / 0.209 * 0.117 * 18e6 / 86400.0;
    CHECK(hot.value.value ==
          Approx(20.0 + watts_m2 * (0.35 + 0.5 * (2.0 / 1400.0 / 0.209) / 0.3)).epsilon(0.001));
}

TEST_CASE("a pocket is warmer than the same food spread out") {
    const Bed bed = kitchen::tote();
    CHECK(judged(bed, a_feeding(2.0), 0.02)[Hazard::hot].value.value >
          judged(bed, a_feeding(2.0), 0.2)[Hazard::hot].value.value + 2.0);
}

TEST_CASE("free ammonia only with a measured pH, by the published equilibrium") {
    auto rich = kitchen::scraps().with(Property::nitrogen_dry, 0.09).share();
    Bed bed = kitchen::tote();
    const std::vector<Portion> feeding{{rich, wet_kilograms(1.0)}};
    CHECK(judged(bed, feeding).free_ammonia_g_per_kg == 0.0);
    bed.ph = 8.5;  // at 20 C 11.123 % is free
    const HazardNumbers n = judged(bed, feeding);
    CHECK(n[Hazard::ammonia].value.value > 0.1);
    CHECK(n.free_ammonia_g_per_kg / n[Hazard::ammonia].value.value ==
          Approx(0.11123).epsilon(1e-3));
}

TEST_CASE("a missing figure gives unknown, or at least, but never zero") {
    auto bare = kitchen::scraps().get();
    bare[Property::nitrogen_dry].reset();
    bare[Property::sodium_wet].reset();
    bare[Property::fat_dry].reset();
    const auto unknown_stuff = std::make_shared<const Feedstock>(bare);
    const Bed bed = kitchen::tote();
    const HazardNumbers all = judged(bed, {{unknown_stuff, wet_kilograms(0.3)}});
    for (const Hazard h : {Hazard::ammonia, Hazard::salty, Hazard::greasy}) {
        CHECK(all[h].level == Level::unknown);
        CHECK(all[h].covered == 0.0);
    }
    const HazardNumbers some = judged(bed, {{unknown_stuff, wet_kilograms(0.05)},
                                            {kitchen::scraps().share(), wet_kilograms(0.95)}});
    CHECK(some[Hazard::salty].knowledge == Knowledge::at_least);
    CHECK(some[Hazard::salty].covered == Approx(0.95));
}

TEST_CASE("airless: a drowned bed, and scraps laid too deep") {
    Bed bed = kitchen::tote();
    CHECK(judged(bed, {})[Hazard::airless].level == Level::none);
    bed.squeeze = Squeeze::pooling;
    CHECK(judged(bed, {})[Hazard::airless].level == Level::act);
    bed.squeeze = Squeeze::damp;
    // 3.5 kg at 700 kg/m3 on 0.04 m2 is 12.5 cm, beyond the 10 cm of windrow practice.
    const HazardNumber deep = judged(bed, a_feeding(3.5, 1.0), 0.04)[Hazard::airless];
    CHECK(deep.higher_is_worse);
    CHECK(deep.value.value == Approx(0.125));
    CHECK(deep.level == Level::watch);
}

TEST_CASE("free air space by hand for a settled bed") {
    // 587 kg/m3 at 74.5 % moisture: 1 - 0.4388 - 150 x (0.75/1600 + 0.25/2500) = 0.476.
    const HazardNumber air = judged(kitchen::tote(), {})[Hazard::airless];
    CHECK(air.value.value == Approx(0.476).margin(0.001));
}

TEST_CASE("overfed counts what the diary left in the window") {
    Bed bed = kitchen::tote();
    const double alone = judged(bed, a_feeding(0.5))[Hazard::overfed].value.value;
    CHECK(alone == Approx(0.5 / 7.0 / 0.5));
    bed.earlier = {{days(-20), a_feeding(0.5)}, {days(-10), a_feeding(0.5)}};
    CheckOptions options;
    options.until_next = days(7);
    BedNumbers n = kitchen::numbers(bed, options);
    CHECK(n.recent_scraps_kg == 0.0);
    bed.earlier.push_back({days(-3.5), a_feeding(0.5)});
    n = kitchen::numbers(bed, options);
    CHECK(n.recent_scraps_kg == Approx(0.25));
    CHECK(n.scraps_kg == 1.5);
}

TEST_CASE("a steady diary has its own rate, whatever its interval") {
    for (const double interval : {1.0, 2.0, 3.0, 5.0, 7.0, 10.0}) {
        Bed bed = kitchen::tote();
        for (int back = 10; back >= 1; --back)
            bed.earlier.push_back({days(-back * interval), a_feeding(0.1 * interval)});
        INFO("every " << interval << " days");
        const HazardNumber overfed = judged(bed, a_feeding(0.1 * interval))[Hazard::overfed];
        CHECK(overfed.value.value == Approx(0.1 / 0.5).epsilon(1e-9));
    }
}

TEST_CASE("a dry bed is seen, and evaporation dries it further") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::crumbly;
    CHECK(judged(bed, {})[Hazard::dry].level == Level::act);
    bed.squeeze = Squeeze::damp;
    bed.ventilation = Ventilation::closed;
    bed.lid = Lid::tight;
    const double closed = judged(bed, {})[Hazard::dry].value.value;
    bed.ventilation = Ventilation::open_top;
    CHECK(judged(bed, {})[Hazard::dry].value.value < closed);
}

TEST_CASE("a bed that is fed by its rules is never called underfed") {
    for (const double celsius : {5.0, 8.0, 12.0, 20.0, 33.0}) {
        for (const double age : {5.0, 30.0, 365.0}) {
            for (const double worms_kg : {0.1, 0.5, 5.0}) {
                Bed bed = kitchen::tote();
                bed.temperature = feed::celsius(celsius);
                bed.age = days(age);
                bed.worms.wet_mass = wet_kilograms(worms_kg);
                const BedNumbers n = kitchen::numbers(bed);
                const double start_kg = feeding_rules(n).start_wet_kg_per_day;
                Load load;
                load.scraps_wet_kg = load.wet_kg = 0.6 * start_kg * n.horizon_days;
                CAPTURE(celsius, age, worms_kg, start_kg);
                CHECK(hazard_number(Hazard::underfed, n, load, n.surface_m2).level == Level::none);
                CHECK(hazard_number(Hazard::overfed, n, load, n.surface_m2).level == Level::none);
            }
        }
    }
    // A settled warm bed that gets next to nothing still is.
    Load trace;
    trace.scraps_wet_kg = trace.wet_kg = 0.02;
    const BedNumbers n = kitchen::numbers(kitchen::tote());
    CHECK(hazard_number(Hazard::underfed, n, trace, n.surface_m2).level == Level::watch);
}
