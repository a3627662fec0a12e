#include "feed/quantity/printable.hpp"

#include <string>

#include "catch2.hpp"

using feed::code_point_at;
using feed::printable;

TEST_CASE("what steers a terminal or hides words is written out") {
    CHECK(printable("plain caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\xAA\xB1\n") ==
          "plain caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\xAA\xB1\n");
    CHECK(printable("\x1b[2J\r\x07\x7f") == "\\x1b[2J\\x0d\\x07\\x7f");
    CHECK(printable(std::string_view("a\0b", 3)) == "a\\x00b");
    CHECK(printable("\xC2\x85\xC2\x9B") == "\\x85\\x9b");              // C1: next line, CSI
    CHECK(printable("\xE2\x80\xAE\xE2\x81\xA6") == "\\u202e\\u2066");  // overrides of direction
    CHECK(printable("\xEF\xBB\xBF\xEF\xBF\xBE") == "\\ufeff\\ufffe");
    CHECK(printable("\xF3\xA0\x81\x81") == "\\U000e0041");  // a tag character
    CHECK(printable("\xFF\x80\xC3") == "\\xff\\x80\\xc3");  // no UTF-8
    // Joiners belong to the writing of Persian and of some signs: they stay.
    CHECK(printable("\xE2\x80\x8D") == "\xE2\x80\x8D");
}

TEST_CASE("a long echo keeps both ends") {
    CHECK(feed::shortened("short") == "short");
    const std::string text = "begin" + std::string(1000, 'x') + "end";
    CHECK(feed::shortened(text, 16) == "beginxxx ... xxxxxend");
    std::string accents;
    for (int i = 0; i < 100; ++i)
        accents += "\xC3\xA9";
    CHECK(printable(feed::shortened(accents, 17)).find("\\x") == std::string::npos);
}

TEST_CASE("every code point reads back, and nothing else is one") {
    for (char32_t c = 0; c <= 0x10FFFF; c += c < 0x3000 ? 1 : 97) {
        std::string text;
        const auto put = [&](char32_t byte) { text += static_cast<char>(byte); };
        if (c < 0x80) {
            put(c);
        } else if (c < 0x800) {
            put(0xC0 | (c >> 6U));
            put(0x80 | (c & 0x3FU));
        } else if (c < 0x10000) {
            put(0xE0 | (c >> 12U));
            put(0x80 | ((c >> 6U) & 0x3FU));
            put(0x80 | (c & 0x3FU));
        } else {
            put(0xF0 | (c >> 18U));
            put(0x80 | ((c >> 12U) & 0x3FU));
            put(0x80 | ((c >> 6U) & 0x3FU));
            put(0x80 | (c & 0x3FU));
        }
        const auto read = code_point_at(text, 0);
        const bool surrogate = c >= 0xD800 && c <= 0xDFFF;
        INFO(static_cast<unsigned>(c));
        REQUIRE(read.valid == !surrogate);
        if (!surrogate) REQUIRE(read.value == c);
        if (!surrogate) REQUIRE(read.length == text.size());
    }
    for (const char* bad : {"\xC1\xBF", "\xE0\x80\x80", "\xF4\x90\x80\x80", "\xF0\x80\x80\x80"})
        CHECK_FALSE(code_point_at(bad, 0).valid);
}
