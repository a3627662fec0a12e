#include "feed/feedstock/amount.hpp"

#include <array>
#include <string>

#include "catch2.hpp"

using feed::Amount;
using feed::AmountKind;
using feed::ErrorCode;
using feed::in_litres;
using feed::parse_amount;
using feed_test::Approx;

namespace {

feed::Error only_error(std::string_view text, std::span<const feed::Container> containers = {}) {
    const auto result = parse_amount(text, containers);
    REQUIRE_FALSE(result.has_value());
    REQUIRE(result.errors().size() == 1);
    return result.errors().front();
}

}  // namespace

TEST_CASE("weights are read in every spelling") {
    const struct {
        const char* text;
        double kilograms;
    } cases[] = {
        {"1.2 kg", 1.2},
        {"1.2kg", 1.2},
        {"250 g", 0.25},
        {"500 mg", 0.0005},
        {"2 Kilograms", 2.0},
        {"1 1/2 lb", 1.5 * 0.45359237},
        {"3 lbs", 1.36077711},
        {"\xC2\xBD pound", 0.226796185},
        // Avoirdupois ounce, 28.349523125 g exactly (NIST Handbook 44, appendix C).
        {"1 oz", 0.028349523125},
        {"8 ounces", 0.226796185},
        {"2 tonnes", 2000.0},
        {"  4   kg ", 4.0},
        {"1e-3 kg", 0.001},
    };
    for (const auto& [text, kilograms] : cases) {
        CAPTURE(text);
        const auto amount = parse_amount(text);
        REQUIRE(amount);
        CHECK(amount->kind == AmountKind::mass);
        CHECK(amount->mass.value() == Approx(kilograms).epsilon(1e-14));
    }
}

// NIST Handbook 44, appendix C: US gallon 3.785411784 L, quart 0.946352946 L, pint 473.176473 mL,
// fluid ounce 29.5735295625 mL, cubic foot 28.316846592 L, cubic yard 0.764554857984 m3.
// UK Units of Measurement Regulations 1995: gallon 4.54609 L, quart 1.1365225 L, pint 0.56826125 L,
// fluid ounce 28.4130625 mL.
TEST_CASE("volumes match the published definitions") {
    const struct {
        const char* text;
        double litres;
    } cases[] = {
        {"3 L", 3.0},
        {"3 litres", 3.0},
        {"250 ml", 0.25},
        {"1 US gallon", 3.785411784},
        {"1 u.s. gal", 3.785411784},
        {"1 US quart", 0.946352946},
        {"1 US pint", 0.473176473},
        {"1 fl oz", 0.0295735295625},
        {"1 fl. oz.", 0.0295735295625},
        {"1 imperial gallon", 4.54609},
        {"2 UK gallons", 9.09218},
        {"1 imperial quart", 1.1365225},
        {"1 imp pint", 0.56826125},
        {"1 imperial fl oz", 0.0284130625},
        {"1 ft3", 28.316846592},
        {"1 ft\xC2\xB3", 28.316846592},
        {"2 cubic feet", 56.633693184},
        {"1 cu ft", 28.316846592},
        {"1 cu. yd.", 764.554857984},
        {"1 m^3", 1000.0},
    };
    for (const auto& [text, litres] : cases) {
        CAPTURE(text);
        const auto amount = parse_amount(text);
        REQUIRE(amount);
        CHECK(amount->kind == AmountKind::volume);
        CHECK(in_litres(amount->volume) == Approx(litres).epsilon(1e-14));
    }
}

TEST_CASE("cups and spoons are measures with a volume") {
    const auto cup = parse_amount("2 cups");
    REQUIRE(cup);
    CHECK(cup->kind == AmountKind::measure);
    CHECK(cup->measure == feed::Measure::cup);
    CHECK(in_litres(cup->volume) == Approx(2 * 0.2365882365).epsilon(1e-14));
    CHECK(in_litres(parse_amount("1 imperial cup")->volume) == Approx(0.284130625).epsilon(1e-14));
    // 14.78676478125 mL and 4.92892159375 mL (NIST Handbook 44, appendix C).
    CHECK(in_litres(parse_amount("1 tbsp")->volume) == Approx(0.01478676478125).epsilon(1e-14));
    CHECK(in_litres(parse_amount("1 tsp")->volume) == Approx(0.00492892159375).epsilon(1e-14));
}

TEST_CASE("household measures are read with plurals and sizes") {
    const struct {
        const char* text;
        feed::Measure measure;
        double count;
    } cases[] = {
        {"6 piece", feed::Measure::piece, 6},
        {"6 pieces", feed::Measure::piece, 6},
        {"2 medium", feed::Measure::piece, 2},
        {"1 small piece", feed::Measure::piece_small, 1},
        {"3 large pieces", feed::Measure::piece_large, 3},
        {"1/2 handful", feed::Measure::handful, 0.5},
        {"2 handfuls", feed::Measure::handful, 2},
        {"12 sheets", feed::Measure::sheet, 12},
        {"2 slices", feed::Measure::slice, 2},
        {"5 leaves", feed::Measure::leaf, 5},
        {"1 stalk", feed::Measure::stalk, 1},
        {"1 Head", feed::Measure::head, 1},
        {"2 bunches", feed::Measure::bunch, 2},
    };
    for (const auto& [text, measure, count] : cases) {
        CAPTURE(text);
        const auto amount = parse_amount(text);
        REQUIRE(amount);
        CHECK(amount->kind == AmountKind::measure);
        CHECK(amount->measure == measure);
        CHECK(amount->count == count);
    }
}

TEST_CASE("a gallon without a country is US and says so") {
    CHECK(parse_amount("5 gallons")->said.find("US gallon") != std::string::npos);
    CHECK(parse_amount("1 pint")->said.find("US pint") != std::string::npos);
    CHECK(parse_amount("1 US pint")->said.empty());
    CHECK(parse_amount("1 imperial pint")->said.empty());
    CHECK(parse_amount("1 kg")->said.empty());
}

TEST_CASE("declared containers are units") {
    const std::array<feed::Container, 2> containers{
        {{"bucket", feed::litres(10.0)}, {"ice cream tub", feed::litres(2.0)}}};
    CHECK(in_litres(parse_amount("1/2 bucket", containers)->volume) == Approx(5.0));
    CHECK(in_litres(parse_amount("2 Buckets", containers)->volume) == Approx(20.0));
    CHECK(in_litres(parse_amount("3 ice-cream tubs", containers)->volume) == Approx(6.0));
    const auto error = only_error("1/2 zubber");
    CHECK(error.code == ErrorCode::unit_unknown);
    CHECK(error.message.find("declared under containers") != std::string::npos);
}

TEST_CASE("what is not an amount is refused with its reason") {
    CHECK(only_error("").code == ErrorCode::empty);
    CHECK(only_error("kg").code == ErrorCode::wrong_type);
    CHECK(only_error("nan kg").code == ErrorCode::not_a_number);
    CHECK(only_error("inf kg").code == ErrorCode::not_a_number);
    CHECK(only_error("-1 kg").code == ErrorCode::out_of_range);
    CHECK(only_error("0 kg").code == ErrorCode::out_of_range);
    CHECK(only_error("1e308 tonne").code == ErrorCode::out_of_range);
    CHECK(only_error("3").code == ErrorCode::unit_missing);
    CHECK(only_error("1,200 g").code == ErrorCode::ambiguous_amount);
    CHECK(only_error("1,200 g").message.find("\"1.2 g\" or \"1200 g\"") != std::string::npos);
    CHECK(only_error("1 200 g").message.find("\"1200 g\" or \"1 x 200 g\"") != std::string::npos);
    CHECK(only_error("2-1 kg").code == ErrorCode::low_above_high);
    CHECK(only_error("2-1 kg").message.find("\"1 to 2 kg\"") != std::string::npos);
    CHECK(only_error("3 kgg").message.find("did you mean \"3 kg\"?") != std::string::npos);
    CHECK(only_error("3 litters").message.find("did you mean \"3 L\"?") != std::string::npos);
    CHECK(only_error("3 hanfful").message.find("did you mean \"3 handful\"?") != std::string::npos);
    CHECK(only_error("3 t").message.find("\"3 teaspoon\" or \"3 tonne\"") != std::string::npos);
    CHECK(only_error("3 US kg").code == ErrorCode::unit_unknown);
    CHECK(only_error("3 kg of").code == ErrorCode::unit_unknown);
}

TEST_CASE("an amount and its feedstock stand in one text") {
    const struct {
        const char* text;
        const char* unit;
        const char* words;
    } cases[] = {
        {"1.2 kg coffee grounds", "kg", "coffee grounds"},
        {"6 piece apple", "piece", "apple"},
        {"3 L shredded office paper", "L", "shredded office paper"},
        {"2 cups of tea leaves", "cup", "tea leaves"},
        {"1 fl oz vinegar", "US fluid ounce", "vinegar"},
        {"1 imperial gallon water", "imperial gallon", "water"},
        {"2 large carrots", "large piece", "carrots"},
        {"1/2 cu ft straw", "ft3", "straw"},
    };
    for (const auto& [text, unit, words] : cases) {
        CAPTURE(text);
        const auto parsed = feed::parse_amount_and_words(text);
        REQUIRE(parsed);
        CHECK(parsed->amount.unit == unit);
        CHECK(parsed->words == words);
    }
    const auto apples = feed::parse_amount_and_words("6 apples");
    REQUIRE(apples);
    CHECK(apples->amount.counted);
    CHECK(apples->amount.count == 6.0);
    CHECK(apples->words == "apples");
    CHECK(feed::parse_amount_and_words("3 handfull carrots")->amount.unit == "handful");
    CHECK(feed::parse_amount_and_words("3 kg").errors().front().code == ErrorCode::empty);
}

TEST_CASE("numbers are read as people say and write them") {
    const struct {
        const char* text;
        double count;
    } cases[] = {
        {"a kg", 1},
        {"half a kg", 0.5},
        {"1\xC2\xBD kg", 1.5},
        {"1-1/2 kg", 1.5},
        {"one and a half kg", 1.5},
        {"a kg and a half", 1.5},
        {"1,5 kg", 1.5},
        {"0,250 kg", 0.25},
        {"1,234,567 mg", 1234567},
        {"1.234,5 kg", 1234.5},
        {"1,234.5 kg", 1234.5},
        {"two dozen kg", 24},
        {"half a dozen kg", 6},
        {"a couple of kg", 2},
        {"twenty five kg", 25},
        {"three quarters of a kg", 0.75},
        {"two thirds of a kg", 2.0 / 3.0},
        {"2 x 5 kg", 10},
        {"ein halbes Kilo", 0.5},
        {"deux kilos", 2},
        {"medio kilo", 0.5},
        {"about 2 kg", 2},
        {"approx. 2 kg", 2},
        {"~2 kg", 2},
    };
    for (const auto& [text, count] : cases) {
        CAPTURE(text);
        const auto amount = parse_amount(text);
        REQUIRE(amount);
        const double one = amount->unit == "mg" ? 1e-6 : 1.0;
        CHECK(amount->mass.value() / one == Approx(count).epsilon(1e-12));
    }
}

TEST_CASE("a range is its middle with both ends") {
    for (const auto* text : {"1-2 kg", "1 to 2 kg", "1 \xE2\x80\x93 2 kg", "between 1 and 2 kg",
                             "1 kg to 2 kg", "one or two kg", "a kg or two"}) {
        CAPTURE(text);
        const auto amount = parse_amount(text);
        REQUIRE(amount);
        CHECK(amount->mass.value() == Approx(1.5));
        CHECK(amount->low_share * 1.5 == Approx(1.0));
        CHECK(amount->high_share * 1.5 == Approx(2.0));
    }
}

TEST_CASE("two of a kind add up") {
    CHECK(parse_amount("2 lb 3 oz")->mass.value() == Approx(35.0 * 0.028349523125));
    CHECK(parse_amount("1 kg 250 g")->mass.value() == Approx(1.25));
    CHECK(parse_amount("1 kg and 250 g")->mass.value() == Approx(1.25));
    CHECK(in_litres(parse_amount("1 cup plus 2 tbsp")->volume) ==
          Approx(0.2365882365 + 2 * 0.01478676478125));
    // Stone of 14 pounds (UK Units of Measurement Regulations 1995).
    CHECK(parse_amount("2 stone")->mass.value() == Approx(28 * 0.45359237));
    CHECK(only_error("1 g 2 kg").code == ErrorCode::unit_unknown);
}

TEST_CASE(
    "a vessel of the house has an assumed size with a range, said; the keeper's own has none") {
    const auto bucket = parse_amount("a bucket");
    REQUIRE(bucket);
    CHECK(bucket->low_share < 1.0);
    CHECK(bucket->high_share > 1.0);
    CHECK(bucket->said.find("10 L") != std::string::npos);
    const std::array<feed::Container, 1> own{{{"bucket", feed::litres(12.0)}}};
    const auto mine = parse_amount("a bucket", own);
    CHECK(in_litres(mine->volume) == Approx(12.0));
    CHECK(mine->said.empty());
    CHECK(mine->low_share == 1.0);
    CHECK(in_litres(parse_amount("a 10 litre bucket")->volume) == Approx(10.0));
    CHECK(in_litres(parse_amount("2 10 L buckets")->volume) == Approx(20.0));
    CHECK(parse_amount("a T")->measure == feed::Measure::tablespoon);
}
