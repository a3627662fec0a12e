#include "feed/trial/design.hpp"

#include <map>

#include "catch2.hpp"

using feed::TrialDesign;
using feed::TrialKind;

TEST_CASE("one feed a bin without swapping is refused with the reason") {
    TrialDesign design;
    design.kind = TrialKind::alone;
    design.bins = 4;
    const auto layout = feed::draw_layout(design, 1);
    REQUIRE_FALSE(layout);
    CHECK(layout.errors()[0].field == "trial: rounds");
    CHECK(layout.errors()[0].message.find("compares bins, not feeds") != std::string::npos);
}

TEST_CASE("an impossible count names its field and what is allowed") {
    TrialDesign design;
    design.feeds = 5;
    design.bins = 0;
    const auto errors = feed::design_errors(design);
    REQUIRE(errors.size() == 2);
    CHECK(errors[0].field == "trial: feeds");
    CHECK(errors[0].value == "5");
    CHECK(errors[0].allowed == "2 to 4");
    CHECK(errors[1].field == "trial: bins");
}

TEST_CASE("several portions or a blank have no place in a trial of feeds alone") {
    TrialDesign design{TrialKind::alone, 2, 4, 2, 2, true};
    const auto errors = feed::design_errors(design);
    REQUIRE(errors.size() == 2);
    CHECK(errors[0].field == "trial: portions");
    CHECK(errors[1].field == "trial: blank");
}

TEST_CASE("every bin and round of a choice has each feed as often as planned") {
    const TrialDesign design{TrialKind::choice, 3, 4, 2, 2, true};
    const auto layout = feed::draw_layout(design, 77);
    REQUIRE(layout);
    CHECK(layout->plots.size() == 4 * 2 * 7);
    std::map<std::pair<std::size_t, std::size_t>, std::map<std::size_t, int>> counts;
    for (std::size_t i = 0; i < layout->plots.size(); ++i) {
        const auto& plot = layout->plots[i];
        CHECK(plot.number == i + 1);
        ++counts[{plot.round, plot.bin}][plot.feed.value_or(99)];
    }
    CHECK(counts.size() == 8);
    for (const auto& [block, of] : counts)
        CHECK(of == std::map<std::size_t, int>{{0, 2}, {1, 2}, {2, 2}, {99, 1}});
}

TEST_CASE("every bin takes each feed once when feeds are alone, orders as even as can be") {
    const TrialDesign design{TrialKind::alone, 2, 5, 1, 2, false};
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
        const auto layout = feed::draw_layout(design, seed);
        REQUIRE(layout);
        int first = 0;
        for (std::size_t bin = 0; bin < 5; ++bin) {
            CHECK(*layout->plots[bin].feed + *layout->plots[5 + bin].feed == 1);
            first += *layout->plots[bin].feed == 0 ? 1 : 0;
        }
        CHECK((first == 2 || first == 3));
    }
}

// Worked by hand from the stated generator and shuffle in tests/unit/trial/seed_by_hand.py, so that
// no machine and no later change draws another plan from a printed seed.
TEST_CASE("a printed seed gives the same plan everywhere") {
    const TrialDesign design{TrialKind::choice, 3, 2, 2, 1, false};
    const auto layout = feed::draw_layout(design, 48213);
    REQUIRE(layout);
    std::string places;
    for (const auto& plot : layout->plots)
        places += static_cast<char>('A' + *plot.feed);
    CHECK(places == "BCACABACCBAB");
}
