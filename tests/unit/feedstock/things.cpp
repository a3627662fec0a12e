#include "feed/feedstock/things.hpp"

#include <array>
#include <memory>
#include <string>

#include "catch2.hpp"

using feed::ErrorCode;
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

double grams(const feed::ReadThing& thing) {
    return thing.mass.wet_mass.in_kilograms() * 1000.0;
}

}  // namespace

TEST_CASE("the word decides the part, and the other is weighed beside it, once") {
    const auto apples = read_things("3 apples");
    CHECK(only(apples).feedstock->id == "apple-whole");
    // USDA SR26, record 09003: a medium apple is 182 g without the refuse of 10 %.
    CHECK(grams(only(apples)) == Approx(3 * 182.0 / 0.9).epsilon(0.01));
    REQUIRE(only(apples).said.size() == 1);
    CHECK(only(apples).said[0].find("Apple cores and peel") != std::string::npos);
    CHECK(only(apples).said[0].find("60 g") != std::string::npos);
    const auto cores = read_things("3 apple cores");
    CHECK(only(cores).feedstock->id == "apple-pomace");
    CHECK(only(cores).said.empty());
}

TEST_CASE("a file says what its words mean, and has vessels and materials of its own") {
    const std::array<feed::Meaning, 1> meanings{{{"bananas", "banana peels"}}};
    const std::array<feed::Container, 1> vessels{{{"yellow tub", feed::litres(2.0)}}};
    auto mix = feed::feedstock_at(*feed::find_id("carrot"));
    mix.id = "our-mix";
    mix.name = "Our mix";
    const std::array<std::shared_ptr<const feed::Feedstock>, 1> own{
        std::make_shared<const feed::Feedstock>(mix)};
    const feed::KeeperWords keeper{vessels, own, meanings};
    const auto bananas = read_things("2 bananas", keeper);
    CHECK(only(bananas).feedstock->id == "banana-peel");
    const auto tub = read_things("a yellow tub of our mix", keeper);
    CHECK(only(tub).feedstock->id == "our-mix");
    CHECK(feed::in_litres(only(tub).amount.volume) == Approx(2.0));
}

TEST_CASE("what is said about the preparation is done") {
    const auto frozen = read_things("300 g frozen banana peels");
    REQUIRE(only(frozen).preparations.size() == 1);
    CHECK(only(frozen).preparations[0] == feed::Preparation::frozen_thawed);
    CHECK(only(frozen).feedstock->prepared_as == "frozen and thawed");
    CHECK(only(read_things("1 kg soaked cardboard")).feedstock->prepared_as == "soaked");
    CHECK(only(read_things("1 kg damp cardboard")).feedstock->prepared_as == "damped");
    CHECK(only(read_things("1 kg wet leaves")).feedstock->prepared_as == "soaked");
    CHECK(only(read_things("1 kg dry cardboard")).feedstock->prepared_as.empty());
    // A newspaper that was soaked holds its water beside its own weight.
    CHECK(only(read_things("2 soaked newspapers")).mass.wet_mass >
          2.5 * only(read_things("2 newspapers")).mass.wet_mass);
    // What comes off a heap, as `feed heap` sends it to the worms.
    CHECK(only(read_things("2 kg pre-composted grass clippings")).feedstock->prepared_as ==
          "pre-composted");
    CHECK(only(read_things("2 kg pre-composted chicken manure")).feedstock->id ==
          "manure-poultry-layer");
    // A brick is sold dry; what comes of it is another row.
    CHECK(only(read_things("650 g coir brick")).feedstock->id == "coir-brick");
    CHECK(only(read_things("650 g dry coir")).feedstock->id == "coir-brick");
    CHECK(only(read_things("2.6 kg soaked coir")).feedstock->id == "coir-pith");
    CHECK(only(read_things("2 onions, chopped")).feedstock->id == "onion");
    const auto rice = read_things("100 g uncooked quinoa");
    REQUIRE(rice.questions.size() == 1);
    CHECK(rice.questions[0].message.find("weigh it cooked") != std::string::npos);
}

TEST_CASE("a bedding that a keeper is told to note is read back as that bedding") {
    std::size_t tried = 0;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        const feed::Feedstock row = feed::feedstock_at(i);
        if (!row.has(feed::Role::bedding) || row.stance == feed::Stance::avoid) continue;
        for (const bool wet : {false, true}) {
            const bool is_wet = row[feed::Property::moisture_wet]->value > 0.5;
            if (wet && is_wet) continue;
            const auto bedding = wet ? feed::prepared(row, feed::Preparation::soaked) : row;
            const std::string note = "1 kg " + feed::name_to_type(bedding);
            INFO(row.id << ": " << note);
            const auto read = read_things(note);
            REQUIRE(read.things.size() == 1);
            CHECK(read.things[0].feedstock->id == row.id);
            CHECK(read.things[0].feedstock->prepared_as == bedding.prepared_as);
            ++tried;
        }
    }
    CHECK(tried > 100);
}

TEST_CASE("a name alone is prepared as a thing with an amount is") {
    for (const std::string words :
         {"frozen banana peel", "damp cardboard", "soaked newspaper", "carrot"}) {
        INFO(words);
        const auto named = feed::find_thing(words);
        REQUIRE(named.has_value());
        const auto read = read_things("1 kg " + words);
        CHECK(named->feedstock->prepared_as == only(read).feedstock->prepared_as);
    }
    CHECK(feed::find_thing("uncooked quinoa").errors().front().code ==
          feed::ErrorCode::ambiguous_feedstock);
}

TEST_CASE("several things stand in one text, with commas, and, lines") {
    const auto read =
        read_things("3 apples, a cup of coffee grounds and 2 banana peels\n1 kg carrots; 2 onions");
    REQUIRE(read.questions.empty());
    REQUIRE(read.things.size() == 5);
    CHECK(read.things[2].feedstock->id == "banana-peel");
    CHECK(read.things[4].feedstock->id == "onion");
    // A name may hold "and" or a comma.
    CHECK(only(read_things("200 g apple core and peel")).feedstock->id == "apple-pomace");
    CHECK(only(read_things("200 g Rice, white, cooked")).feedstock->id == "rice-cooked");
}

TEST_CASE(
    "what nobody should feed is found by name, with or without an amount, and the rest is kept") {
    const auto read = read_things("3 apples, chicken bones and a cup of bleach");
    REQUIRE(read.questions.empty());
    REQUIRE(read.things.size() == 3);
    CHECK_FALSE(read.things[0].barred);
    CHECK(read.things[1].barred);
    CHECK(read.things[2].barred);
    CHECK(read.things[2].feedstock->id == "bleach");
    CHECK(only(read_things("plastic bags")).barred);
    CHECK(only(read_things("1,200 g plastic")).barred);
}

TEST_CASE("what one thing leaves open is asked without losing the others") {
    const auto read = read_things("3 apples, 1,200 g coffee grounds, 2 wibbles, leaves");
    REQUIRE(read.things.size() == 1);
    REQUIRE(read.questions.size() == 3);
    CHECK(read.questions[0].code == ErrorCode::ambiguous_amount);
    CHECK(read.questions[1].code == ErrorCode::unknown_feedstock);
    CHECK(read.questions[2].code == ErrorCode::missing_value);
}

TEST_CASE("hostile texts end in an error, soon") {
    const auto long_text = read_things(std::string(100000, 'a'));
    REQUIRE(long_text.questions.size() == 1);
    CHECK(long_text.questions[0].code == ErrorCode::too_large);
    for (const auto* piece : {"and ", ", ", "1 ", "a ", "half ", "1 kg ", "old old old ", "(", "-",
                              "plastik ", "\xC3", "\xE2\x80"}) {
        std::string text;
        while (text.size() + 12 < feed::longest_list)
            text += piece;
        const auto read = read_things(text);
        CHECK(read.things.size() + read.questions.size() <= feed::detail::most_things + 1);
    }
}

TEST_CASE("points, seams and runs part things as they are meant") {
    const auto grams = [](const feed::ReadThings& read, std::size_t at) {
        return 1000.0 * read.things.at(at).mass.wet_mass.in_kilograms();
    };
    const auto point = feed::read_things(".5 kg cabbage");
    REQUIRE(point.things.size() == 1);
    CHECK(grams(point, 0) == Approx(500.0));
    // U+2044, the slash of fractions.
    const auto slash = feed::read_things(
        "1\xE2\x81\x84"
        "2 kg cabbage");
    REQUIRE(slash.things.size() == 1);
    CHECK(grams(slash, 0) == Approx(500.0));
    const auto two = feed::read_things("fish 500 g, bones");
    REQUIRE(two.things.size() == 2);
    CHECK(two.things[1].feedstock->id == "bones");
    const auto run = feed::read_things("500 g carrots 200 g onions 3 apples");
    REQUIRE(run.things.size() == 3);
    CHECK(grams(run, 1) == Approx(200.0));
    CHECK(feed::read_things("3 apples, leaves").questions.size() == 1);
    const auto comma = feed::read_things("2 lb, 3 oz of carrots");
    REQUIRE(comma.things.size() == 1);
    CHECK(grams(comma, 0) == Approx(35.0 * 28.349523125));
    CHECK(feed::read_things("at least 2 kg of leaves").questions.empty());
    CHECK(feed::read_things("3 pieces of apple").questions.size() == 1);
}

TEST_CASE("a name that is a unit too stands alone before a comma") {
    const auto two = read_things("leaves, wood ash");
    for (const feed::Error& question : two.questions)
        CHECK(question.message.find("weight of a leaf") == std::string::npos);
    CHECK(two.questions.size() == 2);  // how much of each
    const auto one = read_things("handful coffee grounds");
    CHECK(one.questions.empty());
}
