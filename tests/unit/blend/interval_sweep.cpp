#include "feed/blend/interval_sweep.hpp"

#include <algorithm>
#include <random>
#include <vector>

#include "catch2.hpp"

using feed::CarbonNitrogen;
using feed::Range;
using feed::RatioPart;
using feed_test::Approx;

namespace {

/// One feedstock of a ratio by its ranges.
struct RangedMaterial {
    Range wet{1.0};
    Range moisture;
    CarbonNitrogen both;
    Range share{1.0};

    RatioPart part() const { return wet * feed::ratio_part(moisture.rest(), both, share); }
};

// Every corner of every range, 32^n of them: the slow, obvious way.
Range every_corner(const std::vector<RangedMaterial>& parts) {
    Range found{0.0, 1e300, -1e300};
    const std::size_t corners = std::size_t{1} << (5 * parts.size());
    for (std::size_t corner = 0; corner < corners; ++corner) {
        double carbon = 0.0;
        double nitrogen = 0.0;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const auto pick = [&](const Range& range, std::size_t bit) {
                return (corner >> (5 * i + bit)) & 1 ? range.high : range.low;
            };
            const auto& part = parts[i];
            const double dry = pick(part.wet, 4) * (1.0 - pick(part.moisture, 0));
            const double c = dry * pick(part.both.carbon, 1);
            carbon += c * pick(part.share, 3);
            if (part.both.tied)
                nitrogen += c / pick(part.both.cn_ratio, 2);
            else
                nitrogen += dry * pick(part.both.nitrogen, 2);
        }
        if (nitrogen <= 0.0) continue;
        found.low = std::min(found.low, carbon / nitrogen);
        found.high = std::max(found.high, carbon / nitrogen);
    }
    return found;
}

std::vector<RatioPart> parts_of(const std::vector<RangedMaterial>& materials) {
    std::vector<RatioPart> parts;
    for (const auto& material : materials)
        parts.push_back(material.part());
    return parts;
}

}  // namespace

TEST_CASE("the sweep finds what every corner finds") {
    std::mt19937 random(20240501);
    const auto between = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(random() >> 8) / 16777216.0;
    };
    const auto range = [&](double low, double high) {
        const double a = between(low, high);
        const double b = between(low, high);
        return Range{0.5 * (a + b), std::min(a, b), std::max(a, b)};
    };
    for (int trial = 0; trial < 400; ++trial) {
        std::vector<RangedMaterial> materials(1 + random() % 3);
        for (auto& one : materials) {
            one.wet = trial % 5 == 0 ? range(0.1, 5.0) : Range(between(0.01, 5.0));
            one.moisture = range(0.0, 0.97);
            one.both.carbon = range(0.2, 0.6);
            one.both.tied = random() % 2 == 0;
            one.both.cn_ratio = range(3.0, 800.0);
            one.both.nitrogen = range(0.001, 0.06);
            if (trial % 2 == 1) one.share = range(0.0, 0.83);
            if (materials.size() > 1 && &one == &materials.back() && trial % 3 == 0) {
                one.both.tied = false;
                one.both.nitrogen = Range();
            }
            if (materials.size() > 1 && &one == &materials.back() && trial % 7 == 0)
                one.both.carbon = Range();
        }
        if (materials.back().both.carbon.high == 0.0) materials.back().both.tied = false;
        const auto parts = parts_of(materials);
        const auto swept = feed::ratio_range(parts, 30.0);
        const Range slow = every_corner(materials);
        CAPTURE(trial);
        REQUIRE(swept);
        CHECK(swept->value == 30.0);
        CHECK(swept->low == Approx(slow.low).epsilon(1e-12));
        CHECK(swept->high == Approx(slow.high).epsilon(1e-12));
    }
}

TEST_CASE("sixty feedstocks take no longer than they should") {
    std::vector<RatioPart> parts;
    for (int i = 0; i < 60; ++i) {
        RangedMaterial one;
        one.moisture = {0.5, 0.1, 0.9};
        one.both.carbon = {0.45, 0.4, 0.5};
        one.both.cn_ratio = {30.0, 5.0 + i, 300.0};
        one.both.nitrogen = Range(0.01);
        one.both.tied = true;
        parts.push_back(one.part());
    }
    const auto swept = feed::ratio_range(parts, 30.0);
    REQUIRE(swept);
    CHECK(swept->high == Approx(300.0));
    CHECK(swept->low >= 5.0);
    CHECK(swept->low < 64.0);
}

TEST_CASE("a blend without nitrogen has no ratio") {
    RangedMaterial oil;
    oil.both.carbon = {0.77, 0.76, 0.78};
    CHECK_FALSE(feed::ratio_range(std::vector<RatioPart>{oil.part()}, 0.0));
}
