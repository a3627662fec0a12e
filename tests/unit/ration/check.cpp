#include "feed/ration/check.hpp"

#include <catch2.hpp>
#include <vector>

#include <bed_kitchen.hpp>

using namespace feed;
using feed_test::Approx;
using kitchen::a_feeding;

TEST_CASE("a modest feeding of a settled tote raises nothing and stands as planned") {
    const CheckResult result = check(kitchen::tote(), a_feeding(0.40, 0.1));
    CHECK(result.hazards.size() == hazard_count);
    for (const HazardFinding& finding : result.hazards) {
        INFO(finding.why);
        CHECK(finding.level == Level::none);
        CHECK_FALSE(finding.why.empty());
        CHECK_FALSE(finding.source.empty());
        CHECK_FALSE(finding.unit.empty());
    }
    CHECK(result.as_planned);
    CHECK(result.ration.answer == RationAnswer::feed);
    CHECK(result.ration.scraps.in_kilograms() == Approx(0.40));
}

TEST_CASE("a plan past a limit never stands as planned") {
    const CheckResult result = check(kitchen::tote(), a_feeding(4.0, 1.0));
    CHECK(result[Hazard::overfed].level == Level::act);
    CHECK_FALSE(result.as_planned);
    CHECK(result.ration.answer == RationAnswer::feed_less);
    CHECK(result.ration.scraps.in_kilograms() < 1.0);
}

TEST_CASE("a hazard named by a check is the one that the ration is decided from") {
    // An invented sour bed: the plan as written and the ration speak of the same numbers.
    Bed bed = kitchen::tote();
    bed.ph = 4.8;
    const CheckResult result = check(bed, a_feeding(0.2, 0.05));
    CHECK(result[Hazard::sour].level == Level::act);
    CHECK(result.ration.before[static_cast<std::size_t>(Hazard::sour)] == Level::act);
    CHECK(result.ration.answer == RationAnswer::act_first);
    CHECK_FALSE(result.as_planned);
}

TEST_CASE("no sentence prints more than three figures of a number") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::many_drops;
    for (const HazardFinding& finding : check(bed, a_feeding(3.3)).hazards) {
        {
            const std::string& sentence = finding.why;
            int figures = 0;
            bool leading = true;
            for (const char c : sentence) {
                if (c >= '1' && c <= '9') leading = false;
                if ((c >= '0' && c <= '9') || c == '.')
                    figures += c != '.' && !leading ? 1 : 0;
                else {
                    figures = 0;
                    leading = true;
                }
                INFO(sentence);
                REQUIRE(figures <= 4);
            }
        }
    }
}

TEST_CASE("an empty feeding judges the bed alone") {
    const CheckResult result = check(kitchen::tote(), {});
    CHECK(result[Hazard::wet].level == Level::none);
    CHECK(result[Hazard::overfed].value.value == 0.0);
    CHECK(result[Hazard::greasy].value.value == 0.0);
}

TEST_CASE("a drowned bed is told of its drain") {
    Bed bed = kitchen::tote();
    bed.squeeze = Squeeze::pooling;
    bed.drainage = Drainage::tap;
    CHECK(check(bed, {})[Hazard::wet].why.find("at the tap") != std::string::npos);
    bed.drainage = Drainage::none;
    CHECK(check(bed, {})[Hazard::wet].why.find("nowhere to go") != std::string::npos);
    CHECK(check(kitchen::tote(), {})[Hazard::wet].why.find("nowhere") == std::string::npos);
}

TEST_CASE("a check says the same twice and in any order of other checks") {
    kitchen::Dice dice(77);
    const auto table = kitchen::whole_table();
    const kitchen::Household first = kitchen::random_household(dice, table);
    const kitchen::Household second = kitchen::random_household(dice, table);
    const CheckResult once = check(first.bed, first.feeding);
    check(second.bed, second.feeding);
    const CheckResult again = check(first.bed, first.feeding);
    for (std::size_t h = 0; h < hazard_count; ++h) {
        CHECK(once.hazards[h].value.value == again.hazards[h].value.value);
        CHECK(once.hazards[h].why == again.hazards[h].why);
    }
    CHECK(once.ration.scraps.in_kilograms() == again.ration.scraps.in_kilograms());
    CHECK(once.ration.next_look == again.ration.next_look);
}

TEST_CASE("the order in which a diary is told does not matter") {
    Bed bed = kitchen::tote();
    bed.earlier = {
        {days(-9), a_feeding(0.4)}, {days(-5), a_feeding(0.2)}, {days(-2), a_feeding(0.3)}};
    Bed mixed = bed;
    std::swap(mixed.earlier.front(), mixed.earlier.back());
    const CheckResult a = check(bed, a_feeding(0.3));
    const CheckResult b = check(mixed, a_feeding(0.3));
    for (std::size_t h = 0; h < hazard_count; ++h)
        CHECK(a.hazards[h].value.value == Approx(b.hazards[h].value.value));
}
