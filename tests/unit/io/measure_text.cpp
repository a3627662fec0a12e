#include "feed/io/measure_text.hpp"

#include "catch2.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/lookup.hpp"

using namespace feed;
using namespace feed::io;

namespace {

/// A material of 500 kg/m3 whose handful weighs 80 g.
Feedstock material() {
    Feedstock feedstock;
    feedstock.name = "material";
    Datum density;
    density.value = density.low = density.high = 500.0;
    feedstock[Property::bulk_density_loose] = density;
    feedstock.measures.push_back({Measure::handful, wet_grams(80), Grade::a, ""});
    return feedstock;
}

std::string measured(double grams, const char* as_given) {
    const auto given = parse_amount(as_given);
    REQUIRE(given);
    return measure_text(wet_grams(grams), material(), *given, UnitSystem::metric);
}

}  // namespace

TEST_CASE("amounts come back in the keeper's own measure") {
    CHECK(measured(160, "3 handful") == "2 handfuls");
    CHECK(measured(121, "3 handful") == "1 1/2 handfuls");
    CHECK(measured(80, "3 handful") == "1 handful");
    CHECK(measured(41, "3 handful") == "1/2 handful");
    CHECK(measured(30, "3 handful") == "3/8 handful");
    CHECK(measured(27, "3 handful") == "1/3 handful");
    CHECK(measured(107, "3 handful") == "1 1/3 handfuls");
    CHECK(measured(252, "3 handful") == "3 handfuls");
    CHECK(measured(11.5, "3 handful") == "12 g");  // nobody measures 0.14 of one
    CHECK(measured(4, "3 handful") == "4 g");
    CHECK(measured(500, "2 L") == "1 L");
    CHECK(measured(640, "2 L") == "1.3 L");
    CHECK(measured(170, "1 kg") == "170 g");
}

TEST_CASE("the weight stands beside a measure, and alone when it is one") {
    const auto handful = parse_amount("1 handful");
    REQUIRE(handful);
    CHECK(measure_and_weight_text(wet_grams(160), material(), *handful, UnitSystem::metric) ==
          "2 handfuls, about 160 g");
    CHECK(measure_and_weight_text(wet_grams(160), material(), *handful, UnitSystem::us) ==
          "2 handfuls, about 5.6 oz");
    const auto weight = parse_amount("1 kg");
    REQUIRE(weight);
    CHECK(measure_and_weight_text(wet_grams(160), material(), *weight, UnitSystem::metric) ==
          "160 g");
}

TEST_CASE("what nobody weighs is a pinch, and what is counted has no weight that no scale shows") {
    const auto of = [](double grams, const char* as_given) {
        return measure_and_weight_text(wet_grams(grams), material(), *parse_amount(as_given),
                                       UnitSystem::metric);
    };
    CHECK(of(0.5, "100 g") == "a pinch");
    CHECK(of(4.0, "100 g") == "a pinch");
    CHECK(of(12.0, "100 g") == "12 g");
    CHECK(of(0.7, "5 L") == "a pinch");
    CHECK(of(80.0, "1 handful") == "1 handful, about 80 g");
    CHECK(of(12.0, "5 L") == "24 ml, about 12 g");
    // The pinch of a keeper is one of those that are said.
    const auto pinch = feed::wet_mass_of(*parse_amount("a pinch"), material());
    REQUIRE(pinch);
    CHECK(of(1000.0 * pinch->wet_mass.in_kilograms(), "100 g") == "a pinch");
    CHECK(of(1000.0 * pinch->high.in_kilograms(), "100 g") == "a pinch");
}

TEST_CASE("where no unit was written, pieces are counted and the rest is poured") {
    const auto usual = [](double grams) {
        Feedstock cores = material();
        cores.measures.push_back({Measure::piece, wet_grams(30), Grade::a, ""});
        return measure_text(wet_grams(grams), cores, std::nullopt, UnitSystem::metric);
    };
    CHECK(usual(61) == "2 pieces");
    CHECK(usual(15) == "1/2 piece");
    CHECK(usual(5) == "10 ml");
    CHECK(usual(900) == "1.8 L");
    CHECK(measure_text(wet_grams(160), material(), std::nullopt, UnitSystem::metric) == "320 ml");
}
