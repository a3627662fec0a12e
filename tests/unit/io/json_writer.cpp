#include "feed/io/json_writer.hpp"

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <limits>
#include <string>

#include "catch2.hpp"

using feed::io::JsonWriter;

namespace {

std::string number(double value) {
    JsonWriter json;
    json.value(value);
    auto text = json.take();
    text.pop_back();
    return text;
}

}  // namespace

TEST_CASE("a document is laid out by two blanks") {
    JsonWriter json;
    json.begin_object();
    json.member("a", 1);
    json.key("b");
    json.begin_array();
    json.value("x");
    json.begin_object();
    json.end_object();
    json.end_array();
    json.key("c");
    json.begin_array(true);
    json.value(0.5);
    json.value(true);
    json.null();
    json.end_array();
    json.member("d", std::optional<double>());
    json.end_object();
    CHECK(json.take() ==
          "{\n  \"a\": 1,\n  \"b\": [\n    \"x\",\n    {}\n  ],\n  \"c\": [0.5, true, null],\n"
          "  \"d\": null\n}\n");
}

TEST_CASE("text is escaped as RFC 8259 section 7 asks") {
    JsonWriter json;
    json.value(std::string_view("\"\\\n\t\r\x01\0 caf\xC3\xA9", 13));
    CHECK(json.take() == "\"\\\"\\\\\\n\\t\\r\\u0001\\u0000 caf\xC3\xA9\"\n");
}

TEST_CASE("JSON has no NaN and no infinity") {
    CHECK(number(std::numeric_limits<double>::quiet_NaN()) == "null");
    CHECK(number(std::numeric_limits<double>::infinity()) == "null");
}

// The C library's strtod is the outside reference for reading back.
TEST_CASE("numbers read back to the same bits") {
    std::uint64_t state = 7;
    int finite = 0;
    for (int i = 0; i < 100000; ++i) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        double value = 0.0;
        std::memcpy(&value, &state, sizeof value);
        if (!std::isfinite(value)) continue;
        ++finite;
        const auto text = number(value);
        CAPTURE(text);
        REQUIRE(std::strtod(text.c_str(), nullptr) == value);
    }
    CHECK(finite > 90000);
    CHECK(number(0.1) == "0.1");
    CHECK(number(78) == "78");
}
