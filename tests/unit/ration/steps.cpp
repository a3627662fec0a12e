// What goes into a bed that gets no food today: published advice mixes dry bedding into a wet bin
// and into one that smells (Oregon Metro, worm bin troubleshooting).
#include <algorithm>
#include <catch2.hpp>
#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include <bed_kitchen.hpp>

#include "feed/feedstock/preparation.hpp"
#include "feed/ration/from_diary.hpp"
#include "feed/ration/ration.hpp"

using namespace feed;

namespace {

std::vector<ThingAtHand> juicy_kitchen() {
    return kitchen::at_hand({kitchen::portion("watermelon-flesh", 1.0),
                             {kitchen::card().named("card").share(), wet_grams(700)}});
}

double bedding_of(const Ration& r) {
    double sum = 0.0;
    for (const PutIn& put : r.put_in) {
        if (put.part == Part::bedding) sum += put.wet_mass.in_kilograms();
    }
    return sum;
}

/// Nothing is raised by what goes in, judged as printed.
bool raises_nothing(const Bed& bed, const Ration& r) {
    const double spread = in_square_metres(r.spread);
    return kitchen::raised_by(kitchen::judged(bed, {}, spread),
                              kitchen::judged(bed, kitchen::feeding_of(r), spread))
        .empty();
}

}  // namespace

TEST_CASE("a wet bed that waits for its food gets dry bedding meanwhile") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.squeeze = Squeeze::many_drops;
    in.things = juicy_kitchen();
    const Ration r = ration(in);
    REQUIRE(r.answer == RationAnswer::wait);
    CHECK(r.scraps.in_kilograms() == 0.0);
    CHECK(bedding_of(r) > 0.0);
    CHECK(r.water_kg == 0.0);
    CHECK(raises_nothing(in.bed, r));
}

TEST_CASE("a bed that only waits for its food gets nothing") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.age = days(0);
    in.things = juicy_kitchen();
    const Ration r = ration(in);
    REQUIRE(r.answer == RationAnswer::wait);
    CHECK(r.put_in.empty());
}

TEST_CASE("a smell is answered with loose bedding, whatever is reckoned") {
    for (const Hazard hazard : {Hazard::ammonia, Hazard::sour, Hazard::airless}) {
        RationInput in;
        in.bed = kitchen::tote();
        in.things = juicy_kitchen();
        in.alarms.push_back({hazard, "it smelled", Level::act, 0});
        const Ration r = ration(in);
        INFO(text(hazard));
        REQUIRE(r.answer == RationAnswer::act_first);
        CHECK(bedding_of(r) > 0.0);
        CHECK(r.lime_kg == 0.0);
        CHECK(raises_nothing(in.bed, r));
    }
    RationInput leaving;
    leaving.bed = kitchen::tote();
    leaving.things = juicy_kitchen();
    leaving.alarms.push_back({std::nullopt, "worms were leaving", Level::act, 0});
    CHECK(bedding_of(ration(leaving)) == 0.0);  // it may be too dry as well
}

// Lime raises ammonia (Cornell, ammonia odors).
TEST_CASE("no lime goes into a bed that smells of ammonia, however sour") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.ph = 4.8;
    CHECK(ration(in).lime_kg > 0.0);
    in.alarms.push_back({Hazard::ammonia, "it smelled of ammonia", Level::act, 0});
    const Ration r = ration(in);
    REQUIRE(r.answer == RationAnswer::act_first);
    CHECK(r.lime_kg == 0.0);
    CHECK(bedding_of(r) > 0.0);
}

TEST_CASE("the step takes the lime and the bedding at hand, by the keeper's names") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.ph = 4.8;
    in.things =
        kitchen::at_hand({kitchen::portion("limestone-ground", 0.2),
                          kitchen::portion("hydrated-lime", 0.2), kitchen::portion("carrot", 0.3)});
    const Ration r = ration(in);
    REQUIRE(r.answer == RationAnswer::act_first);
    CHECK(r.lime_kg > 0.0);
    const auto lime = std::find_if(r.put_in.begin(), r.put_in.end(),
                                   [](const PutIn& put) { return put.part == Part::amendment; });
    REQUIRE(lime != r.put_in.end());
    CHECK(lime->thing.feedstock->id == "limestone-ground");
    CHECK(lime->thing.at_hand);
    in.bed.ph.reset();
    in.bed.squeeze = Squeeze::streams;
    in.things = juicy_kitchen();
    in.things.back().label = "torn boxes";
    const Ration wet = ration(in);
    REQUIRE(wet.answer == RationAnswer::act_first);
    REQUIRE_FALSE(wet.put_in.empty());
    CHECK(wet.put_in[0].thing.label == "torn boxes");
}

TEST_CASE("what went in and is never fed is to be dug out") {
    RationInput in;
    in.bed = kitchen::tote();
    in.things = juicy_kitchen();
    CHECK(in.bed.earlier.empty());
    in.bed.earlier = {{days(-1), {kitchen::portion("bacon-cooked", 0.2)}, {}, {}}};
    const Ration r = ration(in);
    REQUIRE_FALSE(r.cautions.empty());
    CHECK(r.cautions[0].level == Level::act);
    CHECK(r.cautions[0].text.find("dig out") != std::string::npos);
    in.bed.earlier[0].day = days(-60);
    const Ration later = ration(in);
    CHECK(std::none_of(later.cautions.begin(), later.cautions.end(), [](const CautionFinding& one) {
        return one.text.find("dig out") != std::string::npos;
    }));
}

TEST_CASE("whole food is waited for longer than blended food, by a learned course too") {
    const auto next_day = [](Preparation preparation) {
        RationInput in;
        in.bed = kitchen::tote();
        for (int day = 0; day < 45; ++day) {
            const double left = std::exp(-0.2 * day);
            in.new_food.push_back({left, left, left});
        }
        const auto carrot = std::make_shared<const Feedstock>(
            prepared(*kitchen::portion("carrot", 0.5).feedstock, preparation));
        in.things = kitchen::at_hand(
            {{carrot, wet_grams(500)}, {kitchen::card().named("card").share(), wet_grams(300)}});
        const Ration r = ration(in);
        REQUIRE(r.next_feeding);
        return r.next_feeding->day;
    };
    CHECK(next_day(Preparation::whole) > next_day(Preparation::chopped));
    CHECK(next_day(Preparation::blended) < next_day(Preparation::chopped));
}

// A starter of 100 g in its first weeks may have a quarter of the worms' weight a week (the ramp of
// limits.hpp): 25 g. That is little, and the bed is not cold.
TEST_CASE("few worms get their little ration, and are not called cold") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.temperature = celsius(20);
    in.bed.age = days(10);
    in.bed.worms.wet_mass = wet_grams(100);
    in.things = kitchen::at_hand({kitchen::portion("carrot", 0.4)});
    const Ration r = ration(in);
    CHECK(r.answer == RationAnswer::feed_less);
    CHECK(r.scraps.in_kilograms() == feed_test::Approx(0.025));
    in.bed.worms.wet_mass = wet_grams(10);
    const Ration fewer = ration(in);
    REQUIRE(fewer.answer == RationAnswer::wait);
    REQUIRE_FALSE(fewer.reasons.empty());
    CHECK(fewer.reasons[0].kind == ReasonKind::few_worms);
    in.bed.worms.wet_mass = wet_grams(500);
    in.bed.temperature = celsius(5);
    CHECK(ration(in).reasons.at(0).hazard == Hazard::cold);
}

TEST_CASE("a full bin names a step and no day, which would only move on") {
    RationInput in;
    in.bed = kitchen::tote();
    in.bed.container.inside = InsideSize{metres(0.5), metres(0.4), metres(0.3)};
    in.bed.depth_of_contents = metres(0.3);
    in.things = juicy_kitchen();
    const Ration r = ration(in);
    REQUIRE(r.answer == RationAnswer::wait);
    CHECK(r.reasons.at(0).kind == ReasonKind::no_room);
    CHECK_FALSE(r.next_feeding);
    CHECK(r.next_look == 7);
}

namespace {

Diary well_tote() {
    Diary diary;
    diary.bed = kitchen::tote();
    diary.bed_date = Date{2026, 3, 1};
    return diary;
}

Ration ration_on(const Diary& diary, int day) {
    return ration(ration_input_of(diary, Date{2026, 3, day}));
}

/// Obeys what is said, day by day, and writes it down as a feeding. @return  days until it feeds.
int days_of_steps(Diary& diary, double& put_in_kg, Part part) {
    put_in_kg = 0.0;
    for (int day = 1; day < 25; ++day) {
        const Ration r = ration_on(diary, day);
        if (r.answer == RationAnswer::feed || r.answer == RationAnswer::feed_less) return day;
        for (const PutIn& put : r.put_in)
            put_in_kg += put.part == part ? put.wet_mass.in_kilograms() : 0.0;
        if (!r.put_in.empty())
            diary.feedings.push_back({Date{2026, 3, day}, portions_of(r.put_in), "", ""});
    }
    return 99;
}

}  // namespace

// bed-model, section 3: a temperature older than 3 days counts only as watch; then the answer is to
// look.
TEST_CASE("heat and cold that were measured days ago end in taking the temperature again") {
    for (const double measured_c : {36.0, 2.0}) {
        CAPTURE(measured_c);
        Diary diary = well_tote();
        Observation look;
        look.date = Date{2026, 3, 2};
        look.temperatures = {{"", celsius(measured_c)}};
        diary.observations.push_back(look);
        CHECK(ration_on(diary, 3).answer == RationAnswer::act_first);
        for (const int day : {6, 12, 28}) {
            CAPTURE(day);
            const Ration r = ration_on(diary, day);
            REQUIRE(r.answer == RationAnswer::wait);
            CHECK_FALSE(r.next_feeding);
            CHECK(r.next_look == 1);
            CHECK(r.reasons.at(0).given == static_cast<double>(day - 2));
        }
        look.date = Date{2026, 3, 29};
        look.temperatures = {{"", celsius(19)}};
        diary.observations.push_back(look);
        CHECK(ration_on(diary, 29).answer == RationAnswer::feed);
    }
}

TEST_CASE("lime and water that were put in count, so that steps come to an end") {
    Diary sour = well_tote();
    sour.bed.ph = 4.0;
    double kg = 0.0;
    CHECK(days_of_steps(sour, kg, Part::amendment) <= 6);
    // Never more than one dressing of 200 g a square metre (bed-model, section 3).
    CHECK(kg <= 0.2 * 0.25);
    Diary dry = well_tote();
    dry.bed.squeeze = Squeeze::crumbly;
    const CompletedBed bed = completed(dry.bed);
    CHECK(days_of_steps(dry, kg, Part::poured_water) <= 6);
    const double most_kg = 0.65 * in_kilograms(bed.water_capacity.value);
    CHECK(kg + in_kilograms(bed.water.value) <= most_kg);
}
