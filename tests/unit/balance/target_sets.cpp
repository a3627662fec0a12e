#include "feed/balance/target_sets.hpp"

#include "catch2.hpp"
#include "materials.hpp"

using feed::TargetProperty;

TEST_CASE("the worm bed and the hot heap are two sets that do not overlap in moisture") {
    const auto worm = feed::worm_bed_targets();
    const auto heap = feed::hot_heap_targets();
    REQUIRE(worm[1].property == TargetProperty::moisture);
    REQUIRE(heap[1].property == TargetProperty::moisture);
    CHECK(*heap[1].high <= *worm[1].low);
    CHECK(*worm[1].aim == 0.78);
    for (const auto& set : {worm, heap}) {
        for (const auto& target : set) {
            CHECK_FALSE(target.source.empty());
            CHECK_FALSE(target.label.empty());
            if (target.aim && target.low) CHECK(*target.aim >= *target.low);
            if (target.aim && target.high) CHECK(*target.aim <= *target.high);
        }
    }
}

TEST_CASE("ready sets are found by name, others are not") {
    REQUIRE(feed::target_set("worm-bed"));
    CHECK(feed::target_set("worm-bed")->size() == feed::worm_bed_targets().size());
    REQUIRE(feed::target_set("hot-heap"));
    CHECK_FALSE(feed::target_set("warm-bed"));
}

TEST_CASE("a keeper's own target replaces the whole window of its property") {
    const std::vector<feed::Target> own{
        feed_test::target(TargetProperty::moisture, 0.6, {}),
        feed_test::target(TargetProperty::fat_wet_fraction, {}, 0.01)};
    const auto set = feed::with_own_targets(feed::worm_bed_targets(), own);
    REQUIRE(set.size() == feed::worm_bed_targets().size() + 1);
    CHECK(*set[1].low == 0.6);
    CHECK_FALSE(set[1].high);
    CHECK_FALSE(set[1].aim);
    CHECK(set.back().property == TargetProperty::fat_wet_fraction);
}
