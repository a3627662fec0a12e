#include "feed/io/quantity_text.hpp"

#include <string>

#include "catch2.hpp"

using feed::ErrorCode;
using feed::io::parse_quantity;
using feed::io::parse_window;
using feed::io::QuantityKind;
using feed_test::Approx;

namespace {

double read(const char* text, QuantityKind kind) {
    const auto number = parse_quantity(text, kind);
    CAPTURE(text);
    REQUIRE(number);
    return *number;
}

ErrorCode refusal(const char* text, QuantityKind kind) {
    const auto number = parse_quantity(text, kind);
    CAPTURE(text);
    REQUIRE_FALSE(number);
    CHECK_FALSE(number.errors()[0].allowed.empty());
    CHECK_FALSE(number.errors()[0].message.empty());
    return number.errors()[0].code;
}

}  // namespace

TEST_CASE("fractions carry their unit, moisture may stand bare") {
    CHECK(read("78 %", QuantityKind::moisture) == Approx(0.78));
    CHECK(read("0.78", QuantityKind::moisture) == 0.78);
    CHECK(read("0.9 %", QuantityKind::fraction) == Approx(0.009));
    CHECK(read("9 g/kg", QuantityKind::fraction) == Approx(0.009));
    CHECK(read("900 mg/100 g", QuantityKind::fraction) == Approx(0.009));
    CHECK(read("9000 mg/kg", QuantityKind::fraction) == Approx(0.009));
    CHECK(refusal("0.009", QuantityKind::fraction) == ErrorCode::unit_missing);
    CHECK(refusal("78", QuantityKind::moisture) == ErrorCode::percent_slip);
    CHECK(refusal("178", QuantityKind::moisture) == ErrorCode::out_of_range);
    CHECK(refusal("178 %", QuantityKind::moisture) == ErrorCode::out_of_range);
    CHECK(refusal("-3 %", QuantityKind::moisture) == ErrorCode::out_of_range);
    CHECK(refusal("3 stone", QuantityKind::fraction) == ErrorCode::unit_unknown);
    CHECK(refusal("", QuantityKind::fraction) == ErrorCode::missing_value);
    CHECK(refusal("wet", QuantityKind::moisture) == ErrorCode::not_a_number);
    CHECK(refusal("nan", QuantityKind::ph) == ErrorCode::not_a_number);
    CHECK(read("0,5 %", QuantityKind::fraction) == Approx(0.005));
    CHECK(refusal("1,200 g/kg", QuantityKind::fraction) == ErrorCode::ambiguous_amount);
}

// Conversions against exact definitions (NIST Handbook 44, appendix C; ITS-90 for temperature).
TEST_CASE("units convert to the unit of the kind") {
    CHECK(read("68 F", QuantityKind::temperature) == Approx(20.0));
    CHECK(read("-40 F", QuantityKind::temperature) == Approx(-40.0));
    CHECK(read("293.15 K", QuantityKind::temperature) == Approx(20.0));
    CHECK(read("21 \xC2\xB0"
               "C",
               QuantityKind::temperature) == 21.0);
    CHECK(read("12 in", QuantityKind::length) == Approx(0.3048));
    CHECK(read("1 sq ft", QuantityKind::area) == Approx(0.09290304));
    CHECK(read("0.45 kg/l", QuantityKind::density) == Approx(450.0));
    CHECK(read("62.42796 lb/ft3", QuantityKind::density) == Approx(1000.0).epsilon(1e-6));
    CHECK(read("1 lb", QuantityKind::mass) == 0.45359237);
    CHECK(read("10 gal", QuantityKind::volume) == Approx(37.85411784));
    CHECK(read("2 weeks", QuantityKind::duration) == 14.0);
    CHECK(read("30:1", QuantityKind::cn_ratio) == 30.0);
    CHECK(read("30 to 1", QuantityKind::cn_ratio) == 30.0);
    CHECK(read("1 per lb", QuantityKind::cost) == Approx(2.2046226218));
    CHECK(read("300 %", QuantityKind::water_held) == Approx(3.0));
}

TEST_CASE("windows have one or two ends") {
    const auto both = parse_window("70 % to 85 %", QuantityKind::moisture);
    REQUIRE(both);
    CHECK(*both->low == Approx(0.70));
    CHECK(*both->high == Approx(0.85));
    const auto shared = parse_window("20 to 50:1", QuantityKind::cn_ratio);
    REQUIRE(shared);
    CHECK(*shared->low == 20.0);
    const auto percent = parse_window("70 to 85 %", QuantityKind::moisture);
    REQUIRE(percent);
    CHECK(*percent->low == Approx(0.70));
    const auto least = parse_window("at least 30 %", QuantityKind::share);
    REQUIRE(least);
    CHECK(*least->low == Approx(0.30));
    CHECK_FALSE(least->high);
    const auto most = parse_window("at most 0.5 %", QuantityKind::fraction);
    REQUIRE(most);
    CHECK_FALSE(most->low);
    const auto one = parse_window("30:1", QuantityKind::cn_ratio);
    REQUIRE(one);
    CHECK(one->single);
    const auto swapped = parse_window("85 % to 70 %", QuantityKind::moisture);
    REQUIRE_FALSE(swapped);
    CHECK(swapped.errors()[0].code == ErrorCode::low_above_high);
    CHECK_FALSE(parse_window("70 to 85", QuantityKind::moisture));
}

TEST_CASE("every repair of a number is read as its kind") {
    using feed::io::example_of;
    for (int i = 0; i <= static_cast<int>(QuantityKind::number); ++i) {
        const auto kind = static_cast<QuantityKind>(i);
        CAPTURE(i, example_of(kind));
        CHECK(parse_quantity(example_of(kind), kind));
        const std::string example(example_of(kind));
        const auto digits = example.find_first_not_of("0123456789.");
        const std::string unit = digits == std::string::npos ? "" : example.substr(digits);
        const std::string wrongs[] = {"", "many", "78", "1,200" + unit};
        for (const std::string& wrong : wrongs) {
            CAPTURE(wrong);
            const auto read = parse_quantity(wrong, kind);
            if (read) continue;
            for (const auto& repair : read.errors()[0].repairs) {
                CAPTURE(repair);
                CHECK(read.errors()[0].message.find(repair) != std::string::npos);
                const auto again = parse_quantity(repair, kind);
                // What is left may only be that it is too much or too little.
                CHECK((again || again.errors()[0].code == ErrorCode::out_of_range));
            }
        }
    }
    for (const char* wrong : {"85 % to 70 %", "85 to 70 %"}) {
        const auto swapped = parse_window(wrong, QuantityKind::moisture);
        REQUIRE_FALSE(swapped);
        REQUIRE_FALSE(swapped.errors()[0].repairs.empty());
        CHECK(parse_window(swapped.errors()[0].repairs[0], QuantityKind::moisture));
    }
}

TEST_CASE("whole numbers are whole and in range") {
    CHECK(feed::io::parse_whole("3", 1, 9).value() == 3);
    CHECK_FALSE(feed::io::parse_whole("3.5", 1, 9));
    CHECK_FALSE(feed::io::parse_whole("10", 1, 9));
    CHECK_FALSE(feed::io::parse_whole("1e30", 1, 9));
    CHECK_FALSE(feed::io::parse_whole("many", 1, 9));
}
