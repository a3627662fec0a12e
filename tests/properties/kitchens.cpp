// Whole feedings from the table: what keepers ask must be answered, and answers must be possible.
#include <array>
#include <string>

#include "catch2.hpp"
#include "feed/blend/blend.hpp"
#include "random_kitchen.hpp"

namespace {

template <class T>
bool in_order(const feed::Estimate<T>& estimate) {
    return !estimate.has_value() ||
           (!(estimate.value < estimate.low) && !(estimate.high < estimate.value));
}

}  // namespace

TEST_CASE("500 kitchen feedings are answered in at least 95 of 100") {
    feed_test::RandomKitchen kitchen(7001);
    std::array<int, 5> answered{};
    for (int i = 0; i < 500; ++i) {
        const auto answer = feed::blend(kitchen.feeding());
        answered[0] += answer.cn_ratio.has_value();
        answered[1] += answer.moisture.has_value();
        answered[2] += answer.acid.has_value();
        answered[3] += answer.salt.has_value();
        answered[4] += answer.volume.has_value();
    }
    CAPTURE(answered[0], answered[1], answered[2], answered[3], answered[4]);
    for (const int count : answered)
        CHECK(count >= 475);
}

TEST_CASE("every answer is possible and holds its range") {
    feed_test::RandomKitchen kitchen(7002);
    for (int i = 0; i < 300; ++i) {
        const auto portions = kitchen.feeding();
        const auto answer = feed::blend(portions);
        CAPTURE(i);
        CHECK(in_order(answer.dry_mass));
        CHECK(in_order(answer.water));
        CHECK(in_order(answer.moisture));
        CHECK(in_order(answer.cn_ratio));
        CHECK(in_order(answer.available_cn_ratio));
        CHECK(in_order(answer.carbon));
        CHECK(in_order(answer.nitrogen));
        CHECK(in_order(answer.volume));
        CHECK(in_order(answer.bulk_density));
        CHECK(in_order(answer.free_air_space));
        CHECK(in_order(answer.acid));
        CHECK(in_order(answer.salt));
        CHECK(in_order(answer.fat));
        CHECK(in_order(answer.volatile_solids));
        CHECK(in_order(answer.neutralising));
        CHECK(answer.moisture.high.value() <= 1.0 + 1e-12);
        CHECK(answer.dry_mass.value.value() + answer.water.value.value() ==
              feed_test::Approx(answer.wet_mass.in_kilograms()));
        if (answer.free_air_space.has_value()) {
            CHECK(answer.free_air_space.low >= 0.0);
            CHECK(answer.free_air_space.high < 1.0);
        }
        if (answer.cn_ratio.is_known() && answer.available_cn_ratio.is_known()) {
            CHECK(answer.available_cn_ratio.value <= answer.cn_ratio.value);
            CHECK(answer.cn_ratio.low > 0.0);
        }
        // No blend is denser than the densest solid there is, or lighter than air-dry chaff.
        if (answer.bulk_density.has_value()) {
            CHECK(answer.bulk_density.high.value() < 2500.0);
            CHECK(answer.bulk_density.low.value() > 5.0);
        }
    }
}

// Drawing the feedstocks' values at random from their ranges never leaves the range of the answer.
TEST_CASE("the ranges of C:N and moisture hold every draw") {
    feed_test::RandomKitchen kitchen(7003);
    for (int i = 0; i < 60; ++i) {
        const auto parts = feed::merged(kitchen.feeding());
        const auto answer = feed::blend(parts);
        if (!answer.cn_ratio.is_known()) continue;
        for (int draw = 0; draw < 50; ++draw) {
            double carbon = 0.0;
            double nitrogen = 0.0;
            double water = 0.0;
            double wet = 0.0;
            for (const auto& part : parts) {
                const auto& feedstock = *part.feedstock;
                const double kilograms = part.wet_mass.in_kilograms();
                const auto pick = [&](feed::Property property) {
                    const auto& datum = *feedstock[property];
                    return kitchen.between(datum.low, datum.high);
                };
                const double moisture = pick(feed::Property::moisture_wet);
                wet += kilograms;
                water += kilograms * moisture;
                const auto both = feed::carbon_nitrogen_of(feedstock);
                REQUIRE(both);
                if (both->is_zero()) continue;
                const double c = kilograms * (1.0 - moisture) * pick(feed::Property::carbon_dry);
                carbon += c;
                if (both->tied)
                    nitrogen += c / kitchen.between(both->cn_ratio.low, both->cn_ratio.high);
                else
                    nitrogen += kilograms * (1.0 - moisture) *
                                kitchen.between(both->nitrogen.low, both->nitrogen.high);
            }
            CHECK(carbon / nitrogen >= answer.cn_ratio.low * (1.0 - 1e-12));
            CHECK(carbon / nitrogen <= answer.cn_ratio.high * (1.0 + 1e-12));
            CHECK(water / wet >= answer.moisture.low.value() - 1e-12);
            CHECK(water / wet <= answer.moisture.high.value() + 1e-12);
        }
    }
}
