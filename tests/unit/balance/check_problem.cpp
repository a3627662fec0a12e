#include "feed/balance/check_problem.hpp"

#include <limits>

#include "catch2.hpp"
#include "feed/balance/target_sets.hpp"
#include "materials.hpp"

using feed::ErrorCode;
using feed::TargetProperty;
using feed_test::exactly;
using feed_test::free_amount;
using feed_test::target;

namespace {

feed::BalanceProblem sound() {
    feed::BalanceProblem problem;
    problem.entries = {exactly(feed_test::material("scraps", 85, 42, 2.2), 1.0),
                       free_amount(feed_test::bedding("shreds", 7, 45, 0.1))};
    problem.targets = {target(TargetProperty::cn_ratio, 20, 50, 30)};
    return problem;
}

}  // namespace

TEST_CASE("a problem is for a worm bed until other targets are put in") {
    const feed::BalanceProblem problem;
    const auto worm_bed = feed::worm_bed_targets();
    REQUIRE(problem.targets.size() == worm_bed.size());
    for (std::size_t i = 0; i < worm_bed.size(); ++i) {
        CHECK(problem.targets[i].property == worm_bed[i].property);
        CHECK(problem.targets[i].low == worm_bed[i].low);
        CHECK(problem.targets[i].high == worm_bed[i].high);
        CHECK(problem.targets[i].aim == worm_bed[i].aim);
    }
}

TEST_CASE("a sound problem has no errors") {
    CHECK(feed::check_problem(sound()).empty());
}

TEST_CASE("all problems are named at once, in the order of the input") {
    auto problem = sound();
    problem.entries[0].least = feed::wet_kilograms(-1.0);
    problem.entries[1].least = feed::wet_kilograms(3.0);
    problem.entries[1].most = feed::wet_kilograms(2.0);
    problem.targets.push_back(target(TargetProperty::moisture, 70, 0.85));
    problem.targets.push_back(target(TargetProperty::cn_ratio, 50, 20));
    problem.targets.push_back(target(TargetProperty::fat_wet_fraction, {}, {}));
    const auto errors = feed::check_problem(problem);
    REQUIRE(errors.size() == 7);
    CHECK(errors[0].code == ErrorCode::out_of_range);
    CHECK(errors[0].field == "least of scraps");
    CHECK(errors[1].code == ErrorCode::low_above_high);
    CHECK(errors[1].message == "at least 3 kg and at most 2 kg of shreds contradict each other");
    CHECK(errors[2].code == ErrorCode::percent_slip);
    CHECK(errors[2].message ==
          "lower limit of moisture is 70, allowed is 0 to 1 kg water per kg wet mass; if 70 % is "
          "meant, write 0.7");
    CHECK(errors[3].code == ErrorCode::low_above_high);
    CHECK(errors[4].code == ErrorCode::low_above_high);
    CHECK(errors[5].code == ErrorCode::duplicate_entry);
    CHECK(errors[6].code == ErrorCode::empty);
}

TEST_CASE("an aim outside its window is refused") {
    auto problem = sound();
    problem.targets[0].aim = 60.0;
    const auto errors = feed::check_problem(problem);
    REQUIRE(errors.size() == 1);
    CHECK(errors[0].field == "aim of C:N ratio");
}

TEST_CASE("numbers that are not finite are refused") {
    auto problem = sound();
    problem.entries[0].cost_per_wet_kg = std::numeric_limits<double>::infinity();
    problem.entries[1].usual = feed::wet_kilograms(std::numeric_limits<double>::quiet_NaN());
    problem.targets[0].high = std::numeric_limits<double>::infinity();
    const auto errors = feed::check_problem(problem);
    REQUIRE(errors.size() == 3);
    for (const auto& error : errors)
        CHECK(error.code == ErrorCode::not_a_number);
}

TEST_CASE("without a scale a balance is refused; each kind of scale is enough") {
    auto problem = sound();
    problem.entries[0] = free_amount(feed_test::material("scraps", 85, 42, 2.2));
    REQUIRE(feed::check_problem(problem).size() == 1);
    CHECK(feed::check_problem(problem)[0].code == ErrorCode::no_amount_fixed);

    SECTION("an upper limit alone fixes nothing") {
        problem.entries[0].most = feed::wet_kilograms(2.0);
        CHECK(feed::check_problem(problem).size() == 1);
        problem.entries[0].use_up_priority = 1;
        CHECK(feed::check_problem(problem).empty());
    }
    SECTION("a lower limit does") {
        problem.entries[0].least = feed::wet_kilograms(0.1);
        CHECK(feed::check_problem(problem).empty());
    }
    SECTION("a total does") {
        problem.targets.push_back(target(TargetProperty::total_volume_l, 10.0, 12.0));
        CHECK(feed::check_problem(problem).empty());
    }
    SECTION("a usual recipe does") {
        problem.objective = feed::Objective::closest_to_usual;
        problem.entries[0].usual = feed::wet_kilograms(1.0);
        CHECK(feed::check_problem(problem).empty());
    }
}

TEST_CASE("an objective without its numbers is refused") {
    auto problem = sound();
    problem.objective = feed::Objective::cheapest;
    REQUIRE(feed::check_problem(problem).size() == 1);
    CHECK(feed::check_problem(problem)[0].field == "cost");
    problem.objective = feed::Objective::closest_to_usual;
    REQUIRE(feed::check_problem(problem).size() == 1);
    CHECK(feed::check_problem(problem)[0].field == "usual amount");
}

TEST_CASE("nothing at hand and an entry without a feedstock are refused") {
    feed::BalanceProblem problem;
    REQUIRE(feed::check_problem(problem).size() == 1);
    CHECK(feed::check_problem(problem)[0].code == ErrorCode::empty);
    problem.entries.resize(1);
    REQUIRE(feed::check_problem(problem).size() == 1);
    CHECK(feed::check_problem(problem)[0].code == ErrorCode::bad_argument);
}
