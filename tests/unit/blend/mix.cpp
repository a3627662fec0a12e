#include "feed/blend/mix.hpp"

#include "catch2.hpp"
#include "material.hpp"

using feed::Property;
using feed::wet_kilograms;
using feed_test::Approx;
using feed_test::Material;

// Richard and Trautmann 1996 (Cornell Composting, "Getting the Right Mix"): 10 kg of grass at 77 %
// with 6.8 kg of leaves at 35 % has 60 % moisture and C:N 37.
TEST_CASE("the published grass and leaves mix") {
    const std::vector<feed::Portion> portions{{feed_test::grass().share(), wet_kilograms(10.0)},
                                              {feed_test::leaves().share(), wet_kilograms(6.8)}};
    const auto totals = feed::mix(portions);
    CHECK(totals.wet_mass.in_kilograms() == Approx(16.8));
    CHECK(feed::moisture(totals).value() == Approx(0.60).margin(0.0005));
    CHECK(feed::cn_ratio(totals) == Approx(37.0).margin(0.5));
    CHECK(totals.dry_mass.value() + totals.water.value() == Approx(16.8));
}

TEST_CASE("sums follow their definitions") {
    const auto crust = Material("crust")
                           .with(Property::moisture_wet, 0.40)
                           .with(Property::ash_dry, 0.05)
                           .with(Property::fat_dry, 0.10)
                           .with(Property::sodium_wet, 0.005)
                           .with(Property::potassium_wet, 0.001)
                           .with(Property::titratable_acidity_wet, 0.004)
                           .with(Property::bulk_density_loose, 250.0)
                           .share();
    const auto grit = Material("grit")
                          .role(feed::Role::amendment)
                          .decay(feed::DecayClass::inert)
                          .with(Property::neutralising_value_wet, 0.9)
                          .share();
    const std::vector<feed::Portion> portions{{crust, wet_kilograms(2.0)},
                                              {grit, wet_kilograms(0.1)}};
    const auto totals = feed::mix(portions);
    // 2 kg with 0.5 % sodium hold 10 g sodium, 25.4 g as NaCl (58.44 / 22.99 = 2.542).
    CHECK(feed::in_grams(totals.salt) == Approx(25.4).epsilon(1e-3));
    CHECK(totals.fat.value() == Approx(2.0 * 0.6 * 0.10));
    CHECK(totals.volatile_solids.value() == Approx(2.0 * 0.6 * 0.95));
    CHECK(feed::in_grams(totals.acid) == Approx(8.0));
    CHECK(feed::in_grams(totals.potassium) == Approx(2.0));
    CHECK(feed::in_grams(totals.neutralising) == Approx(90.0));
    CHECK(feed::in_litres(totals.volume) == Approx(8.0));
    const auto at = [&](feed::BlendQuantity quantity) {
        return totals.missing[static_cast<std::size_t>(quantity)].value();
    };
    CHECK(at(feed::BlendQuantity::moisture) == Approx(0.1));
    CHECK(at(feed::BlendQuantity::carbon_nitrogen) == Approx(1.2 + 0.1));
    CHECK(at(feed::BlendQuantity::neutralising) == 0.0);
    CHECK(at(feed::BlendQuantity::acid) == Approx(0.1));
}

TEST_CASE("carbon and nitrogen follow from any two of carbon, nitrogen and their ratio") {
    const auto totals = [](const Material& material) {
        const std::vector<feed::Portion> one{{material.share(), wet_kilograms(1.0)}};
        return feed::mix(one);
    };
    const auto base = Material("x").with(Property::moisture_wet, 0.5);
    const auto with_carbon =
        Material(base).with(Property::carbon_dry, 0.4).with(Property::cn_ratio, 20.0);
    const auto with_nitrogen =
        Material(base).with(Property::nitrogen_dry, 0.02).with(Property::cn_ratio, 20.0);
    CHECK(totals(with_carbon).nitrogen.value() == Approx(0.01));
    CHECK(totals(with_nitrogen).carbon.value() == Approx(0.2));
}

TEST_CASE("free water adds no volume until the pores are full") {
    const auto card = Material("card")
                          .role(feed::Role::bedding)
                          .with(Property::moisture_wet, 0.06)
                          .with(Property::ash_dry, 0.05)
                          .with(Property::bulk_density_loose, 60.0)
                          .share();
    const auto water = feed_test::water().share();
    const auto volume = [&](double card_kg, double water_kg) {
        const std::vector<feed::Portion> portions{{card, wet_kilograms(card_kg)},
                                                  {water, wet_kilograms(water_kg)}};
        return feed::in_litres(feed::mix(portions).volume);
    };
    CHECK(volume(0.6, 0.0) == Approx(10.0));
    CHECK(volume(0.6, 2.0) == Approx(10.0));
    // 12 kg of water cannot stand in 10 L.
    CHECK(volume(0.6, 12.0) > 12.0);
    CHECK(volume(0.0, 1.0) == Approx(1.0));
}

TEST_CASE("nothing mixes to nothing") {
    const auto totals = feed::mix({});
    CHECK(totals.wet_mass.in_kilograms() == 0.0);
    CHECK(feed::cn_ratio(totals) == 0.0);
}
