#include "feed/feedstock/nutrition_label.hpp"

#include <algorithm>

#include <own_named.hpp>
#include "catch2.hpp"
#include "feed/feedstock/table.hpp"

using feed::ErrorCode;
using feed::NutritionLabel;
using feed::Property;
using feed_test::Approx;
using feed_test::own_named;

namespace {

// USDA SR26, record 09003, apple with skin, in 100 g: water 85.56, protein 0.26, fat 0.17,
// carbohydrate by difference 13.81, fibre 2.4, sugars 10.39, ash 0.19 g, sodium 1 mg.
NutritionLabel apple() {
    NutritionLabel label;
    label.protein = 0.0026;
    label.fat = 0.0017;
    label.carbohydrate = 0.1381;
    label.sugars = 0.1039;
    label.fibre = 0.024;
    label.water = 0.8556;
    label.ash = 0.0019;
    label.sodium = 0.00001;
    return label;
}

}  // namespace

// The empirical formulas of Haug 1993 give 54.5 % C for protein, 76.3 % for fat, 44.4 % for starch
// and cellulose, 40.0 % for hexose; the rounded factors lie within 3 % of them.
TEST_CASE("carbon of macronutrients") {
    CHECK(feed::food_carbon(1, 0, 0, {}) == Approx(0.545).epsilon(0.03));
    CHECK(feed::food_carbon(0, 1, 0, {}) == Approx(0.763).epsilon(0.03));
    CHECK(feed::food_carbon(0, 0, 1, 0.0) == Approx(0.444).epsilon(0.03));
    CHECK(feed::food_carbon(0, 0, 1, 1.0) == Approx(0.400).epsilon(0.03));
}

TEST_CASE("protein factors are those of the published table") {
    CHECK(feed::jones_factor("milk") == 6.38);
    CHECK(feed::jones_factor("bread") == 5.70);
    CHECK(feed::jones_factor("rice") == 5.95);
    CHECK(feed::jones_factor("peanut") == 5.46);
    CHECK(feed::jones_factor("anything else") == 6.25);
}

TEST_CASE("the label of a food in the table gives the table's numbers") {
    const auto made = feed::feedstock_from_label(own_named("My apple"), apple());
    REQUIRE(made);
    const auto stored = feed::feedstock_at(*feed::find_id("apple-flesh"));
    CHECK(made->feedstock[Property::moisture_wet]->value == Approx(0.8556));
    for (const auto property :
         {Property::moisture_wet, Property::carbon_dry, Property::nitrogen_dry, Property::cn_ratio,
          Property::ash_dry, Property::sodium_wet}) {
        CAPTURE(feed::kind(property).key);
        // The table keeps two to three figures.
        CHECK(made->feedstock[property]->value == Approx(stored[property]->value).epsilon(0.02));
    }
    CHECK(made->feedstock[Property::nitrogen_dry]->grade == feed::Grade::b);
    CHECK(made->said.empty());
}

TEST_CASE("water comes by difference and salt becomes sodium") {
    NutritionLabel label;
    label.protein = 0.08;
    label.fat = 0.03;
    label.carbohydrate = 0.45;
    label.carbohydrate_has_fibre = false;
    label.fibre = 0.05;
    label.salt = 0.0127;
    label.protein_factor = feed::jones_factor("bread");
    const auto made = feed::feedstock_from_label(own_named("Crusts"), label);
    REQUIRE(made);
    const auto& crusts = made->feedstock;
    CHECK(crusts[Property::sodium_wet]->value == Approx(0.005));
    // 100 g less 8 protein, 3 fat, 50 carbohydrate with fibre and 1.27 of ash (the salt).
    CHECK(crusts[Property::moisture_wet]->value == Approx(0.3773));
    CHECK(crusts[Property::nitrogen_dry]->value == Approx(0.08 / 5.70 / 0.6227));
    CHECK(made->said.size() == 2);
}

TEST_CASE("the keeper's own values go before the label") {
    auto own = own_named("My apple");
    own.values.push_back({Property::moisture_wet, 0.80, {}, {}});
    const auto made = feed::feedstock_from_label(own, apple());
    REQUIRE(made);
    CHECK(made->feedstock[Property::moisture_wet]->value == 0.80);
}

TEST_CASE("labels that cannot be are refused") {
    auto too_much = apple();
    too_much.protein = 0.3;
    CHECK(feed::feedstock_from_label(own_named("x"), too_much).errors().front().code ==
          ErrorCode::contradiction);
    auto grams = apple();
    grams.carbohydrate = 13.81;
    CHECK(feed::feedstock_from_label(own_named("x"), grams).errors().front().code ==
          ErrorCode::out_of_range);
    auto sugars = apple();
    sugars.sugars = 0.5;
    CHECK(feed::feedstock_from_label(own_named("x"), sugars).errors().front().code ==
          ErrorCode::contradiction);
    NutritionLabel water;
    water.water = 1.0;
    CHECK(feed::feedstock_from_label(own_named("x"), water).errors().front().code ==
          ErrorCode::contradiction);
    auto factor = apple();
    factor.protein_factor = 0.0;
    CHECK_FALSE(feed::feedstock_from_label(own_named("x"), factor));
}
