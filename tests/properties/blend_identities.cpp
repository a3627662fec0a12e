// Identities that a mixture must keep, over every row of the table.
#include <algorithm>
#include <memory>
#include <vector>

#include "catch2.hpp"
#include "feed/blend/blend.hpp"
#include "plain_number.hpp"
#include "random_kitchen.hpp"

using feed::BlendProperties;
using feed::Portion;
using feed::wet_kilograms;
using feed_test::Approx;
using feed_test::number;

namespace {

std::shared_ptr<const feed::Feedstock> row(std::size_t index) {
    return std::make_shared<const feed::Feedstock>(feed::feedstock_at(index));
}

// Two partners from other groups for each row: card and a soft vegetable.
std::vector<std::shared_ptr<const feed::Feedstock>> partners() {
    return {row(*feed::find_id("cardboard-corrugated")), row(*feed::find_id("carrot"))};
}

template <class T>
void check_same(const char* what, const feed::Estimate<T>& a, const feed::Estimate<T>& b,
                double factor) {
    CAPTURE(what, factor);
    CHECK(a.knowledge == b.knowledge);
    CHECK(a.covered == Approx(b.covered).margin(1e-9));
    CHECK(number(b.value) == Approx(factor * number(a.value)).epsilon(1e-9).margin(1e-12));
    CHECK(number(b.low) == Approx(factor * number(a.low)).epsilon(1e-9).margin(1e-12));
    CHECK(number(b.high) == Approx(factor * number(a.high)).epsilon(1e-9).margin(1e-12));
    CHECK(a.grade == b.grade);
}

// Everything that counts an amount scales with `factor`; everything that is a ratio stays.
void check_scaled(const BlendProperties& a, const BlendProperties& b, double factor) {
    CHECK(b.wet_mass.in_kilograms() == Approx(factor * a.wet_mass.in_kilograms()).epsilon(1e-12));
    check_same("dry", a.dry_mass, b.dry_mass, factor);
    check_same("water", a.water, b.water, factor);
    check_same("carbon", a.carbon, b.carbon, factor);
    check_same("nitrogen", a.nitrogen, b.nitrogen, factor);
    check_same("volume", a.volume, b.volume, factor);
    check_same("acid", a.acid, b.acid, factor);
    check_same("salt", a.salt, b.salt, factor);
    check_same("potassium", a.potassium, b.potassium, factor);
    check_same("fat", a.fat, b.fat, factor);
    check_same("volatile solids", a.volatile_solids, b.volatile_solids, factor);
    check_same("neutralising", a.neutralising, b.neutralising, factor);
    check_same("moisture", a.moisture, b.moisture, 1.0);
    check_same("cn", a.cn_ratio, b.cn_ratio, 1.0);
    check_same("available cn", a.available_cn_ratio, b.available_cn_ratio, 1.0);
    check_same("density", a.bulk_density, b.bulk_density, 1.0);
    check_same("free air space", a.free_air_space, b.free_air_space, 1.0);
    CHECK(a.cautions == b.cautions);
    CHECK(a.unknown == b.unknown);
}

template <class T>
void check_between(const char* what, const feed::Estimate<T>& mixed, const feed::Estimate<T>& a,
                   const feed::Estimate<T>& b) {
    if (!mixed.is_known() || !a.is_known() || !b.is_known()) return;
    CAPTURE(what);
    const auto inside = [](double low, double value, double high) {
        return value >= low - 1e-9 * std::abs(low) && value <= high + 1e-9 * std::abs(high);
    };
    CHECK(inside(std::min(number(a.value), number(b.value)), number(mixed.value),
                 std::max(number(a.value), number(b.value))));
    CHECK(inside(std::min(number(a.low), number(b.low)), number(mixed.low),
                 std::max(number(a.low), number(b.low))));
    CHECK(inside(std::min(number(a.high), number(b.high)), number(mixed.high),
                 std::max(number(a.high), number(b.high))));
}

}  // namespace

TEST_CASE("the order of the portions does not matter") {
    const auto others = partners();
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        CAPTURE(feed::feedstock_id(i));
        std::vector<Portion> portions{{row(i), wet_kilograms(0.7)},
                                      {others[0], wet_kilograms(0.3)},
                                      {others[1], wet_kilograms(1.1)}};
        const auto forward = feed::blend(portions);
        std::reverse(portions.begin(), portions.end());
        check_scaled(forward, feed::blend(portions), 1.0);
        std::rotate(portions.begin(), portions.begin() + 1, portions.end());
        check_scaled(forward, feed::blend(portions), 1.0);
    }
}

TEST_CASE("ten times as much is the same blend ten times") {
    const auto others = partners();
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        CAPTURE(feed::feedstock_id(i));
        const auto feedstock = row(i);
        const auto portions = [&](double scale) {
            return std::vector<Portion>{{feedstock, wet_kilograms(0.4 * scale)},
                                        {others[0], wet_kilograms(0.2 * scale)},
                                        {others[1], wet_kilograms(0.9 * scale)}};
        };
        check_scaled(feed::blend(portions(1.0)), feed::blend(portions(10.0)), 10.0);
    }
}

TEST_CASE("a portion split in two, or mixed with itself, is the portion") {
    const auto others = partners();
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        CAPTURE(feed::feedstock_id(i));
        const auto feedstock = row(i);
        const auto again = row(i);
        const std::vector<Portion> one{{feedstock, wet_kilograms(1.0)},
                                       {others[0], wet_kilograms(0.25)}};
        const std::vector<Portion> split{{feedstock, wet_kilograms(0.375)},
                                         {others[0], wet_kilograms(0.25)},
                                         {again, wet_kilograms(0.625)}};
        check_scaled(feed::blend(one), feed::blend(split), 1.0);
        const std::vector<Portion> alone{{feedstock, wet_kilograms(1.0)}};
        const std::vector<Portion> twice{{feedstock, wet_kilograms(1.0)},
                                         {again, wet_kilograms(1.0)}};
        check_scaled(feed::blend(alone), feed::blend(twice), 2.0);
    }
}

TEST_CASE("wet to dry and back gives the mass again") {
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        CAPTURE(feed::feedstock_id(i));
        const auto feedstock = row(i);
        const feed::Moisture moisture(feedstock->data[0]->value);
        if (moisture.value() >= 1.0) continue;
        const auto wet = wet_kilograms(1.7);
        const auto dry = feed::dry_part(wet, moisture);
        CHECK(feed::wet_from_dry(dry, moisture).in_kilograms() == Approx(1.7));
        CHECK(dry.in_kilograms() + feed::water_part(wet, moisture).value() == Approx(1.7));
        const auto answer = feed::blend(std::vector<Portion>{{feedstock, wet}});
        CHECK(answer.dry_mass.value.value() == Approx(dry.in_kilograms()));
        CHECK(answer.moisture.value.value() == Approx(moisture.value()));
    }
}

TEST_CASE("a row alone gives its own numbers back") {
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        const auto feedstock = row(i);
        CAPTURE(feedstock->id);
        const auto answer = feed::blend(std::vector<Portion>{{feedstock, wet_kilograms(2.0)}});
        const auto both = feed::carbon_nitrogen_of(*feedstock);
        if (both && !both->nitrogen_free() && !both->carbon_free()) {
            REQUIRE(answer.cn_ratio.is_known());
            CHECK(answer.cn_ratio.value == Approx(both->carbon.value / both->nitrogen.value));
            CHECK(answer.cn_ratio.low == Approx(both->cn_ratio.low));
            CHECK(answer.cn_ratio.high == Approx(both->cn_ratio.high));
            // The stored ratio was rounded and may lean on a rounded nitrogen.
            if (const auto& stored = (*feedstock)[feed::Property::cn_ratio])
                CHECK(answer.cn_ratio.value == Approx(stored->value).epsilon(0.05));
        } else {
            CHECK_FALSE(answer.cn_ratio.has_value());
        }
        const auto& density = (*feedstock)[feed::Property::bulk_density_loose];
        if (density && feed::part_of(*feedstock) != feed::Part::poured_water) {
            REQUIRE(answer.bulk_density.has_value());
            CHECK(answer.bulk_density.value.value() <= density->value * (1.0 + 1e-9));
        }
        if (const auto& sodium = (*feedstock)[feed::Property::sodium_wet])
            CHECK(answer.salt.value.value() == Approx(2.0 * sodium->value * 2.54));
    }
}

TEST_CASE("a mixture of two lies between the two") {
    const auto others = partners();
    for (std::size_t i = 0; i < feed::feedstock_count(); ++i) {
        for (const auto& other : others) {
            const auto feedstock = row(i);
            CAPTURE(feedstock->id, other->id);
            const auto a = feed::blend(std::vector<Portion>{{feedstock, wet_kilograms(1.0)}});
            const auto b = feed::blend(std::vector<Portion>{{other, wet_kilograms(1.0)}});
            const auto mixed = feed::blend(
                std::vector<Portion>{{feedstock, wet_kilograms(0.6)}, {other, wet_kilograms(0.4)}});
            check_between("moisture", mixed.moisture, a.moisture, b.moisture);
            // Without any nitrogen a part has no ratio of its own to lie between.
            check_between("cn", mixed.cn_ratio, a.cn_ratio, b.cn_ratio);
            check_between("available cn", mixed.available_cn_ratio, a.available_cn_ratio,
                          b.available_cn_ratio);
        }
    }
}

TEST_CASE("the fast mix and the full blend agree") {
    feed_test::RandomKitchen kitchen(7004);
    for (int i = 0; i < 200; ++i) {
        const auto portions = kitchen.feeding();
        const auto totals = feed::mix(portions);
        const auto answer = feed::blend(portions);
        CAPTURE(i);
        CHECK(totals.wet_mass.in_kilograms() == Approx(answer.wet_mass.in_kilograms()));
        CHECK(totals.water.value() == Approx(answer.water.value.value()));
        if (answer.cn_ratio.is_known())
            CHECK(feed::cn_ratio(totals) == Approx(answer.cn_ratio.value));
        if (answer.salt.has_value())
            CHECK(totals.salt.value() == Approx(answer.salt.value.value()));
        if (answer.volume.has_value())
            CHECK(totals.volume.value() == Approx(answer.volume.value.value()));
    }
}
