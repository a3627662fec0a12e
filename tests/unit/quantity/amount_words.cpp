// Amounts in sentences, in either system of units.
#include "feed/quantity/amount_words.hpp"

#include <catch2.hpp>

using namespace feed;
using words::fixed_text;

namespace {
constexpr auto us = UnitSystem::us;
constexpr auto metric = UnitSystem::metric;
}  // namespace

TEST_CASE("amounts are said in the units that are read") {
    // A pound is 0.45359237 kg, a US gallon 3.785411784 L, a foot 0.3048 m, all by definition.
    CHECK(words::mass(0.45359237, us) == "1 lb");
    CHECK(words::mass(0.45359237, metric) == "450 g");
    CHECK(words::mass(0.0283495, us) == "1 oz");
    CHECK(words::mass(0.9951, metric) == "1 kg");
    CHECK(words::mass(0.0, us) == "0 oz");
    CHECK(words::volume(3.785411784, us) == "1 gal");
    CHECK(words::volume(3.785411784 / 4.0, us) == "1 qt");
    CHECK(words::volume(3.785411784 / 16.0, us) == "1 cup");
    CHECK(words::volume(3.785411784 / 8.0, us) == "2 cups");
}

TEST_CASE("temperatures are said to a degree, and to a tenth where they are close to a limit") {
    CHECK(words::temperature(20.0, metric) == "20 C");
    CHECK(words::temperature(20.0, us) == "68 F");
    CHECK(words::temperature(0.0, us) == "32 F");
    CHECK(words::temperature(-40.0, us) == "-40 F");
    CHECK(words::degrees(30.24, us, true) == "86.4");
    CHECK(words::warming(10.0, us) == "18 F");
    CHECK(words::warming(10.0, metric) == "10 C");
}

TEST_CASE("surfaces, lengths and stockings") {
    CHECK(words::area(0.09290304, us) == "1 sq ft");
    CHECK(words::area(0.2, metric) == "0.2 m2");
    CHECK(words::length(0.3048, us) == "12 in");
    CHECK(words::length(3.048, us) == "10 ft");
    CHECK(words::length(0.3, metric) == "30 cm");
    CHECK(words::sides({0.508, 0.381}, us) == "20 x 15 in");
    CHECK(words::sides({0.54, 0.37}, metric) == "54 x 37 cm");
    // A pound a square foot is 4.882 kg a square metre.
    CHECK(words::stocking(4.882, us) == "1 lb a square foot");
    CHECK(words::stocking(4.882, metric) == "4.9 kg a square metre");
}

TEST_CASE("fixed text keeps its words and changes its units") {
    CHECK(fixed_text("below 10 C they slow down", metric) == "below 10 C they slow down");
    CHECK(fixed_text("below 10 C they slow down", us) == "below 50 F they slow down");
    CHECK(fixed_text("at room temperature, 16 to 24 C.", us) == "at room temperature, 61 to 75 F.");
    CHECK(fixed_text("4-30 C, best 15-20 C (Edwards)", us) == "39-86 F, best 59-68 F (Edwards)");
    CHECK(fixed_text("first layer 10-15 cm, then 7-10 cm; thick", us) ==
          "first layer 3.9-5.9 in, then 2.8-3.9 in; thick");
    CHECK(fixed_text("more than 5 kg a square metre is crowded", us) ==
          "more than 1 lb a square foot is crowded");
    CHECK(fixed_text("paper: 4 L at 94 kg/m3, loose", us) == "paper: 4.2 qt at 5.9 lb/ft3, loose");
    CHECK(fixed_text("6 piece at 20 g each", us) == "6 piece at 0.71 oz each");
    CHECK(fixed_text("it weighs 20 g.", us) == "it weighs 0.71 oz.");
    CHECK(fixed_text("above 30 C", us) == "above 86 F");
}

TEST_CASE("fixed text leaves alone what is no amount") {
    for (const char* text : {
             "60-90 %, best 80-90 % (Kaplan et al. 1980)",
             "0.18 g N/kg; no effect below 0.5 g NH4OH/kg; under 0.5 g/kg in feed",
             "2 g a kg is taken",
             "AG-473-18 and S-05-05, 2005",
             "half C3 and 4 Ca",
             "1 lb a square foot a week",
             "2.5 times its dry weight",
             "15 % or 25 % of volatile solids",
             "C:N is 30 to 1",
             "",
             "20",
             "4 ",
         }) {
        INFO(text);
        CHECK(fixed_text(text, us) == text);
    }
}
