#include "feed/bed/advice.hpp"

#include <bed_kitchen.hpp>
#include <catch2.hpp>

#include <table_portion.hpp>

using namespace feed;
using feed_test::Approx;

TEST_CASE("away for a week or two needs nothing but one feeding") {
    const AwayAdvice advice = going_away(kitchen::tote(), days(14));
    CHECK(in_kilograms(advice.water_to_add) == 0.0);
    CHECK_FALSE(advice.needs_a_helper);
    CHECK_FALSE(advice.cover);
    CHECK(advice.at_return.value.value() > 0.70);
}

TEST_CASE("water for four weeks, worked by hand") {
    // Capacity 28.215 kg; four weeks take 28 x 0.209 x 0.3 = 1.7556 kg and are to leave 0.45 of it,
    // 12.697 kg, where a bed begins to be dry. At 0.65 it holds 18.34: nothing is to be added.
    Bed bed = kitchen::tote();
    CHECK(in_kilograms(going_away(bed, days(28)).water_to_add) == 0.0);
    // A damp bed, at 0.46, holds 12.979 and needs 12.697 + 1.756 - 12.979 = 1.474, rounded down.
    bed.squeeze = Squeeze::damp;
    const AwayAdvice advice = going_away(bed, days(28));
    CHECK(in_kilograms(advice.water_to_add) == Approx(1.4));
    // 12.979 + 1.4 - 1.756 = 12.623 kg of water on 6.27 kg dry.
    CHECK(advice.at_return.value.value() == Approx(12.623 / 18.893).epsilon(1e-3));
}

TEST_CASE("what goes in before leaving counts, its water too") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::damp;
    const std::vector<Portion> poured{feed_test::portion("water-tap", 1.4)};
    const Load water = load_of(poured, {});
    const AwayAdvice watered = going_away(bed, days(28), water);
    CHECK(in_kilograms(watered.water_to_add) == 0.0);
    CHECK(watered.at_return.value.value() ==
          Approx(going_away(bed, days(28)).at_return.value.value()));
    CHECK(watered.text.find("Add ") == std::string::npos);
}

TEST_CASE("an open bed must be covered, and a long absence may need a helper") {
    Bed bed = kitchen::tote();
    bed.lid = Lid::none;
    bed.ventilation = Ventilation::open_top;
    const AwayAdvice covered = going_away(bed, days(28));
    CHECK(covered.cover);
    CHECK_FALSE(covered.needs_a_helper);
    bed.depth_of_contents = metres(0.04);  // a thin layer dries fast
    const AwayAdvice thin = going_away(bed, days(42));
    CHECK(thin.cover);
    CHECK(thin.needs_a_helper);
    CHECK(in_days(thin.safe_for) < 42.0);
    CHECK(thin.text.find("somebody") != std::string::npos);
}

TEST_CASE("longer away is never moister, and water is never added past the plan") {
    for (int s = 0; s < 6; ++s) {
        Bed bed = kitchen::tote();
        bed.squeeze = static_cast<Squeeze>(s);
        const CompletedBed full = completed(bed);
        double before = 1.0;
        for (int weeks = 1; weeks <= 6; ++weeks) {
            const AwayAdvice advice = going_away(bed, days(7 * weeks));
            CHECK(advice.at_return.low <= advice.at_return.value);
            CHECK(advice.at_return.value <= advice.at_return.high);
            if (!advice.cover && in_kilograms(advice.water_to_add) == 0.0) {
                CHECK(advice.at_return.value.value() <= before);
                before = advice.at_return.value.value();
            }
            const double water = in_kilograms(full.water.value) + in_kilograms(advice.water_to_add);
            if (in_kilograms(advice.water_to_add) > 0.0)
                CHECK(water <= 0.7 * in_kilograms(full.water_capacity.value) + 1e-9);
        }
    }
}

TEST_CASE("cold lowers the ration, heat limits the feeding") {
    const Bed bed = kitchen::tote();
    CHECK(at_temperature(bed, celsius(20)).ration_share == 1.0);
    const TemperatureAdvice cold = at_temperature(bed, celsius(8));
    CHECK(cold.ration_share == Approx(4.0 / 11.0));
    CHECK(cold.ration_a_week.in_kilograms() == Approx(0.18));
    CHECK(cold.warming.value() > 0.0);
    CHECK_FALSE(cold.harmful);
    const TemperatureAdvice freezing = at_temperature(bed, celsius(2));
    CHECK(freezing.ration_a_week.in_kilograms() == 0.0);
    CHECK(freezing.harmful);
    const TemperatureAdvice warm = at_temperature(bed, celsius(28));
    const TemperatureAdvice mild = at_temperature(bed, celsius(22));
    CHECK(warm.most_at_a_time < mild.most_at_a_time);
    // The amount named keeps the bed below the limit; twice as much does not.
    const auto at = [&](double kg) {
        Bed there = bed;
        there.temperature = celsius(28);
        const BedNumbers n = kitchen::numbers(there);
        const Load load = load_of(*kitchen::from_table("vegetable-produce-mixed"), kg,
                                  decayed_shares(n.horizon_days, n.decay_speed));
        return hazard_number(Hazard::hot, feeding_place(n, n.surface_m2), load).level;
    };
    CHECK(at(warm.most_at_a_time.in_kilograms()) == Level::none);
    CHECK(at(2.0 * warm.most_at_a_time.in_kilograms()) != Level::none);
    const TemperatureAdvice hot = at_temperature(bed, celsius(33));
    CHECK(hot.most_at_a_time.in_kilograms() == 0.0);
    CHECK(hot.harmful);
}

TEST_CASE("the first weeks of a new bin rise from a quarter to the whole ration") {
    const auto plan = first_weeks(kitchen::tote());
    CHECK(plan.front().share == 0.25);
    CHECK(plan.front().scraps.in_kilograms() == Approx(0.12));  // a quarter of 500 g, rounded down
    CHECK(plan.back().share == 1.0);
    CHECK(plan.back().scraps.in_kilograms() == Approx(0.5));
    for (std::size_t i = 1; i < plan.size(); ++i)
        CHECK(plan[i].scraps >= plan[i - 1].scraps);
    CHECK(first_weeks_text(plan).find("120 g (week 1)") != std::string::npos);
}
