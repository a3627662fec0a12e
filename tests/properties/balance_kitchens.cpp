// What keepers do, as a property of many random kitchens: common practice is half to two litres of
// loose bedding for a litre of scraps, and water only as far as the bedding takes it up beside what
// the scraps set free (0.65 of its capacity, bed-wide aim of one or two drops).
#include <algorithm>
#include <cstddef>

#include "catch2.hpp"
#include "feed/balance/balance.hpp"
#include "kitchen_caddies.hpp"

namespace {

struct Amounts {
    double scraps_kg = 0.0;
    double capacity_kg = 0.0;
    double bedding_water_kg = 0.0;
    double released_kg = 0.0;
    double dry_scraps_take_kg = 0.0;  ///< until scraps drier than 60 % stand at 60 %
    double scraps_l = 0.0;
    double bedding_l = 0.0;
    double poured_kg = 0.0;
};

Amounts amounts_of(const feed::BalanceAnswer& answer) {
    Amounts amounts;
    for (const auto& portion : answer.portions) {
        const auto& feedstock = *portion.feedstock;
        const double mass = portion.wet_mass.in_kilograms();
        const double volume_l =
            1000.0 * mass / feed::taken(feedstock, feed::Property::bulk_density_loose)->range.value;
        const feed::Contribution one = feed::contribution_of(feedstock);
        switch (feed::part_of(feedstock)) {
            case feed::Part::scraps:
                amounts.scraps_kg += mass;
                amounts.dry_scraps_take_kg +=
                    mass * std::max(0.0, 0.6 - feedstock[feed::Property::moisture_wet]->value) /
                    0.4;
                amounts.released_kg += mass * one[feed::Addend::set_free_kg].value;
                amounts.scraps_l += volume_l;
                break;
            case feed::Part::bedding:
                amounts.bedding_l += volume_l;
                amounts.capacity_kg += mass * one[feed::Addend::capacity_kg].value;
                amounts.bedding_water_kg += mass * one[feed::Addend::water_kg].value;
                break;
            case feed::Part::poured_water:
                amounts.poured_kg += mass;
                break;
            case feed::Part::amendment:
                break;
        }
    }
    return amounts;
}

}  // namespace

TEST_CASE("two hundred kitchen caddies are answered the way keepers feed") {
    feed_test::RandomNumbers random(7);
    std::size_t answered = 0;
    std::size_t usual_bedding = 0;
    for (const auto& kind : feed_test::caddy_kinds()) {
        for (int i = 0; i < 50; ++i) {
            const auto problem = feed_test::random_caddy(kind, random);
            const auto answer = feed::balance(problem);
            REQUIRE(answer);
            CHECK(answer->status != feed::BalanceStatus::failed);
            CHECK(answer->status != feed::BalanceStatus::unbounded);
            if (answer->status != feed::BalanceStatus::solved) continue;
            ++answered;
            const auto amounts = amounts_of(*answer);
            const double bedding = amounts.bedding_l / amounts.scraps_l;
            CHECK(bedding >= 0.5 - 1e-9);
            if (bedding <= 2.0 + 1e-9) ++usual_bedding;
            const double room =
                0.65 * amounts.capacity_kg - amounts.bedding_water_kg - amounts.released_kg;
            CHECK(amounts.poured_kg <= std::max(0.0, room + amounts.dry_scraps_take_kg) + 1e-6);
        }
    }
    CHECK(answered >= 190);
    CHECK(usual_bedding >= answered * 95 / 100);
}
