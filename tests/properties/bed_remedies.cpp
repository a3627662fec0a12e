// Remedies are computed, and what they promise holds when a keeper takes them.
#include <bed_kitchen.hpp>
#include <catch2.hpp>

using namespace feed;

TEST_CASE("in random households a remedy taken as printed takes its hazard away") {
    kitchen::Dice dice(31);
    const auto table = kitchen::whole_table();
    int taken = 0;
    int refused = 0;
    for (int i = 0; i < 400; ++i) {
        const kitchen::Household h = kitchen::random_household(dice, table);
        const CheckResult result = check(h.bed, h.feeding);
        for (const HazardFinding& finding : result.hazards) {
            if (finding.level != Level::watch && finding.level != Level::act) {
                REQUIRE(finding.remedy.kind == RemedyKind::none);
                continue;
            }
            INFO("household " << i << ": " << text(finding.hazard) << ": " << finding.why << " -> "
                              << finding.remedy.text);
            REQUIRE_FALSE(finding.remedy.text.empty());
            if (!finding.remedy.hazard_gone) {
                ++refused;
                // Feeding nothing at all must not have helped either.
                if (finding.hazard != Hazard::salty && finding.hazard != Hazard::greasy)
                    REQUIRE(check(h.bed, {})[finding.hazard].level != Level::none);
                continue;
            }
            ++taken;
            REQUIRE(kitchen::level_after(h.bed, h.feeding, finding) == Level::none);
        }
    }
    CHECK(taken > 400);
    CHECK(refused < taken);
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
        CHECK(once.hazards[h].remedy.text == again.hazards[h].remedy.text);
    }
}
