#include "feed/feedstock/amount_mass.hpp"

#include "catch2.hpp"

using feed::parse_amount;
using feed::wet_mass_of;
using feed_test::Approx;

namespace {

// Invented material: 100 kg/m3, a cup of 40 g, a piece of 90 g.
feed::Feedstock invented() {
    feed::Feedstock feedstock;
    feedstock.id = "invented-rind";
    feedstock.name = "Invented rind";
    feedstock[feed::Property::bulk_density_loose] =
        feed::Datum{100.0, 80.0, 150.0, feed::Grade::b, feed::Grade::d, "invented", "invented"};
    feedstock.measures = {
        {feed::Measure::cup, feed::wet_grams(40.0), feed::Grade::a, "invented"},
        {feed::Measure::piece, feed::wet_grams(90.0), feed::Grade::c, "invented"}};
    return feedstock;
}

}  // namespace

TEST_CASE("a weight is taken as it is") {
    const auto mass = wet_mass_of(*parse_amount("1.5 kg"), invented());
    REQUIRE(mass);
    CHECK(mass->wet_mass.in_kilograms() == 1.5);
    CHECK(mass->how.empty());
    CHECK(mass->grade == feed::Grade::a);
}

TEST_CASE("a volume goes through the loose bulk density and says so") {
    const auto mass = wet_mass_of(*parse_amount("3 L"), invented());
    REQUIRE(mass);
    CHECK(mass->wet_mass.in_kilograms() == Approx(0.3));
    CHECK(mass->low.in_kilograms() == Approx(0.24));
    CHECK(mass->high.in_kilograms() == Approx(0.45));
    CHECK(mass->how == "3 L at 100 kg/m3, loose");
    CHECK(mass->grade == feed::Grade::b);
}

TEST_CASE("cups and spoons prefer the feedstock's own cup") {
    CHECK(wet_mass_of(*parse_amount("2 cup"), invented())->wet_mass.in_kilograms() ==
          Approx(0.080));
    // 16 tablespoons are a cup.
    CHECK(wet_mass_of(*parse_amount("16 tablespoon"), invented())->wet_mass.in_kilograms() ==
          Approx(0.040));
    CHECK(wet_mass_of(*parse_amount("1 imperial cup"), invented())->wet_mass.in_kilograms() ==
          Approx(0.040 * 284.130625 / 236.5882365));
    auto without_cup = invented();
    without_cup.measures.clear();
    CHECK(wet_mass_of(*parse_amount("1 cup"), without_cup)->wet_mass.in_kilograms() ==
          Approx(0.02365882365));
}

TEST_CASE("pieces and handfuls") {
    CHECK(wet_mass_of(*parse_amount("6 piece"), invented())->wet_mass.in_kilograms() ==
          Approx(0.540));
    CHECK(wet_mass_of(*parse_amount("6 piece"), invented())->how == "6 pieces at 90 g each");
    const auto handful = wet_mass_of(*parse_amount("2 handful"), invented());
    CHECK(handful->wet_mass.in_kilograms() == Approx(0.024));
    CHECK(handful->grade == feed::Grade::d);
    CHECK(handful->how.find("0.12 L") != std::string::npos);
}

TEST_CASE("a measure without data lists what exists") {
    const auto sheet = wet_mass_of(*parse_amount("4 sheet"), invented());
    REQUIRE_FALSE(sheet);
    const auto& error = sheet.errors().front();
    CHECK(error.code == feed::ErrorCode::missing_value);
    CHECK(error.value == "4 sheet");
    CHECK(error.allowed.find("piece (about 90 g)") != std::string::npos);
    CHECK(error.allowed.find("handful") != std::string::npos);

    auto bare = invented();
    bare.measures.clear();
    bare[feed::Property::bulk_density_loose].reset();
    const auto volume = wet_mass_of(*parse_amount("3 L"), bare);
    REQUIRE_FALSE(volume);
    CHECK(volume.errors().front().allowed == "a weight (kg, g, lb, oz)");
}
