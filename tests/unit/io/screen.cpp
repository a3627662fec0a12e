#include "feed/io/screen.hpp"

#include <catch2.hpp>
#include <string>
#include <vector>

using namespace feed::io;
using Lines = std::vector<std::string>;

TEST_CASE("a screen with room keeps every line in its order") {
    CHECK(fitting({{"one", 3}, {"two", 0}, {"", 0}, {"three", 7}}, first_screen) ==
          Lines{"one", "two", "three"});
}

TEST_CASE("where there is no room the highest rank goes first, of equals the last") {
    const std::vector<ScreenLine> lines{{"a", 0}, {"b", 2}, {"c", 1}, {"d", 2}};
    CHECK(fitting(lines, {3, 100}) == Lines{"a", "b", "c"});
    CHECK(fitting(lines, {2, 100}) == Lines{"a", "c"});
    CHECK(fitting(lines, {100, 1}) == Lines{"a"});
}

TEST_CASE("what must stay stays, whatever the room") {
    CHECK(fitting({{"never feed this", 0}, {"a reason", 4}, {"act first", 0}}, {0, 0}) ==
          Lines{"never feed this", "act first"});
}

TEST_CASE("lines are counted as printed, words as read") {
    const std::string long_line(100, 'x');
    const auto taken = taken_by(Lines{"  two words", long_line + " " + long_line});
    CHECK(taken.lines == 3);
    CHECK(taken.words == 4);
    CHECK(left_of(first_screen, Lines{"one two three"}).lines == 11);
    CHECK(left_of({1, 1}, Lines{"one two", "three"}).words == 0);
}

TEST_CASE("a text is cut at the ends of its sentences only") {
    CHECK(sentences_of("Add 1.5 L of water. Is it wet? Drain it.") ==
          Lines{"Add 1.5 L of water.", "Is it wet?", "Drain it."});
    CHECK(sentences_of("no stop") == Lines{"no stop"});
    CHECK(sentences_of("").empty());
}

TEST_CASE("a screen is wrapped with its own indent") {
    CHECK(screen_text({"a", "  b"}) == "a\n  b\n");
    CHECK(screen_text({"  " + std::string(70, 'x') + " " + std::string(20, 'y')}) ==
          "  " + std::string(70, 'x') + "\n    " + std::string(20, 'y') + "\n");
}
