// What keepers do, as a property of many random kitchens: common practice is half to two litres of
// loose bedding for a litre of scraps, and no water on scraps that are wet themselves.
#include <cstddef>

#include "catch2.hpp"
#include "feed/balance/balance.hpp"
#include "kitchen_caddies.hpp"

namespace {

struct Amounts {
    double scraps_kg = 0.0;
    double scraps_water_kg = 0.0;
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
        switch (feed::part_of(feedstock)) {
            case feed::Part::scraps:
                amounts.scraps_kg += mass;
                amounts.scraps_water_kg += mass * feedstock[feed::Property::moisture_wet]->value;
                amounts.scraps_l += volume_l;
                break;
            case feed::Part::bedding:
                amounts.bedding_l += volume_l;
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
            if (bedding <= 2.0) ++usual_bedding;
            if (amounts.scraps_water_kg / amounts.scraps_kg >= 0.78 + 1e-9)
                CHECK(amounts.poured_kg <= 1e-9 * amounts.scraps_kg);
        }
    }
    CHECK(answered >= 190);
    CHECK(usual_bedding >= answered * 95 / 100);
}
