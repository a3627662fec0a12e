#include "feed/feedstock/place.hpp"

#include <array>
#include <string>

#include <table_portion.hpp>
#include "catch2.hpp"
#include "feed/feedstock/own_feedstock.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/feedstock/table.hpp"

using feed::Place;
using feed::Stance;
using feed_test::from_table;

namespace {

feed::OwnFeedstock own(std::string name, std::optional<Stance> stance) {
    feed::OwnFeedstock made;
    made.name = std::move(name);
    made.stance = stance;
    return made;
}

}  // namespace

TEST_CASE("every barred row says why and what instead, in a few words") {
    int barred = 0;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        const auto f = feed::feedstock_at(i);
        CHECK(feed::barred_in(f, Place::worm_bed) == (f.stance == Stance::avoid));
        if (f.stance != Stance::avoid) continue;
        ++barred;
        INFO(f.name);
        CHECK(feed::why_barred(f).size() < 70);
        CHECK(feed::why_barred(f).find("marked as") == std::string_view::npos);
        CHECK_FALSE(feed::instead_of(f).empty());
    }
    CHECK(barred > 30);
}

TEST_CASE("the reason fits the material") {
    CHECK(feed::why_barred(*from_table("bacon-cooked")).find("rats") != std::string_view::npos);
    CHECK(feed::why_barred(*from_table("pet-waste")).find("germs") != std::string_view::npos);
    CHECK(feed::why_barred(*from_table("urine-human")).find("germs") != std::string_view::npos);
    CHECK(feed::why_barred(*from_table("hydrated-lime")).find("burns") != std::string_view::npos);
    CHECK(feed::why_barred(*from_table("waxed-carton")).find("plastic") != std::string_view::npos);
    CHECK(feed::why_barred(*from_table("oil-vegetable")).find("fat") != std::string_view::npos);
    CHECK(feed::why_barred(*from_table("soy-sauce")).find("salt") != std::string_view::npos);
    CHECK(feed::why_barred(*from_table("manure-pig")).find("parasites") != std::string_view::npos);
}

// Home heaps leave out meat, dairy, fat, pet waste, coal ash, treated wood and coated paper: the
// list on the U.S. EPA page on composting at home (recalled). Urea feeds a heap (common practice).
TEST_CASE("a heap has stances of its own") {
    for (const auto* id :
         {"bacon-cooked", "cheese-cheddar", "pet-waste", "hydrated-lime", "furniture-wood",
          "waxed-carton", "oil-vegetable", "table-salt", "manure-pig"}) {
        INFO(id);
        CHECK(feed::barred_in(*from_table(id), Place::heap));
    }
    CHECK(feed::stance_in(*from_table("urea"), Place::heap) == Stance::feed_little);
    CHECK(feed::stance_in(*from_table("urea"), Place::worm_bed) == Stance::avoid);
    CHECK(feed::stance_in(*from_table("onion"), Place::heap) == Stance::feed);
    // Thinned urine of healthy people is a usual nitrogen source of heaps (extension answer, 2016);
    // bread and cooked starch draw rats to a heap as they sour a bed.
    CHECK(feed::stance_in(*from_table("urine-human"), Place::heap) == Stance::feed_little);
    CHECK(feed::stance_in(*from_table("bread-white"), Place::heap) == Stance::feed_little);
    CHECK(feed::stance_in(*from_table("blood-meal"), Place::heap) == Stance::feed);
}

// Ammonium acetate at 0.1 % of the bed killed all worms (Kaplan 1980); raw poultry manure holds
// most of its nitrogen as ammonia and uric acid.
TEST_CASE("raw poultry manure is barred from a worm bed until it was pre-composted") {
    for (const auto* id :
         {"manure-poultry-layer", "manure-broiler-litter", "manure-turkey-litter"}) {
        INFO(id);
        const auto raw = *from_table(id);
        CHECK(feed::barred_in(raw, Place::worm_bed));
        CHECK_FALSE(feed::barred_in(raw, Place::heap));
        CHECK(feed::why_barred(raw).find("ammonia") != std::string_view::npos);
        CHECK(feed::instead_of(raw).find("compost") != std::string_view::npos);
        const std::array steps{feed::Preparation::pre_composted};
        const auto composted = feed::prepared(raw, steps);
        CHECK(feed::stance_in(composted, Place::worm_bed) == Stance::feed_little);
        CHECK(*composted.most_wet_kg_per_kg_worms <= 0.03);
        const std::array dried{feed::Preparation::dried};
        CHECK(feed::barred_in(feed::prepared(raw, dried), Place::worm_bed));
    }
    const std::array steps{feed::Preparation::pre_composted};
    CHECK(feed::barred_in(feed::prepared(*from_table("bacon-cooked"), steps), Place::worm_bed));
}

TEST_CASE("no row that worms may have is barred in a heap") {
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        const auto f = feed::feedstock_at(i);
        if (f.stance == Stance::avoid) continue;
        INFO(f.name);
        CHECK_FALSE(feed::barred_in(f, Place::heap));
    }
}

TEST_CASE("an own feedstock inherits the bar and its cautions") {
    const auto bacon = *from_table("bacon-cooked");
    auto said = own("Breakfast leftovers", {});
    said.cautions = 0;
    const auto made = feed::own_feedstock(said, &bacon);
    REQUIRE(made);
    CHECK(feed::barred_in(made->feedstock, Place::worm_bed));
    CHECK(made->feedstock.has(feed::Caution::meat_dairy));
    CHECK_FALSE(made->feedstock.stance_lifted);
}

TEST_CASE("only a stance that is given lifts a bar, and it is remembered") {
    const auto bacon = *from_table("bacon-cooked");
    const auto made = feed::own_feedstock(own("Rinsed rind", Stance::feed_little), &bacon);
    REQUIRE(made);
    CHECK(made->feedstock.stance_lifted);
    CHECK_FALSE(feed::barred_in(made->feedstock, Place::worm_bed));
    const auto again = feed::own_feedstock(own("More rind", {}), &made->feedstock);
    REQUIRE(again);
    CHECK(again->feedstock.stance_lifted);
    const auto back = feed::own_feedstock(own("No rind", Stance::avoid), &made->feedstock);
    REQUIRE(back);
    CHECK_FALSE(back->feedstock.stance_lifted);
    const auto kale = *from_table("kale");
    CHECK_FALSE(feed::own_feedstock(own("My kale", Stance::feed), &kale)->feedstock.stance_lifted);
}

TEST_CASE("no file feeds waste of pets and people, caustic lime, treated wood or plastic") {
    for (const auto* id : {"pet-waste", "urine-human", "hydrated-lime", "furniture-wood",
                           "waxed-carton", "magazine-glossy"}) {
        INFO(id);
        const auto barred = *from_table(id);
        for (const Stance stance : {Stance::feed, Stance::feed_little}) {
            auto said = own("Mine", stance);
            said.cautions = 0;
            const auto made = feed::own_feedstock(said, &barred);
            REQUIRE_FALSE(made);
            CHECK(made.errors().front().field == "stance of Mine");
            CHECK(made.errors().front().code == feed::ErrorCode::contradiction);
        }
        // The repair that is suggested works, twice over.
        const auto without = feed::own_feedstock(own("Mine", {}), &barred);
        REQUIRE(without);
        CHECK(feed::barred_in(without->feedstock, Place::worm_bed));
        CHECK_FALSE(feed::own_feedstock(own("Again", Stance::feed), &without->feedstock));
    }
}

TEST_CASE("an own feedstock marked as pet waste is never fed") {
    auto said = own("Litter", {});
    said.values = {{feed::Property::moisture_wet, 0.5, {}, {}}};
    said.cautions = static_cast<std::uint32_t>(feed::Caution::pet_waste);
    const auto made = feed::own_feedstock(said);
    REQUIRE(made);
    CHECK(feed::barred_in(made->feedstock, Place::worm_bed));
    said.stance = Stance::feed;
    CHECK_FALSE(feed::own_feedstock(said));
}

TEST_CASE("an own feedstock that only names what is never fed is barred by that name") {
    const auto named = [](std::string name, std::optional<Stance> stance = {}) {
        auto said = own(std::move(name), stance);
        said.values = {{feed::Property::moisture_wet, 0.5, {}, {}}};
        return feed::own_feedstock(said);
    };
    for (const auto* name : {"dog poo", "Our cat litter", "wee", "bacon bits", "cheese rinds",
                             "hydrated lime", "treated wood shavings", "plastic bags"}) {
        INFO(name);
        const auto made = named(name);
        REQUIRE(made);
        CHECK(feed::barred_in(made->feedstock, Place::worm_bed));
        CHECK(feed::why_barred(made->feedstock) ==
              feed::why_barred(*feed::look_up(name)->feedstock));
        CHECK(feed::stance_in(made->feedstock, Place::heap) ==
              feed::stance_in(*feed::look_up(name)->feedstock, Place::heap));
    }
    // A stance that is given lifts it, but for waste, caustic lime, treated wood and plastic.
    const auto rinds = named("cheese rinds", Stance::feed_little);
    REQUIRE(rinds);
    CHECK(rinds->feedstock.stance_lifted);
    CHECK_FALSE(feed::barred_in(rinds->feedstock, Place::worm_bed));
    for (const auto* name :
         {"dog poo", "wee", "nappies", "hydrated lime", "treated wood shavings", "plastic bags"}) {
        INFO(name);
        const auto refused = named(name, Stance::feed);
        REQUIRE_FALSE(refused);
        CHECK(refused.errors().front().field == "stance of " + std::string(name));
        CHECK(refused.errors().size() == 1);
    }
    for (const auto* name : {"house mix", "lime", "tofu scraps", "butternut", "plastic free tea"}) {
        INFO(name);
        const auto made = named(name);
        REQUIRE(made);
        CHECK(made->feedstock.stance == Stance::feed);
    }
}

TEST_CASE("a harmless thing that it is said to be like does not open the bed to waste") {
    const auto coffee = *from_table("coffee-grounds");
    for (const auto* name : {"dog poo", "hydrated lime", "treated wood shavings"}) {
        INFO(name);
        const auto made = feed::own_feedstock(own(name, {}), &coffee);
        REQUIRE(made);
        CHECK(feed::barred_in(made->feedstock, Place::worm_bed));
        CHECK_FALSE(feed::own_feedstock(own(name, Stance::feed), &coffee));
    }
    // What is barred for its coating, or as food that rots, is what the keeper says it is like.
    const auto paper = *from_table("paper-office");
    CHECK_FALSE(feed::barred_in(feed::own_feedstock(own("till roll", {}), &paper)->feedstock,
                                Place::worm_bed));
    CHECK_FALSE(feed::barred_in(
        feed::own_feedstock(own("vegetarian sausage", {}), &coffee)->feedstock, Place::worm_bed));
}
