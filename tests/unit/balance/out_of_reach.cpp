// Targets that cannot be met, and amounts that nothing limits.
#include "feed/balance/balance.hpp"

#include "answers.hpp"
#include "catch2.hpp"
#include "materials.hpp"

using feed::BalanceStatus;
using feed::TargetProperty;
using feed_test::Approx;
using feed_test::bedding;
using feed_test::exactly;
using feed_test::free_amount;
using feed_test::kg;
using feed_test::material;
using feed_test::solved;
using feed_test::target;
using feed_test::up_to;

TEST_CASE("what nothing limits is named") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("scraps", 88, 42, 2.6), 1.0),
                       free_amount(bedding("cardboard", 7, 46, 0.12))};
    problem.entries[1].use_up_priority = 1;
    problem.targets = {target(TargetProperty::moisture, std::nullopt, 0.85)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    CHECK(answer->status == BalanceStatus::unbounded);
    CHECK(answer->unbounded_entry == "cardboard");
}

TEST_CASE("nothing limits what is to be used up, not the water that goes with it") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("peel", 88, 42, 2.6), 0.3),
                       free_amount(material("coffee grounds", 60, 51, 2.2)),
                       free_amount(feed_test::water())};
    problem.entries[1].use_up_priority = 1;
    problem.targets = {target(TargetProperty::moisture, 0.85, 0.90, 0.87)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    CHECK(answer->status == BalanceStatus::unbounded);
    CHECK(answer->unbounded_entry == "coffee grounds");
}

TEST_CASE("an aim that is only approached by ever more of something is unbounded, not a failure") {
    // The fixed part has C:N 18.5, quinoa 18.8; the aim of 63 is approached without end.
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("bread", 27.8, 45.2, 2.6), 0.37),
                       free_amount(material("quinoa", 71.6, 46.6, 2.48)),
                       exactly(material("apricot", 86.3, 41.5, 1.64), 0.52)};
    problem.targets = {target(TargetProperty::cn_ratio, std::nullopt, 66, 63),
                       target(TargetProperty::moisture, 0.627, std::nullopt)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    CHECK(answer->status == BalanceStatus::unbounded);
    CHECK(answer->unbounded_entry == "quinoa");
}

TEST_CASE("an unreachable target names a minimal conflict, the closest blend and the mend") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("lettuce", 95, 40, 3.5), 1.0),
                       up_to(bedding("card", 7, 46, 0.12), 0.05), free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::cn_ratio, 10, 60, 30),
                       target(TargetProperty::moisture, 0.70, 0.85, 0.78)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->status == BalanceStatus::infeasible);
    CHECK(answer->conflict == std::vector<std::string>{"lettuce", "card", "moisture"});
    REQUIRE(answer->mend);
    CHECK(answer->mend->label == "card");
    // 0.95 + 0.07 x = 0.85 (1 + x) needs 0.1282 kg of card; 0.05 kg is there.
    CHECK(answer->mend->add.in_kilograms() == Approx(0.10 / 0.78 - 0.05).epsilon(1e-10));
    CHECK(kg(*answer, 1) == Approx(0.05));
    CHECK(kg(*answer, 2) == 0.0);
    CHECK(answer->largest_deviation > 1.0);
    CHECK_FALSE(answer->reached[1].inside);
    CHECK(answer->reached[0].inside);
    REQUIRE_FALSE(answer->advice.empty());
    CHECK(answer->advice[0].find("let lettuce drain") == 0);
}

TEST_CASE("a target that nothing at hand can help does not leave the others unhelped") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("melon", 92, 42, 1.2), 3.0),
                       up_to(material("coffee grounds", 60, 51, 2.2), 0.5)};
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.85, 0.78),
                       target(TargetProperty::bedding_l_per_scraps_l, 0.5, std::nullopt)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->status == BalanceStatus::infeasible);
    // No bedding can be had: 0 L/L whatever is taken. The moisture still wants all the coffee.
    CHECK(kg(*answer, 1) == Approx(0.5));
    REQUIRE(answer->reached.size() == 2);
    CHECK(answer->reached[0].quantity.value == Approx((2.76 + 0.30) / 3.5));
    CHECK(answer->reached[0].binding);
    CHECK(answer->reached[1].binding);
    CHECK(answer->largest_deviation == Approx(2.0));
}

TEST_CASE("a common bedding mends what the keeper's own list cannot") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("melon rind", 93, 40, 2.0), 2.0),
                       free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.85)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->status == BalanceStatus::infeasible);
    CHECK(answer->conflict == std::vector<std::string>{"melon rind", "moisture"});
    REQUIRE(answer->mend);
    const auto& feedstock = *answer->mend->feedstock;
    CHECK(feedstock.group == feed::Group::beddings);
    const double moisture = feedstock[feed::Property::moisture_wet]->value;
    CHECK(answer->mend->add.in_kilograms() ==
          Approx(2.0 * (0.93 - 0.85) / (0.85 - moisture)).epsilon(1e-10));
    REQUIRE(answer->mend->with.size() == 2);
    CHECK(answer->mend->with[0].wet_mass.in_kilograms() == 2.0);
    CHECK(answer->mend->with[1].wet_mass.in_kilograms() == 0.0);

    auto mended = problem;
    auto entry = exactly(feedstock, answer->mend->add.in_kilograms());
    mended.entries.push_back(entry);
    CHECK(solved(mended).reached[0].binding);
}

TEST_CASE("water on hand does not hide a conflict, and its limit is no part of one") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("lettuce", 95, 40, 3.5), 1.0),
                       free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::water_over_least, std::nullopt, 1.1),
                       target(TargetProperty::moisture, 0.70, 0.85)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    CHECK(answer->status == BalanceStatus::infeasible);
    CHECK(answer->conflict == std::vector<std::string>{"lettuce", "moisture"});
    for (const auto& reached : answer->reached)
        CHECK(reached.target.property != TargetProperty::water_over_least);
}

TEST_CASE("where no bedding mends, common scraps are tried") {
    // Sawdust alone is too poor in nitrogen for this window, and every bedding is too.
    feed::BalanceProblem problem;
    problem.entries = {exactly(bedding("sawdust", 20, 48, 0.1), 1.0)};
    problem.targets = {target(TargetProperty::cn_ratio, 25, 40)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->status == BalanceStatus::infeasible);
    REQUIRE(answer->mend);
    CHECK(answer->mend->feedstock->group != feed::Group::beddings);
    auto mended = problem;
    mended.entries.push_back(
        exactly(*answer->mend->feedstock, answer->mend->add.in_kilograms() * (1.0 + 1e-9)));
    CHECK(solved(mended).reached[0].inside);
}

TEST_CASE("the mend is the least addition of what the keeper listed, exact scraps included") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("cucumber", 96, 40, 3.0), 1.0),
                       exactly(material("dry crusts", 35, 45, 2.2), 0.05)};
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.85)};
    auto answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->mend);
    // A common bedding would do with less, but the list comes first. 0.96 + 0.35 (0.05 + x) =
    // 0.85 (1.05 + x).
    CHECK(answer->mend->label == "dry crusts");
    CHECK(answer->mend->add.in_kilograms() ==
          Approx((0.96 + 0.0175 - 0.8925) / 0.5).epsilon(1e-10));

    // Of those listed the one of least wet mass: 0.10 kg/kg of straw.
    problem.entries.push_back(exactly(bedding("straw", 10, 46, 0.6), 0.02));
    answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->mend);
    CHECK(answer->mend->label == "straw");
    CHECK(answer->mend->add.in_kilograms() ==
          Approx((0.96 + 0.0175 + 0.002 - 0.85 * 1.07) / 0.75).epsilon(1e-10));
}

TEST_CASE("a common bedding is asked for where more of what is listed only wets") {
    // Melon rind is limited but only wets; card from the shed is what helps.
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("lettuce", 95, 40, 3.5), 1.0),
                       up_to(material("melon rind", 93, 40, 2.0), 0.5)};
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.85)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    REQUIRE(answer->mend);
    CHECK(answer->mend->feedstock->group == feed::Group::beddings);
    CHECK(answer->mend->label != "lettuce");
    CHECK(answer->mend->label != "melon rind");
}
