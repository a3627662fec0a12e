#include "feed/balance/balance.hpp"

#include "answers.hpp"
#include "catch2.hpp"
#include "closed_forms.hpp"
#include "materials.hpp"

using feed::BalanceStatus;
using feed::Objective;
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

// Richard and Trautmann 1996: 10 kg grass (77 %, C 45, N 2.4) and leaves (35 %, C 50, N 0.75).
TEST_CASE("two ingredients: the published amounts for 30:1 and for 60 % moisture") {
    const feed_test::Ingredient grass{77, 45, 2.4};
    const feed_test::Ingredient leaves{35, 50, 0.75};
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("grass", 77, 45, 2.4), 10.0),
                       free_amount(material("leaves", 35, 50, 0.75))};
    problem.objective = Objective::least_added;

    problem.targets = {target(TargetProperty::cn_ratio, 30, 30)};
    CHECK(kg(solved(problem), 1) ==
          Approx(feed_test::second_for_cn(10, grass, leaves, 30)).epsilon(1e-12));
    CHECK(kg(solved(problem), 1) == Approx(3.5).margin(0.05));

    problem.targets = {target(TargetProperty::moisture, 0.6, 0.6)};
    CHECK(kg(solved(problem), 1) ==
          Approx(feed_test::second_for_moisture(10, grass, leaves, 60)).epsilon(1e-12));
    CHECK(kg(solved(problem), 1) == Approx(6.8).epsilon(1e-12));
}

// Rynk 1992, chapter 3: manure (70 %, N 6.0 %, C:N 10), sawdust (35 %, N 0.11 %, C:N 500), goal 25:
// 0.8 lb sawdust to the pound, moisture about 54 %.
TEST_CASE("manure and sawdust: the published amount and moisture") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("layer manure", 70, 60, 6.0), 1.0),
                       free_amount(material("sawdust", 35, 55, 0.11))};
    problem.targets = {target(TargetProperty::cn_ratio, 25, 25)};
    const auto answer = solved(problem);
    CHECK(kg(answer, 1) == Approx(0.8).margin(0.006));
    CHECK(answer.properties.moisture.value.value() == Approx(0.545).margin(0.0005));
    CHECK(answer.properties.cn_ratio.value == Approx(25.0).epsilon(1e-12));
}

TEST_CASE("three ingredients: both goals at once, as the simultaneous form gives them") {
    const feed_test::Ingredient scraps{88, 42, 2.6};
    const feed_test::Ingredient card{7, 46, 0.12};
    const feed_test::Ingredient wet{100, 0, 0};
    const auto masses = feed_test::simultaneous(2.0, scraps, card, wet, 45, 75);
    REQUIRE(masses.second > 0.0);
    REQUIRE(masses.third > 0.0);
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("scraps", 88, 42, 2.6), 2.0),
                       free_amount(bedding("card", 7, 46, 0.12)), free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::cn_ratio, 45, 45),
                       target(TargetProperty::moisture, 0.75, 0.75)};
    for (const auto objective :
         {Objective::least_added, Objective::closest_to_aims, Objective::use_up_most}) {
        problem.objective = objective;
        const auto answer = solved(problem);
        CHECK(kg(answer, 1) == Approx(masses.second).epsilon(1e-10));
        CHECK(kg(answer, 2) == Approx(masses.third).epsilon(1e-10));
    }
}

TEST_CASE("a goal that needs a negative amount is infeasible, never clipped") {
    const auto masses =
        feed_test::simultaneous(2.0, {88, 42, 2.6}, {7, 46, 0.12}, {100, 0, 0}, 20, 70);
    REQUIRE(masses.third < 0.0);
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("scraps", 88, 42, 2.6), 2.0),
                       free_amount(bedding("card", 7, 46, 0.12)), free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::cn_ratio, 20, 20),
                       target(TargetProperty::moisture, 0.70, 0.70)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    CHECK(answer->status == BalanceStatus::infeasible);
    CHECK(answer->conflict == std::vector<std::string>{"scraps", "C:N ratio", "moisture"});
    // No bedding does: something drier and richer in nitrogen than card does.
    REQUIRE(answer->mend);
    auto mended = problem;
    mended.entries.push_back(
        exactly(*answer->mend->feedstock, answer->mend->add.in_kilograms() * (1.0 + 1e-6)));
    solved(mended);
}

TEST_CASE("closest to the aims reaches both aims when it can, with the least mass") {
    feed::BalanceProblem problem;
    problem.entries = {
        exactly(material("scraps", 88, 42, 2.6), 1.0), free_amount(bedding("card", 7, 46, 0.12)),
        free_amount(bedding("leaves", 12, 47, 0.95)), free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::cn_ratio, 20, 50, 30),
                       target(TargetProperty::moisture, 0.70, 0.85, 0.78)};
    const auto answer = solved(problem);
    CHECK(answer.largest_deviation == Approx(0.0).margin(1e-9));
    CHECK(answer.properties.cn_ratio.value == Approx(30.0).epsilon(1e-8));
    CHECK(answer.properties.moisture.value.value() == Approx(0.78).epsilon(1e-8));
}

TEST_CASE("closest to the aims shares what cannot be had between the two sides") {
    // Only card: more of it dries and raises C:N, so the best blend is worst in both equally.
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("fruit scraps", 86, 42, 1.4), 1.0),
                       free_amount(bedding("card", 7, 46, 0.12))};
    problem.targets = {target(TargetProperty::cn_ratio, 20, 60, 30),
                       target(TargetProperty::moisture, 0.70, 0.88, 0.78)};
    const auto answer = solved(problem);
    const double cn_deviation = (answer.properties.cn_ratio.value - 30.0) / 30.0;
    const double wet_deviation = (answer.properties.moisture.value.value() - 0.78) / 0.10;
    CHECK(cn_deviation == Approx(wet_deviation).epsilon(1e-8));
    CHECK(answer.largest_deviation == Approx(cn_deviation).epsilon(1e-8));
    for (const auto& reached : answer.reached) {
        CHECK(reached.inside);
        CHECK(reached.binding);
    }
}

TEST_CASE("what is used up first goes in before anything else, in its order") {
    feed::BalanceProblem problem;
    problem.entries = {up_to(material("lettuce", 95, 40, 3.5), 4.0),
                       up_to(material("peelings", 82, 43, 2.0), 4.0),
                       free_amount(bedding("card", 7, 46, 0.12))};
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.80, 0.78),
                       target(TargetProperty::total_wet_kg, std::nullopt, 5.0)};
    problem.entries[0].use_up_priority = 1;
    problem.entries[1].use_up_priority = 2;
    const auto lettuce_first = solved(problem);
    problem.entries[0].use_up_priority = 2;
    problem.entries[1].use_up_priority = 1;
    const auto peelings_first = solved(problem);
    CHECK(kg(lettuce_first, 0) == Approx(4.0));
    CHECK(kg(peelings_first, 1) == Approx(4.0));
    CHECK(kg(peelings_first, 0) < kg(lettuce_first, 0));
}

TEST_CASE("the cheapest blend uses the cheaper of two like beddings") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("scraps", 88, 42, 2.6), 1.0),
                       free_amount(bedding("bought coir", 7, 46, 0.12)),
                       free_amount(bedding("old card", 7, 46, 0.12))};
    problem.entries[1].cost_per_wet_kg = 2.0;
    problem.entries[2].cost_per_wet_kg = 0.1;
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.80)};
    problem.objective = Objective::cheapest;
    const auto answer = solved(problem);
    CHECK(kg(answer, 1) == 0.0);
    CHECK(kg(answer, 2) == Approx(0.08 / 0.73).epsilon(1e-10));
    REQUIRE_FALSE(answer.assumed.empty());
    CHECK(answer.assumed[0].text == "no cost is given for scraps: taken as free");
}

TEST_CASE("closest to the usual recipe keeps it where it fits and scales it to the day") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("scraps", 88, 42, 2.6), 2.0),
                       free_amount(bedding("card", 7, 46, 0.12)),
                       free_amount(bedding("leaves", 12, 47, 0.95))};
    problem.entries[0].usual = feed::wet_kilograms(1.0);
    problem.entries[1].usual = feed::wet_kilograms(0.10);
    problem.entries[2].usual = feed::wet_kilograms(0.05);
    problem.targets = {target(TargetProperty::moisture, 0.60, 0.90)};
    problem.objective = Objective::closest_to_usual;
    auto answer = solved(problem);
    CHECK(kg(answer, 1) == Approx(0.20).epsilon(1e-10));
    CHECK(kg(answer, 2) == Approx(0.10).epsilon(1e-10));

    // With a window that the recipe misses: minimise sum ((x - u) / u)^2 on one binding row, by
    // Lagrange: x_i = u_i (1 + t a_i u_i), t from the row.
    problem.targets = {target(TargetProperty::moisture, 0.60, 0.75)};
    answer = solved(problem);
    const double a1 = 0.07 - 0.75;
    const double a2 = 0.12 - 0.75;
    const double rest = 2.0 * (0.88 - 0.75) + 0.20 * a1 + 0.10 * a2;
    const double t = -rest / (0.20 * 0.20 * a1 * a1 + 0.10 * 0.10 * a2 * a2);
    CHECK(kg(answer, 1) == Approx(0.20 * (1.0 + t * a1 * 0.20)).epsilon(1e-10));
    CHECK(kg(answer, 2) == Approx(0.10 * (1.0 + t * a2 * 0.10)).epsilon(1e-10));
    CHECK(answer.reached[0].binding);
}

TEST_CASE("an oil has no nitrogen: C:N is missing, not zero and not met") {
    auto oil = material("oil", 0, 77, 0);
    feed::BalanceProblem problem;
    problem.entries = {exactly(oil, 0.1), free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::cn_ratio, 20, 50, 30)};
    const auto answer = feed::balance(problem);
    REQUIRE(answer);
    CHECK(answer->status == BalanceStatus::infeasible);
    CHECK(answer->conflict == std::vector<std::string>{"oil", "C:N ratio"});
    for (const auto& reached : answer->reached) {
        CHECK_FALSE(reached.inside);
        CHECK_FALSE(reached.quantity.has_value());
    }
}

TEST_CASE("the same problem twice, or its entries' tie, gives the same bits") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("scraps", 88, 42, 2.6), 1.0),
                       free_amount(bedding("card one", 7, 46, 0.12)),
                       free_amount(bedding("card two", 7, 46, 0.12))};
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.80, 0.78)};
    const auto first = solved(problem);
    const auto second = solved(problem);
    CHECK(kg(first, 1) == kg(second, 1));
    // Of two alike the earlier one is as small as can be.
    CHECK(kg(first, 1) == 0.0);
    CHECK(kg(first, 2) == Approx(0.10 / 0.71).epsilon(1e-10));
}

TEST_CASE(
    "water is held to a tenth over the least that will do, and left out where none is needed") {
    feed::BalanceProblem problem;
    problem.entries = {exactly(material("dry crusts", 35, 45, 2.2), 1.0),
                       free_amount(bedding("card", 7, 46, 0.12)), free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::moisture, 0.70, 0.85, 0.78),
                       target(TargetProperty::bedding_l_per_scraps_l, 0.5, std::nullopt),
                       target(TargetProperty::water_over_least, std::nullopt, 1.1)};
    // Least water: 2 L of crusts want 1 L of card, 0.06 kg, and 70 % of the whole.
    const double dry = 0.65 + 0.06 * 0.93;
    const double least = dry * 0.7 / 0.3 - (1.06 - dry);
    auto answer = solved(problem);
    CHECK(kg(answer, 2) == Approx(1.1 * least).epsilon(1e-9));
    REQUIRE(answer.reached.size() == 3);
    CHECK(answer.reached[2].quantity.value == Approx(1.1).epsilon(1e-9));
    CHECK(answer.reached[2].binding);

    problem.targets[2].high = 1000.0;
    CHECK(solved(problem).properties.moisture.value.value() == Approx(0.78).epsilon(1e-8));

    problem.targets[2].high = 1.1;
    problem.entries[0] = exactly(material("wet scraps", 82, 42, 4.0), 1.0);
    problem.targets.push_back(target(TargetProperty::cn_ratio, 15, 50, 30));
    answer = solved(problem);
    CHECK(kg(answer, 2) == 0.0);
    CHECK(answer.reached[2].inside);
}

TEST_CASE("what is used up first gets the water it needs, and no more than that") {
    feed::BalanceProblem problem;
    problem.entries = {up_to(material("coffee grounds", 60, 51, 2.2), 2.15),
                       exactly(material("pulp", 78, 45, 2.0), 0.3),
                       free_amount(bedding("card", 7, 46, 0.12)), free_amount(feed_test::water())};
    problem.targets = {target(TargetProperty::moisture, 0.72, 0.82, 0.78),
                       target(TargetProperty::water_over_least, std::nullopt, 1.1),
                       target(TargetProperty::total_wet_kg, std::nullopt, 3.0)};
    // 3 kg at 72 % hold 0.84 kg dry, of which the pulp brings 0.066; the rest is 40 % of the
    // coffee.
    const double coffee = (0.84 - 0.066) / 0.4;
    SECTION("by its priority") {
        problem.entries[0].use_up_priority = 1;
    }
    SECTION("by the objective") {
        problem.objective = Objective::use_up_most;
    }
    const auto answer = solved(problem);
    CHECK(kg(answer, 0) == Approx(coffee).epsilon(1e-8));
    CHECK(kg(answer, 3) == Approx(2.7 - coffee).epsilon(1e-8));
    CHECK(answer.reached[1].quantity.value == Approx(1.0));
}
