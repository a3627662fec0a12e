// Solving a prepared balance allocates nothing once the workspace is there; preparing may.
#include "catch2.hpp"
#include "counting_new.hpp"
#include "feed/balance/balance.hpp"
#include "kitchen_caddies.hpp"

TEST_CASE("solving prepared balances allocates nothing, whatever the objective and the end") {
    feed_test::RandomNumbers random(11);
    std::size_t solved = 0;
    std::size_t others = 0;
    for (const auto objective :
         {feed::Objective::closest_to_aims, feed::Objective::closest_to_usual,
          feed::Objective::least_added, feed::Objective::use_up_most}) {
        for (const auto& kind : feed_test::caddy_kinds()) {
            auto problem = feed_test::random_caddy(kind, random);
            problem.objective = objective;
            problem.entries[0].usual = feed::wet_kilograms(1.0);
            problem.entries[1].use_up_priority = 1;
            if (random.below(3) == 0) problem.targets[0].high = 21.0;
            if (problem.targets[0].high == 21.0) problem.targets[0].aim = 20.5;
            const auto prepared = feed::prepare(problem);
            REQUIRE(prepared);
            feed::BalanceWorkspace workspace(*prepared);
            const auto before = feed_test::allocation_count();
            const auto numbers = feed::solve(*prepared, workspace);
            const auto after = feed_test::allocation_count();
            CHECK(after == before);
            ++(numbers.status == feed::BalanceStatus::solved ? solved : others);
        }
    }
    CHECK(solved > 0);
    CHECK(others > 0);
    const auto before = feed_test::allocation_count();
    const auto prepared =
        feed::prepare(feed_test::random_caddy(feed_test::caddy_kinds()[0], random));
    REQUIRE(prepared);
    // The counter counts: a preparation holds vectors.
    CHECK(feed_test::allocation_count() > before);
}
