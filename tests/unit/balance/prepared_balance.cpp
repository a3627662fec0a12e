#include "feed/balance/prepared_balance.hpp"

#include <string>

#include "catch2.hpp"
#include "closed_forms.hpp"
#include "materials.hpp"

using feed::TargetProperty;
using feed_test::Approx;
using feed_test::exactly;
using feed_test::free_amount;
using feed_test::target;

namespace {

feed::BalanceProblem grass_and_leaves(feed::Target wanted) {
    feed::BalanceProblem problem;
    problem.entries = {exactly(feed_test::material("grass", 77, 45, 2.4), 10.0),
                       free_amount(feed_test::material("leaves", 35, 50, 0.75))};
    problem.targets = {std::move(wanted)};
    return problem;
}

double row_value(const feed::PreparedBalance& prepared, std::size_t row,
                 std::initializer_list<double> masses) {
    double sum = 0.0;
    std::size_t i = 0;
    for (const double mass : masses)
        sum += prepared.rows[row * prepared.entry_count() + i++] * mass;
    return sum;
}

}  // namespace

// Richard and Trautmann 1996, "Getting the right mix": 10 kg grass and 3.5 kg leaves give 30:1.
TEST_CASE("a C:N row is zero where the published mix meets the ratio") {
    const auto prepared = feed::prepare(grass_and_leaves(target(TargetProperty::cn_ratio, 30, 30)));
    REQUIRE(prepared);
    REQUIRE(prepared->row_count() == 1);
    CHECK(prepared->row_lower[0] == 0.0);
    CHECK(prepared->row_upper[0] == 0.0);
    const double leaves = feed_test::second_for_cn(10, {77, 45, 2.4}, {35, 50, 0.75}, 30);
    CHECK(leaves == Approx(3.5).margin(0.05));
    CHECK(row_value(*prepared, 0, {10.0, leaves}) == Approx(0.0).margin(1e-14));
    CHECK(row_value(*prepared, 0, {10.0, leaves + 1.0}) > 0.0);
}

// Same text: 10 kg grass and 6.8 kg leaves give 60 % moisture.
TEST_CASE("a moisture row is zero where the published mix meets the moisture") {
    const auto prepared =
        feed::prepare(grass_and_leaves(target(TargetProperty::moisture, 0.6, 0.6)));
    REQUIRE(prepared);
    CHECK(row_value(*prepared, 0, {10.0, 6.8}) == Approx(0.0).margin(1e-14));
    CHECK(row_value(*prepared, 0, {10.0, 6.0}) > 0.0);
}

TEST_CASE("a window becomes one row for each edge, a total one row") {
    auto problem = grass_and_leaves(target(TargetProperty::cn_ratio, 20, 40, 30));
    problem.targets.push_back(target(TargetProperty::total_wet_kg, 5, 8));
    problem.targets.push_back(target(TargetProperty::salt_wet_fraction, std::nullopt, 0.005));
    const auto prepared = feed::prepare(problem);
    REQUIRE(prepared);
    REQUIRE(prepared->row_count() == 4);
    CHECK(prepared->row_origins[0].edge == feed::Edge::low);
    CHECK(prepared->row_origins[1].edge == feed::Edge::high);
    CHECK(prepared->row_origins[2].edge == feed::Edge::both);
    CHECK(prepared->row_lower[2] == 5.0);
    CHECK(prepared->row_upper[2] == 8.0);
    CHECK(prepared->row_origins[3].target == 2);
    CHECK(prepared->from_aims.count() == 2);
}

TEST_CASE("deviations are 0 at the aim and 1 at the edge of their side") {
    const auto sides = feed::deviations_from_aim(target(TargetProperty::moisture, 0.7, 0.85, 0.78));
    REQUIRE(sides.up);
    REQUIRE(sides.down);
    CHECK(sides.up->unit == Approx(0.07));
    CHECK(sides.down->unit == Approx(0.08));
    const auto open = feed::deviations_from_aim(target(TargetProperty::cn_ratio, 20, {}, 30));
    CHECK(open.up->unit == Approx(10.0));
    const auto bare = feed::deviations_from_aim(target(TargetProperty::cn_ratio, {}, {}, 30));
    CHECK(bare.up->unit == Approx(30.0));
    CHECK(bare.down->unit == Approx(30.0));
    const auto at_edge = feed::deviations_from_aim(target(TargetProperty::cn_ratio, 20, 30, 30));
    CHECK_FALSE(at_edge.up);
    const auto cap =
        feed::deviations_from_window(target(TargetProperty::salt_wet_fraction, {}, 0.005));
    REQUIRE(cap.up);
    CHECK((0.005 - cap.up->zero) / cap.up->unit == Approx(1.0));
    CHECK((0.010 - cap.up->zero) / cap.up->unit == Approx(2.0));
}

TEST_CASE("water adds mass and moisture, no carbon, nitrogen or volume") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(feed_test::water(), 1.0)};
    problem.targets = {target(TargetProperty::cn_ratio, 20, 40),
                       target(TargetProperty::moisture, 0.5, 1.0),
                       target(TargetProperty::total_volume_l, {}, 10.0)};
    const auto prepared = feed::prepare(problem);
    REQUIRE(prepared);
    CHECK(prepared->sum(feed::Sum::carbon_kg)[0] == 0.0);
    CHECK(prepared->sum(feed::Sum::nitrogen_kg)[0] == 0.0);
    CHECK(prepared->sum(feed::Sum::water_kg)[0] == 1.0);
    CHECK(prepared->sum(feed::Sum::loose_l)[0] == 0.0);
}

TEST_CASE("a default is stated, and a value that may not be guessed is refused by name") {
    auto salty = feed_test::material("pickled radish", 90, 42, 2);
    salty[feed::Property::sodium_wet].reset();
    feed::BalanceProblem problem;
    problem.entries = {exactly(salty, 1.0)};
    problem.targets = {target(TargetProperty::salt_wet_fraction, {}, 0.005)};
    const auto guessed = feed::prepare(problem);
    REQUIRE(guessed);
    REQUIRE(guessed->assumed.size() == 1);
    CHECK(guessed->assumed[0].text ==
          "the sodium of pickled radish is not known: 0.0002 kg/kg is taken");

    salty.group = feed::Group::guarded;
    salty[feed::Property::nitrogen_dry].reset();
    problem.entries = {exactly(salty, 1.0)};
    problem.targets.push_back(target(TargetProperty::cn_ratio, 20, 40));
    const auto refused = feed::prepare(problem);
    REQUIRE_FALSE(refused);
    REQUIRE(refused.errors().size() == 2);
    CHECK(refused.errors()[0].code == feed::ErrorCode::missing_value);
    CHECK(refused.errors()[0].field == "sodium of pickled radish");
    CHECK(refused.errors()[1].message ==
          "the nitrogen of pickled radish is not known and is needed for the targets: state it or "
          "leave pickled radish out");
}

TEST_CASE("a feedstock with a number that is not finite is refused") {
    auto broken = feed_test::material("broken", 80, 42, 2);
    broken[feed::Property::moisture_wet]->value = std::numeric_limits<double>::quiet_NaN();
    feed::BalanceProblem problem;
    problem.entries = {exactly(broken, 1.0)};
    problem.targets = {target(TargetProperty::moisture, 0.5, 0.9)};
    const auto prepared = feed::prepare(problem);
    REQUIRE_FALSE(prepared);
    CHECK(prepared.errors()[0].code == feed::ErrorCode::not_a_number);
}
