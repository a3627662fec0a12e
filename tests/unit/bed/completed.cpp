#include "feed/bed/completed.hpp"

#include <catch2.hpp>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;

TEST_CASE("a bed of which nothing is said is assumed, and each assumption is said") {
    const CompletedBed bed = completed(Bed{});
    // Container, drainage, lid, age, contents, squeeze, salt, species, worms, temperature, lime.
    CHECK(bed.assumed.size() == 11);
    CHECK(bed.moisture.value.value() == Approx(0.745).margin(0.01));  // keepers: 70 to 80 %
    CHECK_FALSE(bed.temperature_given);
    for (const Assumption& assumption : bed.assumed)
        CHECK(assumption.text.back() == '.');
}

TEST_CASE("what is said is taken as it is and not assumed") {
    Bed said = kitchen::tote();
    said.moisture = Moisture(0.78);
    said.ph = 6.4;
    const CompletedBed bed = completed(said);
    CHECK(in_square_metres(bed.surface) == Approx(0.55 * 0.38));
    CHECK(in_litres(bed.contents) == Approx(41.8));
    CHECK(in_litres(bed.free_room) == Approx(20.9));
    CHECK(bed.moisture.value.value() == 0.78);
    CHECK(in_kilograms(bed.water.value) / bed.dry_mass.value.in_kilograms() == Approx(0.78 / 0.22));
    CHECK(bed.ph == 6.4);
    CHECK(bed.worms.value.in_kilograms() == Approx(0.5));
    // Left: the mass of the contents and their salt.
    CHECK(bed.assumed.size() == 2);
}

TEST_CASE("a club's table of paper and water comes to seven tenths moisture") {
    // 1.25 lb of strips and 3 lb of water over 1 lb of dry paper below: 3 / 4.25 = 70.6 % with
    // bone-dry strips (keepers' table).
    Bed said;
    const auto paper = kitchen::card().with(Property::moisture_wet, 0.0).share();
    const auto water = kitchen::Made(Group::water, Role::water).with(Property::moisture_wet, 1.0);
    said.bedding = {{paper, wet_kilograms(1.25 * kilograms_per_pound)},
                    {water.share(), wet_kilograms(3.0 * kilograms_per_pound)}};
    CHECK(completed(said).moisture.value.value() == Approx(0.706).margin(0.0005));
}

TEST_CASE("new paper bedding weighs two and a half pounds a cubic foot") {
    const double foot = metres_per_foot;
    CHECK(detail::dry_density_at(days(0)).value ==
          Approx(2.5 * kilograms_per_pound / (foot * foot * foot)).epsilon(0.01));
    CHECK(detail::dry_density_at(days(400)).value == 150.0);
}

TEST_CASE("worms as bought or counted are a range, and worms unsaid the low stocking") {
    Bed said = kitchen::tote();
    said.worms = {WormsKnown::as_bought, wet_kilograms(1.0), std::nullopt};
    const CompletedBed bought = completed(said);
    CHECK(bought.worms.value.in_kilograms() == Approx(0.75));
    CHECK(bought.worms.low.in_kilograms() < 0.55);
    said.worms = {WormsKnown::counted, std::nullopt, 1000.0};
    const CompletedBed counted = completed(said);
    // Between 1000 for 250 g and 1000 a pound, both in print.
    CHECK(counted.worms.low.in_kilograms() == Approx(0.25));
    CHECK(counted.worms.high.in_kilograms() == Approx(0.45));
    said.worms = {};
    const double cubic_feet = 0.55 * 0.38 * 0.20 / 0.0283168466;
    CHECK(completed(said).worms.value.in_kilograms() ==
          Approx(0.25 * kilograms_per_pound * cubic_feet));
}

TEST_CASE("temperature is one value, a range or a series") {
    Bed said = kitchen::tote();
    said.temperature = TemperatureRange{celsius(12), celsius(28)};
    CompletedBed bed = completed(said);
    CHECK(in_celsius(bed.temperature) == Approx(20));
    CHECK(in_celsius(bed.temperature_high) == Approx(28));
    said.temperature = DailyTemperatures{celsius(10), celsius(20), celsius(33)};
    bed = completed(said);
    CHECK(in_celsius(bed.temperature) == Approx(21));
    CHECK(in_celsius(bed.temperature_low) == Approx(10));
    CHECK(in_celsius(bed.temperature_high) == Approx(33));
}

TEST_CASE("a wetter squeeze is a wetter bed") {
    Bed said = kitchen::tote();
    double before = 0.0;
    for (int s = 0; s < 6; ++s) {
        said.squeeze = static_cast<Squeeze>(s);
        const double moisture = completed(said).moisture.value.value();
        CHECK(moisture > before);
        before = moisture;
    }
}
