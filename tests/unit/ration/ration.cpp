#include "feed/ration/ration.hpp"
#include "feed/feedstock/own_feedstock.hpp"

#include <algorithm>
#include <catch2.hpp>
#include <memory>
#include <optional>
#include <vector>

#include <bed_kitchen.hpp>
#include <table_portion.hpp>

#include "feed/feedstock/own_feedstock.hpp"

using namespace feed;
using feed_test::Approx;
using kitchen::a_feeding;

namespace {

Ration ration_for(const Bed& bed, const std::vector<Portion>& portions) {
    RationInput in;
    in.bed = bed;
    in.things = kitchen::at_hand(portions);
    return ration(in);
}

double kg_of(const Ration& r, std::string_view id) {
    double sum = 0.0;
    for (const PutIn& put : r.put_in) {
        if (put.thing.feedstock->id == id) sum += put.wet_mass.in_kilograms();
    }
    return sum;
}

/// Nothing is raised, judged with the masses that are printed.
void check_as_printed(const Bed& bed, const Ration& r) {
    const double spread = in_square_metres(r.spread);
    const auto raised = kitchen::raised_by(kitchen::judged(bed, {}, spread),
                                           kitchen::judged(bed, kitchen::feeding_of(r), spread));
    for (const Hazard hazard : raised)
        INFO(text(hazard));
    CHECK(raised.empty());
}

}  // namespace

TEST_CASE("before a time away the ration holds all the water, and the next day is the return") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.squeeze.reset();
    in.bed.moisture = Moisture(0.643);  // 0.40 of what it holds: 11.3 kg of 28.2
    in.things = kitchen::at_hand(a_feeding(0.2, 0.05));
    const Ration stays = ration(in);
    in.away = days(28);
    const Ration leaves = ration(in);
    CHECK(leaves.scraps.in_kilograms() == stays.scraps.in_kilograms());
    CHECK(leaves.water_kg > stays.water_kg + 0.5);
    CHECK(kg_of(leaves, leaves.put_in.back().thing.feedstock->id) > 0.0);
    CHECK(leaves.next_look == 28);
    REQUIRE(leaves.next_feeding);
    CHECK(leaves.next_feeding->day >= 28);
    CHECK(leaves.next_feeding->earliest >= 28);
    check_as_printed(in.bed, leaves);
    // What goes in is all that the bed takes.
    const Load put_in = load_of(kitchen::feeding_of(leaves), decayed_shares(7.0, 1.0));
    CHECK(in_kilograms(going_away(in.bed, days(28), put_in).water_to_add) == 0.0);
    // Nobody goes away from a bed that needs a step: it is the same step.
    in.bed = kitchen::tote();
    in.bed.squeeze = Squeeze::crumbly;
    const Ration step = ration(in);
    in.away.reset();
    CHECK(step.answer == RationAnswer::act_first);
    CHECK(step.water_kg == ration(in).water_kg);
}

TEST_CASE("over half of what was fed still there, as seen, waits until it should be half gone") {
    RationInput in;
    in.bed = kitchen::tote();
    in.things = kitchen::at_hand(a_feeding(0.4, 0.1));
    in.seen_left = SeenLeft{0.3, {2, 1, 9}};
    const Ration waits = ration(in);
    CHECK(waits.answer == RationAnswer::wait);
    CHECK(has_reason(waits, ReasonKind::food_left));
    REQUIRE(waits.next_feeding);
    CHECK(waits.next_feeding->day == 2);
    CHECK(waits.next_feeding->earliest == 1);
    CHECK(waits.next_feeding->latest == 9);
    // A handful that is still there holds nothing up: a quarter of the week's ration is 125 g.
    in.seen_left->wet_kg = 0.1;
    CHECK(ration(in).answer == RationAnswer::feed);
}

TEST_CASE("worms that had little for three weeks are told of where little goes in") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.earlier = {{days(-30), a_feeding(0.3), {}, {}}, {days(-8), a_feeding(0.03), {}, {}}};
    in.things = kitchen::at_hand(a_feeding(0.05, 0.1));
    const Ration little = ration(in);
    CHECK(little.answer == RationAnswer::feed);
    CHECK(has_reason(little, ReasonKind::hazard_now, Hazard::underfed));
    in.things = kitchen::at_hand(a_feeding(0.4, 0.1));
    CHECK_FALSE(has_reason(ration(in), ReasonKind::hazard_now, Hazard::underfed));
}

TEST_CASE("reasons and what to weigh name a thing without the remarks of the table") {
    RationInput in;
    in.bed = kitchen::tote();
    const auto grounds = feed_test::from_table("coffee-grounds");
    ThingAtHand thing{grounds, grounds->name, wet_kilograms(1.0), parse_amount("2 cups").value()};
    in.things = {thing};
    const Ration r = ration(in);
    REQUIRE(has_reason(r, ReasonKind::cap));
    for (const Reason& reason : r.reasons) {
        if (reason.kind == ReasonKind::cap) CHECK(reason.what == "coffee grounds");
    }
    for (const WorthMeasuring& worth : r.weigh)
        CHECK(worth.label.find(',') == std::string::npos);
}

TEST_CASE("each state of a bed has its first word") {
    struct Kitchen {
        const char* name;
        Bed bed;
        std::vector<Portion> feeding;
        RationAnswer answer;
    };
    std::vector<Kitchen> kitchens;
    kitchens.push_back({"all is well", kitchen::tote(), a_feeding(0.3, 0.1), RationAnswer::feed});
    kitchens.push_back(
        {"too much at once", kitchen::tote(), a_feeding(4.0, 1.0), RationAnswer::feed_less});
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::streams;
    kitchens.push_back({"drowned", bed, a_feeding(0.3, 0.1), RationAnswer::act_first});
    bed = kitchen::tote();
    bed.squeeze = Squeeze::crumbly;
    kitchens.push_back({"dry", bed, a_feeding(0.3, 0.1), RationAnswer::act_first});
    bed = kitchen::tote();
    bed.ph = 4.8;
    kitchens.push_back({"sour", bed, a_feeding(0.3, 0.1), RationAnswer::act_first});
    bed = kitchen::tote();
    bed.temperature = celsius(37);
    kitchens.push_back({"hot", bed, a_feeding(0.3, 0.1), RationAnswer::act_first});
    bed = kitchen::tote();
    bed.temperature = celsius(2);
    kitchens.push_back({"freezing", bed, a_feeding(0.3, 0.1), RationAnswer::act_first});
    bed = kitchen::tote();
    bed.age = days(0);
    kitchens.push_back({"new", bed, a_feeding(0.3, 0.1), RationAnswer::wait});
    bed = kitchen::tote();
    bed.earlier = {{days(-1), a_feeding(0.6, 0.1)}};
    kitchens.push_back({"fed yesterday", bed, a_feeding(0.3, 0.1), RationAnswer::wait});
    for (const Kitchen& k : kitchens) {
        INFO(k.name);
        const Ration r = ration_for(k.bed, k.feeding);
        CHECK(text(r.answer) == text(k.answer));
        check_as_printed(k.bed, r);
        const bool eats = r.answer == RationAnswer::feed || r.answer == RationAnswer::feed_less;
        CHECK((r.scraps.in_kilograms() > 0.0) == eats);
        CHECK(r.next_look >= 1);
        if (r.answer == RationAnswer::act_first) CHECK(r.next_look == 1);
        if (k.answer != RationAnswer::feed) CHECK_FALSE(r.reasons.empty());
        CHECK(r.reasons.size() <= 2);
    }
}

TEST_CASE("the step of the day is what the bed lacks") {
    Bed wet = kitchen::tote();
    wet.squeeze = Squeeze::streams;
    const Ration drier = ration_for(wet, a_feeding(0.3, 0.5));
    CHECK(kg_of(drier, "card") > 0.0);  // the card at hand
    CHECK(drier.water_kg == 0.0);
    CHECK(has_reason(drier, ReasonKind::hazard_now, Hazard::wet));
    Bed dry = kitchen::tote();
    dry.squeeze = Squeeze::crumbly;
    const Ration wetter = ration_for(dry, a_feeding(0.3, 0.5));
    CHECK(wetter.water_kg > 0.0);
    // A twentieth of 41.8 L at most in one day (bed-model, section 3).
    CHECK(wetter.water_kg <= 0.05 * 41.8 + 1e-9);
    Bed sour = kitchen::tote();
    sour.ph = 4.8;
    const Ration limed = ration_for(sour, a_feeding(0.3, 0.5));
    CHECK(limed.lime_kg > 0.0);
    // At most 200 g/m2 on 0.209 m2.
    CHECK(limed.lime_kg <= 0.0418 + 1e-9);
}

TEST_CASE("no lime where the strip says that the bed is not sour") {
    Bed bed = kitchen::tote();
    bed.ph = 7.5;
    bed.squeeze = Squeeze::streams;
    CHECK(ration_for(bed, a_feeding(0.3)).lime_kg == 0.0);
}

TEST_CASE("half of the ration while the bed is watched") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::many_drops;
    const Ration r = ration_for(bed, a_feeding(2.0, 1.0));
    CHECK(r.scraps.in_kilograms() <= 0.5 * r.week.in_kilograms() + 1e-9);
    check_as_printed(bed, r);
}

TEST_CASE("a capped material goes in up to its cap in a week, and its rest is kept") {
    // Half a kilogram of worms: at most 120 g, of which 50 g went in three days ago.
    const auto coffee = kitchen::scraps().at_most(0.24).named("grounds").share();
    const std::vector<Portion> feeding{{coffee, wet_grams(300)},
                                       {kitchen::card().share(), wet_grams(200)}};
    const Ration fresh = ration_for(kitchen::tote(), feeding);
    CHECK(fresh.answer == RationAnswer::feed_less);
    CHECK(kg_of(fresh, "grounds") <= 0.120 + 1e-9);
    CHECK(kg_of(fresh, "grounds") > 0.100);
    CHECK(has_reason(fresh, ReasonKind::cap));
    REQUIRE(fresh.rest.size() == 1);
    CHECK(fresh.rest[0].capped);
    CHECK(fresh.rest[0].wet_mass.in_kilograms() + kg_of(fresh, "grounds") == Approx(0.3));
    Bed fed = kitchen::tote();
    fed.earlier = {{days(-3), {{coffee, wet_grams(50)}}}};
    CHECK(kg_of(ration_for(fed, feeding), "grounds") <= 0.070 + 1e-9);
    fed.earlier = {{days(-9), {{coffee, wet_grams(50)}}}};
    CHECK(kg_of(ration_for(fed, feeding), "grounds") > 0.100);
}

TEST_CASE("caps of one kind add up") {
    // Six citrus kinds came to six caps before they were summed (bed-model, section 3).
    std::vector<Portion> feeding{{kitchen::card().share(), wet_grams(300)}};
    for (const char* name : {"lemon", "lime", "orange", "mandarin", "grapefruit", "pomelo"})
        feeding.push_back(
            {kitchen::scraps().at_most(0.2).named(name).with(Caution::citrus_oil).share(),
             wet_grams(200)});
    const Ration r = ration_for(kitchen::tote(), feeding);
    CHECK(r.scraps.in_kilograms() <= 0.1 + 1e-9);  // 0.2 of half a kilogram of worms
}

TEST_CASE("a cap says what it is for a week and what went in already") {
    const auto coffee = kitchen::scraps().at_most(0.24).named("grounds").share();
    const std::vector<Portion> feeding{{coffee, wet_grams(300)},
                                       {kitchen::card().share(), wet_grams(200)}};
    Bed fed = kitchen::tote();
    fed.earlier = {{days(-3), {{coffee, wet_grams(50)}}}};
    const Ration r = ration_for(fed, feeding);
    REQUIRE(has_reason(r, ReasonKind::cap));
    const Reason& cap = *std::find_if(r.reasons.begin(), r.reasons.end(), [](const Reason& one) {
        return one.kind == ReasonKind::cap;
    });
    CHECK(cap.amount == Approx(0.120));
    CHECK(cap.given == Approx(0.050));
    CHECK_FALSE(cap.with_its_kind);
}

TEST_CASE("caps of one kind count what went in of another in the week") {
    const auto citrus = [](const char* name) {
        return kitchen::scraps().at_most(0.2).named(name).with(Caution::citrus_oil).share();
    };
    Bed bed = kitchen::tote();
    bed.earlier = {{days(-3), {{citrus("lemon"), wet_grams(60)}}}};
    const std::vector<Portion> feeding{{kitchen::card().share(), wet_grams(300)},
                                       {citrus("lime"), wet_grams(200)}};
    const Ration r = ration_for(bed, feeding);
    // 0.2 of half a kilogram of worms is 100 g in the week, of which 60 g went in (bed-model,
    // section 3: the sum over the group with what went in during the last 7 days).
    CHECK(r.scraps.in_kilograms() <= 0.040 + 1e-9);
    CHECK(r.scraps.in_kilograms() > 0.030);
    REQUIRE(has_reason(r, ReasonKind::cap));
    CHECK(r.reasons[0].given == Approx(0.060));
    CHECK(r.reasons[0].with_its_kind);
}

TEST_CASE("of two scraps the one with a cap gets its share too") {
    // As the caddy comes: half a kilogram of worms, 120 g of grounds a week, and more at hand of
    // both than the worms may have.
    const auto grounds = kitchen::scraps().at_most(0.24).named("grounds").share();
    const auto soft = kitchen::scraps().named("soft").share();
    for (const bool capped_first : {true, false}) {
        std::vector<Portion> feeding{{grounds, wet_grams(300)}, {soft, wet_grams(1500)}};
        if (!capped_first) std::swap(feeding[0], feeding[1]);
        feeding.push_back({kitchen::card().share(), wet_grams(900)});
        const Ration r = ration_for(kitchen::tote(), feeding);
        const double share = kg_of(r, "soft") / 1.5;
        INFO(share);
        REQUIRE(share < 0.9);
        // The same share of the 120 g that may go in, but for two figures of rounding.
        CHECK(kg_of(r, "grounds") >= 0.9 * share * 0.120);
        CHECK(kg_of(r, "grounds") <= 0.120 + 1e-9);
    }
}

TEST_CASE("a portion too small to lay does not hold up the rest") {
    // A wet bed takes the pear only with the few grams of tortilla that soak it up, which are too
    // little to lay alone: left out, they left nothing to feed.
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::many_drops;
    const std::vector<Portion> feeding{kitchen::portion("pear-core", 0.13),
                                       kitchen::portion("tortilla-flour", 0.40),
                                       kitchen::portion("mushroom-compost", 0.10)};
    const Ration r = ration_for(bed, feeding);
    CHECK(r.answer == RationAnswer::feed_less);
    CHECK(r.scraps.in_kilograms() > 0.04);
    check_as_printed(bed, r);
}

TEST_CASE("what is never fed is taken out, and the rest is fed") {
    std::vector<Portion> feeding = a_feeding(0.3, 0.1);
    feeding.push_back(kitchen::portion("pet-waste", 0.2));
    const Ration r = ration_for(kitchen::tote(), feeding);
    REQUIRE(r.take_out.size() == 1);
    CHECK(r.take_out[0].feedstock == "pet-waste");
    CHECK_FALSE(r.take_out[0].why.empty());
    CHECK_FALSE(r.take_out[0].instead.empty());
    CHECK(kg_of(r, "pet-waste") == 0.0);
    CHECK(r.answer == RationAnswer::feed);
    CHECK(r.scraps.in_kilograms() == Approx(0.3));
    CHECK(std::none_of(r.rest.begin(), r.rest.end(),
                       [](const Rest& rest) { return rest.thing.feedstock->id == "pet-waste"; }));
}

TEST_CASE("what stands as an alarm comes before food") {
    RationInput in;
    in.bed = kitchen::tote();
    in.things = kitchen::at_hand(a_feeding(0.3, 0.1));
    CHECK(ration(in).answer == RationAnswer::feed);
    in.alarms.push_back({std::nullopt, "the worms are leaving", Level::act, 1});
    const Ration r = ration(in);
    CHECK(r.answer == RationAnswer::act_first);
    CHECK(r.scraps.in_kilograms() == 0.0);
    REQUIRE(has_reason(r, ReasonKind::alarm));
    CHECK(r.reasons[0].what == "the worms are leaving");
}

// bed-model, section 3: after a week the answer is to look.
TEST_CASE("an alarm of long ago is looked after before anything is fed") {
    RationInput in;
    in.bed = kitchen::tote();
    in.things = kitchen::at_hand(a_feeding(0.3, 0.1));
    in.unanswered.push_back({Hazard::sour, "it smelled sour", Level::act, 9});
    const Ration r = ration(in);
    CHECK(r.answer == RationAnswer::wait);
    CHECK(r.put_in.empty());
    CHECK_FALSE(r.next_feeding.has_value());
    CHECK(r.next_look == 0);
    REQUIRE(has_reason(r, ReasonKind::look_first));
    CHECK(r.reasons[0].amount == 9.0);
    // What is known to be wrong today comes before what may be.
    in.alarms.push_back({std::nullopt, "the worms are leaving", Level::act, 1});
    CHECK(ration(in).answer == RationAnswer::act_first);
}

// Worms live below pH 9 (Edwards, Earthworm Ecology, table 18.3): the end itself is outside,
// however the file says it.
TEST_CASE("a bed as alkaline as worms do not bear is not fed") {
    for (const double ph : {8.5, 8.9, 9.0, 9.1, 12.0}) {
        CAPTURE(ph);
        Bed bed = kitchen::tote();
        bed.ph = ph;
        Ration r = ration_for(bed, a_feeding(0.3, 0.1));
        CHECK((r.answer == RationAnswer::act_first) == (ph >= 9.0));
        CHECK(r.lime_kg == 0.0);
        // No bedding mends it within a day, so none is given as the step.
        if (ph >= 9.0) CHECK(r.put_in.empty());
        bed.ph_age = days(8);
        r = ration_for(bed, a_feeding(0.3, 0.1));
        CHECK(has_reason(r, ReasonKind::measure_first) == (ph >= 9.0));
        CHECK((r.scraps.in_kilograms() > 0.0) == (ph < 9.0));
    }
}

TEST_CASE("what went in today is all for today") {
    Bed bed = kitchen::tote();
    bed.earlier = {{days(0), a_feeding(0.02), {}, {}}};
    const Ration r = ration_for(bed, a_feeding(0.3, 0.1));
    CHECK(r.answer == RationAnswer::wait);
    CHECK(has_reason(r, ReasonKind::fed_today));
    REQUIRE(r.next_feeding);
    CHECK(r.next_feeding->day == 1);
    // Bedding and water are no food.
    bed.earlier = {{days(0), {{kitchen::card().share(), wet_kilograms(0.1)}}, {}, {}}};
    CHECK(ration_for(bed, a_feeding(0.3, 0.1)).answer == RationAnswer::feed);
    bed.earlier = {{days(-1), a_feeding(0.02), {}, {}}};
    CHECK(ration_for(bed, a_feeding(0.3, 0.1)).answer == RationAnswer::feed);
}

TEST_CASE("what was asked to be used first is used first") {
    RationInput in;
    in.bed = kitchen::tote();
    const auto old = kitchen::scraps().named("old").share();
    const auto fresh = kitchen::scraps().named("fresh").share();
    in.things = {{fresh, "fresh", wet_grams(400), {}},
                 {old, "old", wet_grams(300), {}, true},
                 {kitchen::card().share(), "card", {}, {}}};
    const Ration r = ration(in);
    CHECK(kg_of(r, "old") == Approx(0.3));
    CHECK(kg_of(r, "fresh") < 0.4);
}

TEST_CASE("bedding is offered, as such, where none is at hand") {
    const Ration r = ration_for(kitchen::tote(), a_feeding(0.3));
    const auto bedding = std::find_if(r.put_in.begin(), r.put_in.end(),
                                      [](const PutIn& put) { return put.part == Part::bedding; });
    REQUIRE(bedding != r.put_in.end());
    CHECK_FALSE(bedding->thing.at_hand);
    CHECK(bedding->thing.feedstock->id == "cardboard-corrugated");
}

TEST_CASE("without scraps the ration is for soft mixed ones, and says so") {
    const Ration r = ration_for(kitchen::tote(), {});
    CHECK(has_reason(r, ReasonKind::nothing_at_hand));
    REQUIRE_FALSE(r.put_in.empty());
    CHECK_FALSE(r.put_in[0].thing.at_hand);
    CHECK(r.scraps.in_kilograms() > 0.0);
}

TEST_CASE("the next feeding comes after the soft food is half gone") {
    const Ration little = ration_for(kitchen::tote(), a_feeding(0.1, 0.05));
    const Ration full = ration_for(kitchen::tote(), a_feeding(1.0, 0.3));
    REQUIRE(little.next_feeding);
    REQUIRE(full.next_feeding);
    CHECK(little.next_feeding->day <= full.next_feeding->day);
    for (const Ration* r : {&little, &full}) {
        CHECK(r->next_feeding->earliest >= 1);
        CHECK(r->next_feeding->earliest <= r->next_feeding->day);
        CHECK(r->next_feeding->day <= r->next_feeding->latest);
    }
}

// The cap is of the material: by another name, in another preparation, it is the same.
TEST_CASE("what is like a capped material shares its cap") {
    const auto pineapple = kitchen::from_table("pineapple-peel");
    REQUIRE(pineapple->most_wet_kg_per_kg_worms);
    OwnFeedstock own;
    own.name = "rind";
    own.cautions = 0;
    const auto like = own_feedstock(own, pineapple.get());
    REQUIRE(like);
    const auto rind = std::make_shared<const Feedstock>(like->feedstock);
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.worms.wet_mass = wet_kilograms(1.0);
    in.things = {{pineapple, "", wet_kilograms(0.3), {}}, {rind, "", wet_kilograms(0.3), {}}};
    const double cap_kg = *pineapple->most_wet_kg_per_kg_worms;
    const Ration r = ration(in);
    CHECK(r.scraps.in_kilograms() <= cap_kg * (1.0 + 1e-9));
    CHECK(r.scraps.in_kilograms() > 0.9 * cap_kg);
    in.bed.earlier = {{days(-3), {{rind, wet_kilograms(0.5 * cap_kg)}}, {}, {}}};
    CHECK(ration(in).scraps.in_kilograms() <= 0.5 * cap_kg * (1.0 + 1e-9));
}
