// In random households the ration keeps what it promises when a keeper takes it as printed.
#include <algorithm>
#include <catch2.hpp>
#include <long_forms.hpp>
#include <ration_kitchen.hpp>
#include <string>
#include <vector>

using namespace feed;

using kitchen::Case;
using kitchen::kg_of;
using kitchen::ration_of;
using kitchen::told;

TEST_CASE("a ration taken as printed raises nothing that the bed did not have") {
    kitchen::Dice dice(53);
    const auto table = kitchen::whole_table();
    int fed = 0;
    int acted = 0;
    int waited = 0;
    for (int i = 0; i < feed_test::draws(2000); ++i) {
        const Case c = kitchen::random_case(dice, table);
        const Ration r = ration_of(c, i % 2 == 0 ? UnitSystem::metric : UnitSystem::us);
        INFO("household " << i << ": " << told(r));
        const bool acts = r.answer == RationAnswer::act_first;
        (acts ? acted : r.answer == RationAnswer::wait ? waited : fed) += 1;
        // A step is for the whole bed, food for the place where it is laid.
        const bool steps = acts || (r.answer == RationAnswer::wait && !r.put_in.empty());
        const double spread =
            steps ? kitchen::numbers(c.bed).surface_m2 : in_square_metres(r.spread);
        const HazardNumbers before = kitchen::judged(c.bed, {}, spread);
        const HazardNumbers after = kitchen::judged(c.bed, kitchen::feeding_of(r), spread);
        const auto raised = kitchen::raised_by(before, after);
        INFO((raised.empty() ? std::string("nothing") : std::string(text(raised[0]))));
        REQUIRE(raised.empty());
        for (std::size_t h = 0; h < hazard_count; ++h)
            REQUIRE(r.after[h] == after.of[h].level);
        REQUIRE(r.reasons.size() <= 2);
        if (r.answer != RationAnswer::feed) REQUIRE_FALSE(r.reasons.empty());
        REQUIRE(r.weigh.size() <= 2);
        REQUIRE(r.next_look >= 1);
        if (r.next_feeding) {
            REQUIRE(r.next_feeding->earliest <= r.next_feeding->day);
            REQUIRE(r.next_feeding->day <= r.next_feeding->latest);
        }
    }
    CHECK(feed_test::enough(fed, 500));
    CHECK(feed_test::enough(acted, 200));
    CHECK(feed_test::enough(waited, 50));
}

namespace {

/// Sum of amount over cap of what has a caution; ground lime is bounded by the area instead.
double share_of_kind(const std::vector<Portion>& portions, Caution kind, double worms_kg) {
    double sum = 0.0;
    for (const Portion& portion : portions) {
        const Feedstock& f = *portion.feedstock;
        const bool ground_lime = f.has(Caution::lime_dust) && !f.has(Caution::caustic);
        if (!f.has(kind) || !f.most_wet_kg_per_kg_worms || ground_lime) continue;
        sum += portion.wet_mass.in_kilograms() / (*f.most_wet_kg_per_kg_worms * worms_kg);
    }
    return sum;
}

/// Caps of one kind add up, with what went in within the week (bed-model, section 3).
/// @return  how many kinds went in.
int check_kinds(const Ration& r, const Bed& bed, double worms_kg) {
    int kinds = 0;
    for (const Caution kind : {Caution::citrus_oil, Caution::allium, Caution::oil, Caution::salt,
                               Caution::heating, Caution::ammonia}) {
        INFO("kind " << static_cast<int>(kind));
        std::vector<Portion> portions = portions_of(r.put_in);
        if (!(share_of_kind(portions, kind, worms_kg) > 0.0)) continue;
        for (const Feeding& feeding : bed.earlier) {
            if (in_days(feeding.day) >= -7.0)
                portions.insert(portions.end(), feeding.portions.begin(), feeding.portions.end());
        }
        ++kinds;
        REQUIRE(share_of_kind(portions, kind, worms_kg) <= 1.0 + 1e-9);
    }
    return kinds;
}

}  // namespace

TEST_CASE("bars, caps and what there is hold in every ration") {
    kitchen::Dice dice(59);
    const auto table = kitchen::whole_table();
    int capped = 0;
    int barred = 0;
    int of_kinds = 0;
    for (int i = 0; i < feed_test::draws(2000); ++i) {
        Case c = kitchen::random_case(dice, table);
        for (int more = 0; more < 2; ++more) {
            const auto& f = table[dice.below(table.size())];
            c.things.push_back({f, f->name, wet_kilograms(dice.between(0.01, 1.0)), {}});
        }
        const Ration r = ration_of(c);
        INFO("household " << i << ": " << told(r));
        const double worms = kitchen::numbers(c.bed).worms_kg.value;
        for (const ThingAtHand& thing : c.things) {
            const Feedstock& f = *thing.feedstock;
            INFO(f.id);
            if (barred_in(f, Place::worm_bed)) {
                ++barred;
                REQUIRE(kg_of(r, f) == 0.0);
                REQUIRE(std::any_of(r.take_out.begin(), r.take_out.end(),
                                    [&](const TakeOut& out) { return out.feedstock == f.id; }));
                for (const Rest& rest : r.rest)
                    REQUIRE(rest.thing.feedstock->id != f.id);
                continue;
            }
            const bool ground_lime = f.has(Caution::lime_dust) && !f.has(Caution::caustic);
            if (f.most_wet_kg_per_kg_worms && !ground_lime) {
                double lately = 0.0;
                for (const Feeding& feeding : c.bed.earlier) {
                    for (const Portion& p : feeding.portions) {
                        if (in_days(feeding.day) >= -7.0 && p.feedstock->id == f.id)
                            lately += p.wet_mass.in_kilograms();
                    }
                }
                if (kg_of(r, f) > 0.0) {
                    ++capped;
                    REQUIRE(kg_of(r, f) + lately <=
                            *f.most_wet_kg_per_kg_worms * worms * (1.0 + 1e-9));
                }
            }
            if (part_of(f) != Part::scraps) continue;
            double there = 0.0;
            bool endless = false;
            for (const ThingAtHand& other : c.things) {
                if (other.feedstock->id != f.id) continue;
                endless = endless || !other.most;
                there += other.most ? other.most->in_kilograms() : 0.0;
            }
            if (!endless) REQUIRE(kg_of(r, f) <= there * (1.0 + 1e-9));
        }
        REQUIRE(r.scraps.in_kilograms() <= r.week.in_kilograms() * (1.0 + 1e-9));
        of_kinds += check_kinds(r, c.bed, worms);
    }
    CHECK(feed_test::enough(capped, 50));
    CHECK(feed_test::enough(barred, 200));
    CHECK(feed_test::enough(of_kinds, 100));
}
