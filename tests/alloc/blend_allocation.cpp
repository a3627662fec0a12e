// The fast mix allocates nothing; the answer with intervals may.
#include <memory>
#include <vector>

#include "catch2.hpp"
#include "counting_new.hpp"
#include "feed/blend/blend.hpp"
#include "feed/feedstock/table.hpp"

TEST_CASE("mixing the whole table allocates nothing") {
    std::vector<feed::Portion> portions;
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i)
        portions.push_back({std::make_shared<const feed::Feedstock>(feed::feedstock_at(i)),
                            feed::wet_kilograms(0.1)});
    const std::size_t before = feed_test::allocation_count();
    const auto totals = feed::mix(portions);
    const std::size_t after_mix = feed_test::allocation_count();
    const auto full = feed::blend(portions);
    const std::size_t after_blend = feed_test::allocation_count();
    CHECK(totals.wet_mass == full.wet_mass);
    CHECK(after_mix == before);
    // The counter works: the full answer does allocate.
    CHECK(after_blend > after_mix);
}
