#include "feed/feedstock/part.hpp"

#include <map>
#include <string>

#include <table_portion.hpp>
#include "catch2.hpp"
#include "feed/feedstock/own_feedstock.hpp"
#include "feed/feedstock/table.hpp"

using feed::Group;
using feed::Part;
using feed::part_of;
using feed::Role;
using feed_test::from_table;

namespace {

constexpr std::uint8_t bits(std::initializer_list<Role> roles) {
    std::uint8_t sum = 0;
    for (const Role role : roles)
        sum = static_cast<std::uint8_t>(sum | static_cast<std::uint8_t>(role));
    return sum;
}

Part part_with(std::initializer_list<Role> roles, Group group) {
    feed::Feedstock f;
    f.roles = bits(roles);
    f.group = group;
    return part_of(f);
}

}  // namespace

TEST_CASE("one role decides alone, whatever the group") {
    for (const Group group : {Group::scraps, Group::beddings, Group::manures, Group::amendments,
                              Group::water, Group::guarded}) {
        CHECK(part_with({Role::scraps}, group) == Part::scraps);
        CHECK(part_with({Role::bedding}, group) == Part::bedding);
        CHECK(part_with({Role::amendment}, group) == Part::amendment);
        CHECK(part_with({Role::water}, group) == Part::poured_water);
    }
}

TEST_CASE("of several roles the group picks its own, else what may be fed is scraps") {
    CHECK(part_with({Role::scraps, Role::bedding}, Group::beddings) == Part::bedding);
    CHECK(part_with({Role::scraps, Role::bedding}, Group::manures) == Part::scraps);
    CHECK(part_with({Role::scraps, Role::bedding}, Group::scraps) == Part::scraps);
    CHECK(part_with({Role::scraps, Role::amendment}, Group::amendments) == Part::scraps);
    CHECK(part_with({Role::bedding, Role::amendment}, Group::amendments) == Part::amendment);
    CHECK(part_with({Role::bedding, Role::amendment}, Group::scraps) == Part::bedding);
    CHECK(part_with({}, Group::beddings) == Part::bedding);
    CHECK(part_with({}, Group::water) == Part::poured_water);
    CHECK(part_with({}, Group::guarded) == Part::scraps);
}

TEST_CASE("an own bedding or lime given only by its roles is one") {
    feed::OwnFeedstock own;
    own.name = "Shredded jeans";
    own.values = {{feed::Property::moisture_wet, 0.08, {}, {}}};
    own.roles = bits({Role::bedding});
    CHECK(part_of(feed::own_feedstock(own)->feedstock) == Part::bedding);
    own.roles = bits({Role::amendment});
    CHECK(part_of(feed::own_feedstock(own)->feedstock) == Part::amendment);
    const auto melon = *from_table("watermelon-whole");
    own.roles = bits({Role::bedding});
    CHECK(part_of(feed::own_feedstock(own, &melon)->feedstock) == Part::bedding);
}

// Rows whose roles and group say different things, decided one by one: what a keeper does with the
// material (common practice).
TEST_CASE("the rows of the table that could be read two ways are read as decided") {
    const std::map<std::string, Part> decided{
        {"hay-grass", Part::bedding},           // laid as bedding, though worms eat it
        {"hay-legume", Part::bedding},          // the same
        {"cocoa-shells", Part::bedding},        // dry mulch
        {"beet-pulp", Part::bedding},           // bought dry, soaked as bedding
        {"soybean-hulls", Part::bedding},       // dry hulls
        {"garden-soil", Part::amendment},       // a handful for grit, never a bed of it
        {"manure-cow", Part::scraps},           // food; no part of 0.5 to 2 L bedding a litre
        {"manure-horse-bedded", Part::scraps},  // the same
        {"corn-husk-cob-fresh", Part::scraps},  {"pea-vines", Part::scraps},
        {"yard-trimmings-mixed", Part::scraps}, {"molasses", Part::scraps},
        {"whey-powder", Part::scraps},          {"wheat-bran", Part::scraps},
        {"shrimp-crab-shell", Part::scraps},    {"bone-meal", Part::amendment},
        {"meat-bone-meal", Part::amendment},    {"hydrated-lime", Part::amendment},
        {"table-salt", Part::amendment},        {"urea", Part::amendment},
        {"furniture-wood", Part::bedding},      {"magazine-glossy", Part::bedding},
        {"waxed-carton", Part::bedding},        {"coffee-brewed", Part::poured_water},
        {"tea-brewed", Part::poured_water},     {"urine-human", Part::poured_water},
    };
    for (const auto& [id, part] : decided) {
        INFO(id);
        REQUIRE(feed::find_id(id));
        CHECK(part_of(*from_table(id)) == part);
    }
}

TEST_CASE("only water as such is plain water") {
    CHECK(feed::is_plain_water(*from_table("water-tap")));
    CHECK(feed::is_plain_water(*from_table("water-rain")));
    CHECK_FALSE(feed::is_plain_water(*from_table("coffee-brewed")));
    CHECK_FALSE(feed::is_plain_water(*from_table("urine-human")));
    CHECK_FALSE(feed::is_plain_water(*from_table("newspaper")));
}
