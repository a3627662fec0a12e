#include "feed/bed/hazard_row.hpp"

#include <catch2.hpp>
#include <cmath>
#include <vector>

#include <bed_kitchen.hpp>
#include <table_portion.hpp>

using namespace feed;
using feed_test::Approx;

namespace {

const double third_m2 = 0.55 * 0.38 / 3.0;

HazardNumbers judged(const Bed& bed, const std::vector<Portion>& feeding,
                     double spread = third_m2) {
    const BedNumbers numbers = kitchen::numbers(bed);
    return hazard_numbers(
        feeding_place(numbers, spread),
        load_of(feeding, decayed_shares(numbers.horizon_days, numbers.decay_speed)));
}

std::vector<Portion> a_feeding(double scraps_kg, double card_kg = 0.0) {
    return {{kitchen::scraps().share(), wet_kilograms(scraps_kg)},
            {kitchen::card().share(), wet_kilograms(card_kg)}};
}

}  // namespace

TEST_CASE("wet and dry on one scale, worked by hand") {
    // Tote: 41.8 L at 150 kg/m3 dry = 6.27 kg, capacity 4.5 x 6.27 = 28.215 kg, water 0.65 of it.
    // 1 kg of scraps sets 0.8 x 0.85 = 0.68 kg free; 200 g of card bring 0.01 kg and hold 0.57 kg;
    // a week takes 7 x 0.209 x 0.3 = 0.4389 kg. Limits: bed-model, section 1.
    const HazardNumbers n = judged(kitchen::tote(), a_feeding(1.0, 0.2));
    const double held = 0.65 * 28.215 + 0.68 + 0.01;
    const double room = 28.215 + 0.57;
    CHECK(n[Hazard::wet].value.value == Approx(held / room));
    CHECK(n[Hazard::wet].watch == 0.80);
    CHECK(n[Hazard::wet].act == 0.95);
    CHECK(n[Hazard::wet].level == Level::none);
    CHECK(n[Hazard::dry].value.value == Approx((held - 0.4389) / room));
    CHECK(n[Hazard::dry].watch == 0.45);
    CHECK(n[Hazard::dry].act == 0.30);
    CHECK(n[Hazard::dry].level == Level::none);
}

TEST_CASE("the squeeze test puts a bed on the scale") {
    // The shares and levels of bed-model, section 1.
    struct Class {
        Squeeze squeeze;
        double share;
        Level wet;
        Level dry;
    };
    for (const Class& c : {Class{Squeeze::crumbly, 0.25, Level::none, Level::act},
                           Class{Squeeze::drops, 0.65, Level::none, Level::none},
                           Class{Squeeze::many_drops, 0.84, Level::watch, Level::none},
                           Class{Squeeze::streams, 0.96, Level::act, Level::none},
                           Class{Squeeze::pooling, 1.10, Level::act, Level::none}}) {
        Bed bed = kitchen::tote();
        bed.squeeze = c.squeeze;
        const HazardNumbers n = judged(bed, {});
        CAPTURE(c.share);
        CHECK(n[Hazard::wet].value.value == Approx(c.share));
        CHECK(n[Hazard::wet].level == c.wet);
        CHECK(n[Hazard::dry].level == c.dry);
    }
}

TEST_CASE("salt of the pocket and a feeding, worked by hand") {
    // A third of 0.209 m2 is a square of 0.26394 m; with 5 cm around it 0.13246 m2, 15 cm deep (10
    // cm share air and salt, 5 cm are around the food): 19.868 of 41.8 L, 47.532 % of the bed. Bed
    // 24.60975 kg at 0.05 %; 1 kg of scraps with 0.05 % sodium.
    const double side = std::sqrt(third_m2) + 0.1;
    const double pocket = side * side * 0.15 / 0.0418;
    CHECK(pocket == Approx(0.47532).epsilon(1e-4));
    const HazardNumber salty = judged(kitchen::tote(), a_feeding(1.0))[Hazard::salty];
    CHECK(salty.value.value ==
          Approx((pocket * 24.60975 * 0.0005 + 0.00127) / (pocket * 24.60975 + 1.0)));
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

TEST_CASE("heat of a pocket lies where the cases of bed-model, section 2, do") {
    // Melon rind over a third of a tote in a room of 20 C: 22 (21-29), 27 (22-50), 43 C (25-60) for
    // 1, 3 and 8 kg. No bed was measured for them.
    const auto rind = kitchen::from_table("watermelon-rind");
    struct Case {
        double kg;
        double low;
        double high;
    };
    double before = 20.0;
    for (const Case& c : {Case{1.0, 21.0, 29.0}, Case{3.0, 22.0, 50.0}, Case{8.0, 25.0, 60.0}}) {
        const HazardNumber hot =
            judged(kitchen::tote(), {{rind, wet_kilograms(c.kg)}})[Hazard::hot];
        CAPTURE(c.kg, hot.value.value);
        CHECK(hot.value.value >= c.low - 0.5);
        CHECK(hot.value.value <= c.high);
        CHECK(hot.value.value > before);
        before = hot.value.value;
        CHECK(hot.watch == 30.0);
    }
    CHECK(judged(kitchen::tote(), {})[Hazard::hot].level == Level::none);
}

TEST_CASE("a pocket is never cooler than the same food spread out") {
    const Bed bed = kitchen::tote();
    CHECK(judged(bed, a_feeding(2.0), 0.02)[Hazard::hot].value.value >
          judged(bed, a_feeding(2.0), 0.2)[Hazard::hot].value.value + 2.0);
}

TEST_CASE("ammonia begins earlier where more of it is free, by the published equilibrium") {
    Bed bed = kitchen::tote();
    // Unmeasured: pH 7, of which 0.39 % is free at 20 C: the limits of the total stand.
    CHECK(judged(bed, {})[Hazard::ammonia].watch == 0.1);
    CHECK(judged(bed, {})[Hazard::ammonia].act == 0.2);
    bed.ph = 8.5;  // at 20 C 11.123 % is free (Emerson et al. 1975)
    CHECK(judged(bed, {})[Hazard::ammonia].watch == Approx(0.005 / 0.11123).epsilon(1e-3));
    CHECK(judged(bed, {})[Hazard::ammonia].act == Approx(0.01 / 0.11123).epsilon(1e-3));
    bed.temperature = celsius(28);
    CHECK(judged(bed, {})[Hazard::ammonia].watch < 0.8 * 0.005 / 0.11123);
}

TEST_CASE("cold begins where worms slow down") {
    Bed bed = kitchen::tote();
    CHECK(judged(bed, {})[Hazard::cold].level == Level::none);
    bed.temperature = celsius(9);
    CHECK(judged(bed, {})[Hazard::cold].level == Level::watch);
    bed.temperature = celsius(-5);
    CHECK(judged(bed, {})[Hazard::cold].level == Level::act);
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
                CHECK(hazard_number(Hazard::underfed, feeding_place(n, n.surface_m2), load).level ==
                      Level::none);
                CHECK(hazard_number(Hazard::overfed, feeding_place(n, n.surface_m2), load).level ==
                      Level::none);
            }
        }
    }
}

TEST_CASE("hunger is told of a bed by three weeks of its diary, never of one small feeding") {
    const auto level = [](const Bed& bed, double scraps_kg) {
        const BedNumbers n = kitchen::numbers(bed);
        Load load;
        load.scraps_wet_kg = load.wet_kg = scraps_kg;
        return hazard_number(Hazard::underfed, feeding_place(n, n.surface_m2), load).level;
    };
    // A pinch raises nothing where nobody knows what went in before.
    Bed bed = kitchen::tote();
    CHECK(level(bed, 0.0) == Level::none);
    CHECK(level(bed, 0.01) == Level::none);
    const auto fed = [&](double kg, double days_ago) {
        bed.earlier.insert(
            bed.earlier.begin(),
            {days(-days_ago), {{kitchen::scraps().share(), wet_kilograms(kg)}}, {}, {}});
    };
    // A diary of two weeks says nothing of the week before it.
    fed(0.02, 14);
    CHECK(level(bed, 0.0) == Level::none);
    // 40 g in three weeks for half a kilogram of worms, 0.004 a day: they starve, and a pinch does
    // not end it; 0.3 kg, 0.032 a day, does.
    fed(0.5, 30);
    fed(0.02, 7);
    CHECK(level(bed, 0.0) == Level::watch);
    CHECK(level(bed, 0.01) == Level::watch);
    CHECK(level(bed, 0.3) == Level::none);
}

TEST_CASE("ammonia rises with temperature and with pH") {
    const std::vector<Portion> grass{feed_test::portion("grass-clippings", 1.0)};
    double before = 0.0;
    for (const double celsius : {8.0, 15.0, 20.0, 25.0, 30.0}) {
        Bed bed = kitchen::tote();
        bed.temperature = feed::celsius(celsius);
        const double now = judged(bed, grass)[Hazard::ammonia].value.value;
        CAPTURE(celsius);
        CHECK(now > before);
        before = now;
    }
    // pH: more of the same ammonia is free, so the limit is reached by less of it.
    double share_of_limit = 0.0;
    for (const double ph : {7.0, 8.2, 8.6, 9.0}) {
        Bed bed = kitchen::tote();
        bed.ph = ph;
        const HazardNumber n = judged(bed, grass)[Hazard::ammonia];
        CAPTURE(ph);
        CHECK(n.value.value / n.watch > share_of_limit);
        share_of_limit = n.value.value / n.watch;
    }
}

TEST_CASE("a measured pH takes the place of the acid reckoned before it, not of what came since") {
    Bed bed = kitchen::tote();
    const auto acid = [&] { return kitchen::numbers(bed).acid_g.value; };
    bed.earlier = {{days(-2), a_feeding(1.0), {}, {}}};
    const double reckoned = acid();
    CHECK(reckoned > 0.0);
    bed.ph = 7.0;
    CHECK(acid() == 0.0);
    // pH 6 is one step: 6.27 kg x 0.05 mol x 64.04 g.
    bed.ph = 6.0;
    CHECK(acid() == Approx(6.27 * 0.05 * 64.04).epsilon(1e-3));
    bed.ph_age = days(3);
    CHECK(acid() == Approx(6.27 * 0.05 * 64.04 + reckoned).epsilon(1e-3));
}

// One rule for every row: a limit itself is not past it (bed-model, section 1, "below", "above"),
// so just below and at a limit nothing is raised, and just above it is.
TEST_CASE("every hazard at the exact ends of its limits") {
    const BedNumbers numbers = kitchen::numbers(kitchen::tote());
    const FeedingPlace place = feeding_place(numbers, third_m2);
    HazardNumber hot = hazard_number(Hazard::hot, place, Load{});
    std::vector<HazardNumber> rows{hot};
    for (const HazardRow& row : detail::hazard_rows)
        rows.push_back(detail::number_of_row(row, place, Load{}));
    REQUIRE(rows.size() == 13);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        HazardNumber n = rows[i];
        CAPTURE(i, n.unit, n.watch, n.act);
        if (n.watch == n.act && n.watch == 0.0) continue;  // hunger that no diary tells
        n.knowledge = Knowledge::known;
        const double worse = n.higher_is_worse ? 1e9 : -1e9;
        const auto level = [&](double value) {
            n.value = Ranged(value);
            detail::judge(n);
            return n.level;
        };
        CHECK(level(std::nextafter(n.watch, -worse)) == Level::none);
        CHECK(level(n.watch) == Level::none);
        CHECK(level(std::nextafter(n.watch, worse)) == Level::watch);
        CHECK(level(n.act) == (n.act == n.watch ? Level::none : Level::watch));
        CHECK(level(std::nextafter(n.act, worse)) == (n.can_act ? Level::act : Level::watch));
        // Past the act limit, but not surely past the watch limit.
        n.value = Ranged(n.act + worse / 1e6, std::min(n.watch, n.act + worse / 1e6),
                         std::max(n.watch, n.act + worse / 1e6));
        detail::judge(n);
        CHECK(n.level == Level::watch);
    }
}
