#include "feed/blend/interval_sweep.hpp"

#include <algorithm>
#include <random>
#include <vector>

#include "catch2.hpp"

using feed::Range;
using feed::RatioPart;
using feed_test::Approx;

namespace {

// Every corner of every range, 16^n of them: the slow, obvious way.
Range every_corner(const std::vector<RatioPart>& parts) {
    Range found{1e300, -1e300};
    const std::size_t corners = std::size_t{1} << (4 * parts.size());
    for (std::size_t corner = 0; corner < corners; ++corner) {
        double carbon = 0.0;
        double nitrogen = 0.0;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const auto pick = [&](Range range, std::size_t bit) {
                return (corner >> (4 * i + bit)) & 1 ? range.high : range.low;
            };
            const auto& part = parts[i];
            const double c =
                part.wet_mass_kg * (1.0 - pick(part.moisture_wet, 0)) * pick(part.carbon_dry, 1);
            carbon += c * pick(part.counted_share, 3);
            if (!part.nitrogen_free) nitrogen += c / pick(part.cn_ratio, 2);
        }
        if (nitrogen <= 0.0) continue;
        found.low = std::min(found.low, carbon / nitrogen);
        found.high = std::max(found.high, carbon / nitrogen);
    }
    return found;
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
        return Range{std::min(a, b), std::max(a, b)};
    };
    for (int trial = 0; trial < 400; ++trial) {
        std::vector<RatioPart> parts(1 + random() % 4);
        for (auto& part : parts) {
            part.wet_mass_kg = between(0.01, 5.0);
            part.moisture_wet = range(0.0, 0.97);
            part.carbon_dry = range(0.2, 0.6);
            part.cn_ratio = range(3.0, 800.0);
            if (trial % 2 == 1) part.counted_share = range(0.0, 0.83);
            part.nitrogen_free = parts.size() > 1 && &part == &parts.back() && trial % 3 == 0;
        }
        const auto swept = feed::ratio_range(parts, parts.front().cn_ratio.low);
        const Range slow = every_corner(parts);
        CAPTURE(trial);
        REQUIRE(swept);
        CHECK(swept->low == Approx(slow.low).epsilon(1e-12));
        CHECK(swept->high == Approx(slow.high).epsilon(1e-12));
    }
}

TEST_CASE("sixty feedstocks take no longer than they should") {
    std::vector<RatioPart> parts(60);
    for (std::size_t i = 0; i < parts.size(); ++i)
        parts[i] = {1.0,    {0.1, 0.9}, {0.4, 0.5}, {5.0 + static_cast<double>(i), 300.0},
                    {1, 1}, false};
    const auto swept = feed::ratio_range(parts, 30.0);
    REQUIRE(swept);
    CHECK(swept->high == Approx(300.0));
    CHECK(swept->low >= 5.0);
    CHECK(swept->low < 64.0);
}

TEST_CASE("a blend without nitrogen has no ratio") {
    const std::vector<RatioPart> oil{{1.0, {0.0, 0.0}, {0.76, 0.78}, {}, {1, 1}, true}};
    CHECK_FALSE(feed::ratio_range(oil, 0.0));
}
