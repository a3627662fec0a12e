#include "feed/blend/blend.hpp"

#include <algorithm>

#include "catch2.hpp"
#include "material.hpp"

using feed::blend;
using feed::Knowledge;
using feed::Portion;
using feed::Property;
using feed::wet_kilograms;
using feed_test::Approx;
using feed_test::Material;

namespace {

Material peel() {
    return Material("peel")
        .with(Property::moisture_wet, 0.85, 0.80, 0.90)
        .with(Property::carbon_dry, 0.42, 0.40, 0.44)
        .with(Property::cn_ratio, 40.0, 30.0, 60.0)
        .with(Property::ash_dry, 0.05)
        .with(Property::titratable_acidity_wet, 0.005, 0.003, 0.009)
        .with(Property::sodium_wet, 0.0001)
        .with(Property::potassium_wet, 0.002)
        .with(Property::fat_dry, 0.01)
        .with(Property::bulk_density_loose, 450.0, 350.0, 550.0);
}

bool is_unknown(const feed::BlendProperties& properties, const char* key) {
    return std::find(properties.unknown.begin(), properties.unknown.end(), key) !=
           properties.unknown.end();
}

}  // namespace

TEST_CASE("one feedstock gives its own values and ranges") {
    const std::vector<Portion> portions{{peel().share(), wet_kilograms(2.0)}};
    const auto answer = blend(portions);
    CHECK(answer.cn_ratio.value == Approx(40.0));
    CHECK(answer.cn_ratio.low == Approx(30.0));
    CHECK(answer.cn_ratio.high == Approx(60.0));
    CHECK(answer.moisture.low.value() == Approx(0.80));
    CHECK(answer.moisture.high.value() == Approx(0.90));
    CHECK(answer.acid.low.value() == Approx(0.006));
    CHECK(answer.carbon.low.value() == Approx(2.0 * 0.10 * 0.40));
    CHECK(answer.nitrogen.high.value() == Approx(2.0 * 0.20 * 0.44 / 30.0));
    CHECK(feed::in_litres(answer.volume.value) == Approx(2000.0 / 450.0));
    CHECK(answer.bulk_density.value.value() == Approx(450.0));
    CHECK(answer.unknown == std::vector<std::string>{});
}

TEST_CASE("two portions of one feedstock share its unknown values") {
    const auto one = peel().share();
    const auto same_again = peel().share();  // another copy of the same feedstock
    const std::vector<Portion> split{{one, wet_kilograms(0.5)}, {same_again, wet_kilograms(1.5)}};
    const auto answer = blend(split);
    CHECK(answer.cn_ratio.low == Approx(30.0));
    CHECK(answer.cn_ratio.high == Approx(60.0));
    CHECK(feed::merged(split).size() == 1);
}

TEST_CASE("a small missing part leaves a lower bound, a large one leaves nothing") {
    auto unlabelled = Material("unlabelled").with(Property::moisture_wet, 0.85).share();
    const auto with = [&](double unlabelled_kg) {
        const std::vector<Portion> portions{{peel().share(), wet_kilograms(1.0)},
                                            {unlabelled, wet_kilograms(unlabelled_kg)}};
        return blend(portions);
    };
    const auto little = with(0.05);
    CHECK(little.moisture.knowledge == Knowledge::known);
    CHECK(little.acid.knowledge == Knowledge::at_least);
    CHECK(little.acid.value.value() == Approx(0.005));
    CHECK(little.acid.covered == Approx(1.0 / 1.05));
    CHECK(little.cn_ratio.knowledge == Knowledge::at_least);
    // Whatever organic matter the missing part is, the ratio cannot be lower than the bound.
    for (const double cn : {3.4, 10.0, 100.0}) {
        const double carbon = 0.5 * 0.05 * 0.15;
        const double c = 0.15 * 0.42 + carbon;
        const double n = 0.15 * 0.42 / 40.0 + carbon / cn;
        CHECK(little.cn_ratio.value <= c / n);
    }
    CHECK(little.bulk_density.knowledge == Knowledge::unknown);
    const auto much = with(0.2);
    CHECK(much.acid.knowledge == Knowledge::unknown);
    CHECK(much.cn_ratio.knowledge == Knowledge::unknown);
    CHECK(is_unknown(much, "acid_g_citric"));
    CHECK(is_unknown(much, "cn_ratio"));
    CHECK_FALSE(is_unknown(much, "moisture"));
}

TEST_CASE("a property that is zero by definition does not count as covered") {
    const auto unlabelled = Material("unlabelled").with(Property::moisture_wet, 0.85).share();
    const std::vector<Portion> portions{{peel().share(), wet_kilograms(1.0)},
                                        {unlabelled, wet_kilograms(0.2)},
                                        {feed_test::water().share(), wet_kilograms(5.0)}};
    const auto answer = blend(portions);
    // 0.2 of 1.2 kg that can hold acid are unknown, however much water is there.
    CHECK(answer.acid.knowledge == Knowledge::unknown);
    CHECK(answer.acid.covered == Approx(1.0 / 1.2));
}

TEST_CASE("free water widens no range of volume") {
    const std::vector<Portion> dry{{peel().share(), wet_kilograms(1.0)}};
    const std::vector<Portion> watered{{peel().share(), wet_kilograms(1.0)},
                                       {feed_test::water().share(), wet_kilograms(0.1)}};
    CHECK(blend(watered).volume.value.value() == Approx(blend(dry).volume.value.value()));
    CHECK(blend(watered).volume.low.value() == Approx(blend(dry).volume.low.value()));
    CHECK(blend(watered).volume.high.value() == Approx(blend(dry).volume.high.value()));
}

TEST_CASE("without a C:N of its own the range follows from that of nitrogen") {
    const auto cut = Material("cut")
                         .with(Property::moisture_wet, 0.5)
                         .with(Property::carbon_dry, 0.40)
                         .with(Property::nitrogen_dry, 0.02, 0.01, 0.025)
                         .share();
    const auto answer = blend(std::vector<Portion>{{cut, wet_kilograms(1.0)}});
    CHECK(answer.cn_ratio.value == Approx(20.0));
    CHECK(answer.cn_ratio.low == Approx(16.0));
    CHECK(answer.cn_ratio.high == Approx(40.0));
}

TEST_CASE("oil has no C:N and water changes none") {
    const auto oil = Material("oil")
                         .with(Property::moisture_wet, 0.0)
                         .with(Property::carbon_dry, 0.77)
                         .with(Property::nitrogen_dry, 0.0)
                         .share();
    const std::vector<Portion> only_oil{{oil, wet_kilograms(0.1)}};
    CHECK(blend(only_oil).cn_ratio.knowledge == Knowledge::unknown);
    const std::vector<Portion> only_water{{feed_test::water().share(), wet_kilograms(1.0)}};
    CHECK(blend(only_water).cn_ratio.knowledge == Knowledge::unknown);
    CHECK(blend(only_water).acid.knowledge == Knowledge::known);
    CHECK(blend(only_water).acid.value.value() == 0.0);
    const std::vector<Portion> with_oil{{peel().share(), wet_kilograms(1.0)},
                                        {oil, wet_kilograms(0.01)},
                                        {feed_test::water().share(), wet_kilograms(0.5)}};
    const auto answer = blend(with_oil);
    CHECK(answer.cn_ratio.is_known());
    CHECK(answer.cn_ratio.value == Approx((0.15 * 0.42 + 0.0077) / (0.15 * 0.42 / 40.0)));
}

TEST_CASE("the grade is the worst that is leaned on") {
    auto good = peel();
    const std::vector<Portion> a{{good.share(), wet_kilograms(1.0)}};
    CHECK(blend(a).cn_ratio.grade == feed::Grade::a);
    auto poor = Material(peel()).with(Property::cn_ratio, 40.0, 30.0, 60.0, feed::Grade::c);
    const std::vector<Portion> c{{poor.share(), wet_kilograms(1.0)}};
    CHECK(blend(c).cn_ratio.grade == feed::Grade::c);
    CHECK(blend(c).moisture.grade == feed::Grade::a);
}

TEST_CASE("the answer says what it assumed") {
    const auto answer = blend(std::vector<Portion>{{peel().share(), wet_kilograms(1.0)}});
    const auto says = [&](const char* words) {
        return std::any_of(answer.assumed.begin(), answer.assumed.end(),
                           [&](const auto& a) { return a.text.find(words) != std::string::npos; });
    };
    CHECK(says("Chandler"));
    CHECK(says("lignin is taken from the decay class"));
    CHECK(says("how densely it settles"));
    CHECK_FALSE(says("pack into one another"));
}

TEST_CASE("nothing blends to unknown") {
    const auto answer = blend(std::vector<Portion>{});
    CHECK(answer.wet_mass.in_kilograms() == 0.0);
    CHECK(answer.unknown.size() == 16);
}
