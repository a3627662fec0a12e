#include "feed/quantity/number_text.hpp"

#include <clocale>
#include <cstdlib>
#include <string>

#include "catch2.hpp"

using feed::parse_number;
using feed_test::Approx;

TEST_CASE("numbers are read the way people write amounts") {
    CHECK(parse_number("1.2") == 1.2);
    CHECK(parse_number(" 12 ") == 12.0);
    CHECK(parse_number("1/2") == 0.5);
    CHECK(parse_number("1 1/2") == 1.5);
    CHECK(parse_number("\xC2\xBD") == 0.5);
    CHECK(parse_number("1\xC2\xBD") == 1.5);
    CHECK(parse_number("2 \xC2\xBE") == 2.75);
    CHECK(parse_number("-3e-2") == -0.03);
    CHECK(parse_number("+.5") == 0.5);
}

TEST_CASE("what is not one number is refused") {
    for (const char* text :
         {"", ".", "-", "1.2.3", "1/0", "one", "nan", "inf", "1e", "5.", "1 2", "0x10", "1e999"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_number(text).has_value());
    }
}

TEST_CASE("the rest of the text is left for the unit") {
    const auto number = feed::read_number("1 1/2 kg");
    REQUIRE(number);
    CHECK(number->number == 1.5);
    CHECK(number->length == 5);
    CHECK(feed::read_number("3e kg")->length == 1);
}

// The C library's strtod is the outside reference: correctly rounded in the C locale.
TEST_CASE("decimals up to fifteen digits agree with strtod to the last bit") {
    std::uint64_t state = 42;
    for (int i = 0; i < 20000; ++i) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        const auto digits = (state >> 20) % 1000000000000ULL;
        std::string text = std::to_string(digits);
        text.insert(text.size() - (state % text.size()), ".");
        if (text.back() == '.') text.pop_back();
        CAPTURE(text);
        CHECK(parse_number(text) == std::strtod(text.c_str(), nullptr));
    }
}
