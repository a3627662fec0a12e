// One scale of wetness for every bedding of the table and its mixtures, and amounts too small to
// matter.
#include <array>
#include <catch2.hpp>
#include <cmath>
#include <long_forms.hpp>
#include <ration_kitchen.hpp>
#include <vector>

using namespace feed;

namespace {

std::vector<std::shared_ptr<const Feedstock>> beddings() {
    std::vector<std::shared_ptr<const Feedstock>> found;
    for (const auto& f : kitchen::whole_table()) {
        if (part_of(*f) == Part::bedding && f->stance != Stance::avoid) found.push_back(f);
    }
    return found;
}

/// A new bed of a tote: bedding, and water to a share of what it can hold.
Bed bed_of(const std::vector<Portion>& dry, double share) {
    Bed bed = kitchen::tote();
    bed.squeeze.reset();
    bed.age = days(5);
    bed.depth_of_contents.reset();
    bed.bedding = dry;
    double water = 0.0;
    double capacity = 0.0;
    for (const Portion& p : dry) {
        const Load load =
            load_of(*p.feedstock, p.wet_mass.in_kilograms(), decayed_shares(7.0, 1.0));
        water += load.bedding_water_kg.value;
        capacity += load.capacity_kg.value;
    }
    const double pour = share * capacity - water;
    if (pour > 0.0) bed.bedding.push_back({kitchen::from_table("water-tap"), wet_kilograms(pour)});
    return bed;
}

HazardNumbers alone(const Bed& bed) {
    return kitchen::judged(bed, {}, kitchen::numbers(bed).surface_m2 / 3.0);
}

std::vector<Portion> mixture(kitchen::Dice& dice,
                             const std::vector<std::shared_ptr<const Feedstock>>& all) {
    std::vector<Portion> parts;
    const std::size_t kinds = 1 + dice.below(3);
    for (std::size_t i = 0; i < kinds; ++i) {
        const auto& f = all[dice.below(all.size())];
        // As much as fills a part of the tote.
        const double litres = dice.between(10.0, 35.0) / static_cast<double>(kinds);
        parts.push_back({f, wet_kilograms(litres * detail::loose_kg_per_m3(*f) / 1000.0)});
    }
    return parts;
}

}  // namespace

TEST_CASE("dry and wet are never raised together, whatever the bed is made of") {
    kitchen::Dice dice(71);
    const auto all = beddings();
    REQUIRE(all.size() > 10);
    int dry = 0;
    int wet = 0;
    for (int i = 0; i < feed_test::draws(3000); ++i) {
        const Bed bed = bed_of(mixture(dice, all), dice.between(0.05, 1.3));
        const HazardNumbers n = alone(bed);
        INFO("bed " << i);
        REQUIRE_FALSE((is_raised(n[Hazard::dry].level) && is_raised(n[Hazard::wet].level)));
        dry += is_raised(n[Hazard::dry].level) ? 1 : 0;
        wet += is_raised(n[Hazard::wet].level) ? 1 : 0;
    }
    CHECK(feed_test::enough(dry, 300));
    CHECK(feed_test::enough(wet, 300));
}

TEST_CASE("one or two drops raises neither dry nor wet") {
    kitchen::Dice dice(73);
    const auto all = beddings();
    for (int i = 0; i < feed_test::draws(1000); ++i) {
        Bed bed = bed_of(mixture(dice, all), 0.65);
        if (i % 2 == 0) bed.bedding.clear();
        bed.squeeze = Squeeze::drops;
        bed.age = days(dice.between(1.0, 500.0));
        const HazardNumbers n = alone(bed);
        INFO("bed " << i);
        REQUIRE(n[Hazard::dry].level == Level::none);
        REQUIRE(n[Hazard::wet].level == Level::none);
    }
}

TEST_CASE("a new bed at the aim of wetness is neither dry nor wet") {
    kitchen::Dice dice(79);
    const auto all = beddings();
    for (const auto& f : all) {
        for (const double share : {0.60, 0.65, 0.70}) {
            const double litres = 30.0;
            const std::vector<Portion> dry{
                {f, wet_kilograms(litres * detail::loose_kg_per_m3(*f) / 1000.0)}};
            const HazardNumbers n = alone(bed_of(dry, share));
            INFO(f->id << " at " << share);
            // What is bought wetter than that needs no water and is what it is.
            const Load load = load_of(*f, 1.0, decayed_shares(7.0, 1.0));
            if (load.bedding_water_kg.value > share * load.capacity_kg.value) continue;
            CHECK(n[Hazard::dry].level == Level::none);
            CHECK(n[Hazard::wet].level == Level::none);
        }
    }
    for (int i = 0; i < feed_test::draws(1000); ++i) {
        const std::vector<Portion> parts = mixture(dice, all);
        const Bed bed = bed_of(parts, 0.65);
        if (bed.bedding.size() == parts.size()) continue;
        const HazardNumbers n = alone(bed);
        INFO("mixture " << i);
        REQUIRE(n[Hazard::dry].level == Level::none);
        REQUIRE(n[Hazard::wet].level == Level::none);
    }
}

TEST_CASE("a pinch raises nothing") {
    // 10 g of coffee grounds, or a pinch of anything that needs no cap, in any bed.
    kitchen::Dice dice(83);
    const auto table = kitchen::whole_table();
    for (int i = 0; i < feed_test::draws(2000); ++i) {
        const Bed bed = kitchen::random_household(dice, table).bed;
        const auto& any = table[dice.below(table.size())];
        const bool plain = !barred_in(*any, Place::worm_bed) && !any->most_wet_kg_per_kg_worms;
        const auto f = i % 2 == 0 || !plain ? kitchen::from_table("coffee-grounds") : any;
        if (part_of(*f) != Part::scraps) continue;
        const WetMass little =
            f->id == "coffee-grounds" ? wet_grams(10) : wet_kilograms(pinch::most_kg);
        const double spread = kitchen::numbers(bed).surface_m2 / 3.0;
        const auto raised = kitchen::raised_by(kitchen::judged(bed, {}, spread),
                                               kitchen::judged(bed, {{f, little}}, spread));
        INFO("bed " << i << ", " << f->id << ": "
                    << (raised.empty() ? std::string_view("nothing") : text(raised[0])));
        // A bed that stands at a limit is not the pinch's doing.
        const HazardNumbers before = kitchen::judged(bed, {}, spread);
        for (const Hazard hazard : raised) {
            // What may be eaten is counted: a few worms are overfed by anything.
            if (hazard == Hazard::overfed) continue;
            const HazardNumber& n = before[hazard];
            const double limit = n.level == Level::watch ? n.act : n.watch;
            const double room = std::abs(limit - n.value.value) / std::max(1e-9, limit);
            REQUIRE(room < 0.06);
        }
    }
}

TEST_CASE("a pinch in a settled bed raises nothing at all") {
    const double spread = 0.209 / 3.0;
    for (const char* id : {"coffee-grounds", "bread-white", "lemon-whole", "onion", "spinach"}) {
        INFO(id);
        CHECK(kitchen::raised_by(
                  kitchen::judged(kitchen::tote(), {}, spread),
                  kitchen::judged(kitchen::tote(), {kitchen::portion(id, 0.010)}, spread))
                  .empty());
    }
}

TEST_CASE("a week's ration of spinach is at most watched") {
    for (const double worms_kg : {0.2, 0.5, 1.0}) {
        Bed bed = kitchen::tote();
        bed.worms.wet_mass = wet_kilograms(worms_kg);
        const BedNumbers n = kitchen::numbers(bed);
        const double week = 7.0 * feeding_rules(n).start_wet_kg_per_day;
        const HazardNumbers judged =
            kitchen::judged(bed, {kitchen::portion("spinach", week)}, n.surface_m2 / 3.0);
        for (std::size_t h = 0; h < hazard_count; ++h) {
            INFO(hazard_words[h] << " at " << week << " kg");
            CHECK(judged.of[h].level != Level::act);
        }
    }
}
