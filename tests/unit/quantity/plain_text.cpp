#include "feed/quantity/plain_text.hpp"

#include "catch2.hpp"

TEST_CASE("texts are compared as people mean them") {
    CHECK(feed::plain_text("  Brewer's Spent-Grain ") == "brewers spent grain");
    CHECK(feed::plain_text("Jalape\xC3\xB1o, pur\xC3\xA9"
                           "e") == "jalapeno puree");
    CHECK(feed::plain_text("egg_carton//box") == "egg carton box");
    CHECK(feed::plain_text("...") == "");
    CHECK(feed::words_of("a bc d").size() == 3);
}

TEST_CASE("singulars") {
    for (const auto& [plural, one] : {std::pair{"leaves", "leaf"},
                                      {"tomatoes", "tomato"},
                                      {"cherries", "cherry"},
                                      {"apples", "apple"},
                                      {"radishes", "radish"},
                                      {"boxes", "box"},
                                      {"grass", "grass"},
                                      {"asparagus", "asparagus"},
                                      {"citrus", "citrus"},
                                      {"peas", "pea"},
                                      {"oats", "oat"}}) {
        CAPTURE(plural);
        CHECK(feed::singular(plural) == one);
    }
    CHECK(feed::singular_text("coffee grounds") == "coffee ground");
}

// Optimal string alignment distances from its definition (Damerau 1964; Wagner & Fischer 1974).
TEST_CASE("edit distance") {
    CHECK(feed::edit_distance("kitten", "sitting") == 3);
    CHECK(feed::edit_distance("", "abc") == 3);
    CHECK(feed::edit_distance("bananna", "banana") == 1);
    CHECK(feed::edit_distance("abcd", "abdc") == 1);
    CHECK(feed::edit_distance("ca", "abc") == 3);
}
