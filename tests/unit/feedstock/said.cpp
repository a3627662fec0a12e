// Amounts as people say them: how full, how about, in which order, in which vessel.
#include <string>

#include "catch2.hpp"
#include "feed/feedstock/things.hpp"

using feed::read_things;
using feed_test::Approx;

namespace {

const feed::ReadThing& only(const feed::ReadThings& read) {
    for (const auto& question : read.questions)
        UNSCOPED_INFO(question.message);
    REQUIRE(read.questions.empty());
    REQUIRE(read.things.size() == 1);
    return read.things.front();
}

double grams(const std::string& text) {
    const auto read = read_things(text);
    CAPTURE(text);
    return only(read).mass.wet_mass.in_kilograms() * 1000.0;
}

}  // namespace

TEST_CASE("how full a vessel is counts, before it and behind it") {
    const double full = grams("a bucket of leaves");
    for (const auto* half : {"a bucket half full of leaves", "a half-full bucket of leaves",
                             "half a bucket of leaves", "a bucket half filled of leaves"})
        CHECK(grams(half) == Approx(0.5 * full));
    CHECK(grams("a bucket three quarters full of leaves") == Approx(0.75 * full));
    CHECK(grams("a bucket full to the brim of leaves") == Approx(full));
    CHECK(grams("a 10 L bucket half full of leaves") == Approx(grams("5 L leaves")));
}

TEST_CASE("a pack holds what shops put into it, not what such a vessel could") {
    CHECK(grams("a packet of crisps") < 100.0);
    CHECK(grams("a box of crackers") < 600.0);
    CHECK(grams("a bowl of porridge") < 600.0);
    CHECK(grams("a tin of baked beans") == Approx(400.0));
    CHECK(grams("2 packets of crisps") == Approx(2.0 * grams("a packet of crisps")));
    const auto read = read_things("a packet of crisps");
    CHECK(only(read).mass.low.in_kilograms() == Approx(0.020));
    CHECK(only(read).mass.high.in_kilograms() == Approx(0.250));
    CHECK(only(read).mass.grade == feed::Grade::d);
    REQUIRE_FALSE(only(read).said.empty());
    CHECK(only(read).said.front().find("20 g to 250 g") != std::string::npos);
    // Of two things that a word may be, the one that comes in tins.
    CHECK(only(read_things("a tin of sweetcorn")).feedstock->id == "corn-sweet-kernels");
}

TEST_CASE("what packs hold is told for vessels and materials that exist") {
    REQUIRE(feed::table::en::held_grams.size() > 100);
    for (const auto& held : feed::table::en::held_grams) {
        const std::string key(held.text);
        CAPTURE(key);
        const auto blank = key.rfind(' ');
        const auto* unit = feed::detail::unit_named(key.substr(0, blank));
        REQUIRE(unit != nullptr);
        CHECK(unit->is_vessel());
        CHECK(feed::find_id(key.substr(blank + 1)).has_value());
        CHECK(held.low <= held.value);
        CHECK(held.value <= held.high);
        CHECK(held.low < held.high);
    }
}

TEST_CASE("a vessel of any kind is a vessel, and what is barred stays barred") {
    const auto mop = read_things("a yellow mop bucket of coffee grounds");
    CHECK(grams("a yellow mop bucket of coffee grounds") ==
          Approx(grams("a bucket of coffee grounds")));
    CHECK(only(mop).feedstock->id == "coffee-grounds");
    for (const auto* vessel : {"wine glass", "coffee cup", "milk crate", "laundry basket"}) {
        const auto text = "a " + std::string(vessel) + " of coffee grounds";
        const auto read = read_things(text);
        CAPTURE(text);
        CHECK_FALSE(only(read).barred);
    }
    CHECK(only(read_things("3 coffee cups")).barred);
    CHECK(only(read_things("a bucket of cat litter")).barred);
}

TEST_CASE("a word that is no measure is named, with what to write") {
    const auto read = read_things("a firkin of coffee grounds");
    REQUIRE(read.questions.size() == 1);
    CHECK(read.questions.front().message.find("\"firkin\" is no measure") == 0);
    for (const auto& repair : read.questions.front().repairs)
        CHECK(only(read_things(repair)).feedstock->id == "coffee-grounds");
    const auto slip = read_things("a bukket of coffee grounds");
    REQUIRE(slip.questions.size() == 1);
    CHECK(slip.questions.front().repairs.front() == "a bucket of coffee grounds");
    // What is barred is found behind it.
    CHECK(only(read_things("a firkin of bleach")).barred);
}

TEST_CASE("numbers are read as they are written, and asked about where they have two readings") {
    CHECK(grams("1'200 g carrots") == Approx(1200.0));
    CHECK(grams("1 000 g carrots") == Approx(1000.0));
    CHECK(grams("2# carrots") == Approx(907.18).epsilon(0.001));
    CHECK(grams("1.500 kg carrots") == Approx(1500.0));
    CHECK(grams("0.500 g carrots") == Approx(0.5));
    CHECK(grams("500.000 g carrots") == Approx(500.0));  // as programs write it
    CHECK(grams("apples ×3") == Approx(grams("3 apples")));
    CHECK(grams("3~4 bananas") == Approx(grams("3 to 4 bananas")));
}

TEST_CASE("loose words widen an amount and change nothing else") {
    const double kilo = grams("1 kg onions");
    for (const auto* text : {"a kilo or so of onions", "1 kg ish onions", "just over 1 kg onions",
                             "a little under 1 kg onions", "close to 1 kg onions"}) {
        CHECK(grams(text) == Approx(kilo));
        const auto read = read_things(text);
        CHECK(only(read).mass.low.in_kilograms() == Approx(0.8));
        CHECK(only(read).mass.high.in_kilograms() == Approx(1.2));
    }
}

TEST_CASE("words before an amount and marks of a list say nothing") {
    const double three = grams("3 apples");
    for (const auto* text : {"I've got 3 apples", "there are 3 apples", "also 3 apples",
                             "1) 3 apples", "fed them 3 apples", "today: 3 apples"})
        CHECK(grams(text) == Approx(three));
    CHECK(grams("kg 2 of carrots") == Approx(2000.0));
    CHECK(grams("cups of coffee grounds: 2") == Approx(grams("2 cups of coffee grounds")));
    const auto cup = read_things("there's a cup of coffee grounds");
    CHECK_FALSE(only(cup).barred);
}

TEST_CASE("things are parted where people part them") {
    for (const auto* text :
         {"3 apples then 2 bananas", "3 apples as well as 2 bananas", "3 apples/2 bananas",
          "3 apples along with 2 bananas", "3 apples and also 2 bananas"}) {
        const auto read = read_things(text);
        CAPTURE(text);
        REQUIRE(read.questions.empty());
        REQUIRE(read.things.size() == 2);
        CHECK(read.things[1].feedstock->id == "banana-whole");
    }
    CHECK(only(read_things("3 radishes with leaves")).feedstock->id == "radish");
    CHECK(grams("pineapple top and skin 300 g") == Approx(300.0));
    CHECK(grams("a bag of carrots, 900 g") == Approx(900.0));
    CHECK(grams("a stack of paper bags 300 g") == Approx(300.0));
    CHECK(only(read_things("weed and feed")).barred);
}

TEST_CASE("a loose word before what nobody counts is asked about") {
    for (const auto* text :
         {"some lettuce", "some bread", "a little rice", "a tiny bit of onion"}) {
        const auto read = read_things(text);
        CAPTURE(text);
        CHECK(read.things.empty());
        REQUIRE(read.questions.size() == 1);
        REQUIRE_FALSE(read.questions.front().repairs.empty());
    }
    CHECK(grams("some apples") > 0.0);
}

TEST_CASE("a slip that makes one name is taken before one that makes half of one") {
    CHECK(only(read_things("orange peal 200 g")).feedstock->id == "orange-peel");
    CHECK(only(read_things("bananapeels 200 g")).feedstock->id == "banana-peel");
    CHECK(only(read_things("manure from wormed sheep")).barred);
}
