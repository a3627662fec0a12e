// Ranges of the blend against every corner of the ranges of its feedstocks, the slow, obvious way.
#include <algorithm>
#include <array>
#include <functional>
#include <vector>

#include "catch2.hpp"
#include "feed/blend/blend.hpp"
#include "material.hpp"

using feed::Property;
using feed::wet_kilograms;
using feed_test::Approx;

namespace {

// What varies, and what it is called: a feedstock's property at its low or high end.
struct Free {
    std::size_t part;
    Property property;
};

struct Corners {
    double low = 1e300;
    double high = -1e300;
    void add(double value) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
};

// Peel and card with wide ranges; masses in kg.
constexpr std::array<double, 2> masses{1.3, 0.4};
std::vector<feed_test::Material> materials() {
    return {feed_test::Material("peel")
                .with(Property::moisture_wet, 0.80, 0.70, 0.88)
                .with(Property::ash_dry, 0.06, 0.03, 0.15)
                .with(Property::fat_dry, 0.05, 0.01, 0.09)
                .with(Property::titratable_acidity_wet, 0.005, 0.002, 0.009)
                .with(Property::sodium_wet, 0.001, 0.0004, 0.002)
                .with(Property::bulk_density_loose, 400.0, 300.0, 520.0)
                .with(Property::bulk_density_settled, 600.0, 450.0, 800.0),
            feed_test::Material("card")
                .role(feed::Role::bedding)
                .with(Property::moisture_wet, 0.08, 0.05, 0.20)
                .with(Property::ash_dry, 0.10, 0.02, 0.20)
                .with(Property::fat_dry, 0.01, 0.0, 0.02)
                .with(Property::titratable_acidity_wet, 0.0)
                .with(Property::sodium_wet, 0.0005, 0.0001, 0.001)
                .with(Property::bulk_density_loose, 60.0, 40.0, 90.0)
                .with(Property::bulk_density_settled, 90.0, 60.0, 130.0)};
}

using Values = std::array<std::array<double, feed::property_count>, 2>;

double value(const Values& values, std::size_t part, Property property) {
    return values[part][static_cast<std::size_t>(property)];
}

// Calls `look` with the values of every corner.
void every_corner(const std::function<void(const Values&)>& look) {
    const auto both = materials();
    std::vector<Free> free;
    Values values{};
    for (std::size_t part = 0; part < both.size(); ++part) {
        const auto feedstock = both[part].share();
        for (std::size_t p = 0; p < feed::property_count; ++p) {
            if (feedstock->data[p]) free.push_back({part, static_cast<Property>(p)});
        }
    }
    for (std::size_t corner = 0; corner < (std::size_t{1} << free.size()); ++corner) {
        for (std::size_t i = 0; i < free.size(); ++i) {
            const auto feedstock = both[free[i].part].share();
            const auto at = static_cast<std::size_t>(free[i].property);
            const auto& datum = *feedstock->data[at];
            values[free[i].part][at] = ((corner >> i) & 1) != 0 ? datum.high : datum.low;
        }
        look(values);
    }
}

double packed(double bedding, double other, double loss) {
    return feed::packed_volume(feed::cubic_metres(bedding), feed::cubic_metres(other), loss)
        .value();
}

}  // namespace

TEST_CASE("ranges of masses, volume and air are those of the corners") {
    Corners dry, acid, salt, fat, solids, volume, density, air;
    const double wet = masses[0] + masses[1];
    every_corner([&](const Values& v) {
        double dry_kg = 0, acid_kg = 0, sodium_kg = 0, fat_kg = 0, solids_kg = 0, phases = 0;
        for (std::size_t part = 0; part < 2; ++part) {
            const double d = masses[part] * (1.0 - value(v, part, Property::moisture_wet));
            const double ash = value(v, part, Property::ash_dry);
            dry_kg += d;
            acid_kg += masses[part] * value(v, part, Property::titratable_acidity_wet);
            sodium_kg += masses[part] * value(v, part, Property::sodium_wet);
            fat_kg += d * value(v, part, Property::fat_dry);
            solids_kg += d * (1.0 - ash);
            phases += (masses[part] - d) / 1000.0 + d * (1.0 - ash) / 1600.0 + d * ash / 2500.0;
        }
        dry.add(dry_kg);
        acid.add(acid_kg);
        salt.add(2.54 * sodium_kg);
        fat.add(fat_kg);
        solids.add(solids_kg);
        for (const double loss :
             {feed::assumed::packing_loss.low, feed::assumed::packing_loss.high}) {
            const auto space = [&](Property property) {
                return packed(masses[1] / value(v, 1, property), masses[0] / value(v, 0, property),
                              loss);
            };
            volume.add(space(Property::bulk_density_loose));
            density.add(wet / space(Property::bulk_density_loose));
            air.add(1.0 - phases / space(Property::bulk_density_settled));
        }
    });
    const auto both = materials();
    const std::vector<feed::Portion> portions{{both[0].share(), wet_kilograms(masses[0])},
                                              {both[1].share(), wet_kilograms(masses[1])}};
    const auto answer = feed::blend(portions);
    const auto check = [](const char* what, double low, double high, const Corners& corners) {
        CAPTURE(what);
        CHECK(low == Approx(corners.low).epsilon(1e-12));
        CHECK(high == Approx(corners.high).epsilon(1e-12));
    };
    const auto check_mass = [&](const char* what, const feed::Estimate<feed::Mass>& mass,
                                const Corners& corners) {
        check(what, mass.low.value(), mass.high.value(), corners);
    };
    check_mass("dry", answer.dry_mass, dry);
    check_mass("acid", answer.acid, acid);
    check_mass("salt", answer.salt, salt);
    check_mass("fat", answer.fat, fat);
    check_mass("volatile solids", answer.volatile_solids, solids);
    check("volume", answer.volume.low.value(), answer.volume.high.value(), volume);
    check("density", answer.bulk_density.low.value(), answer.bulk_density.high.value(), density);
    check("free air space", answer.free_air_space.low, answer.free_air_space.high, air);
}

TEST_CASE("an amount that was not weighed carries its range into every quantity") {
    const auto both = materials();
    const auto blend_of = [&](double low, double high) {
        feed::Portion first{both[0].share(), wet_kilograms(masses[0])};
        first.low_share = low;
        first.high_share = high;
        return feed::blend(
            std::vector<feed::Portion>{first, {both[1].share(), wet_kilograms(masses[1])}});
    };
    const auto open = blend_of(0.5, 2.0);
    const auto weighed = blend_of(1.0, 1.0);
    const auto light =
        feed::blend(std::vector<feed::Portion>{{both[0].share(), wet_kilograms(0.5 * masses[0])},
                                               {both[1].share(), wet_kilograms(masses[1])}});
    const auto heavy =
        feed::blend(std::vector<feed::Portion>{{both[0].share(), wet_kilograms(2.0 * masses[0])},
                                               {both[1].share(), wet_kilograms(masses[1])}});
    CHECK(open.dry_mass.value.value() == Approx(weighed.dry_mass.value.value()));
    CHECK(open.dry_mass.low.value() == Approx(light.dry_mass.low.value()));
    CHECK(open.dry_mass.high.value() == Approx(heavy.dry_mass.high.value()));
    CHECK(open.salt.high.value() == Approx(heavy.salt.high.value()));
    // Ratios are reached at an end of the amount.
    const auto least = [](double a, double b) { return a < b ? a : b; };
    const auto most = [](double a, double b) { return a < b ? b : a; };
    CHECK(open.moisture.low.value() ==
          Approx(least(light.moisture.low.value(), heavy.moisture.low.value())));
    CHECK(open.moisture.high.value() ==
          Approx(most(light.moisture.high.value(), heavy.moisture.high.value())));
    CHECK(open.cn_ratio.low == Approx(least(light.cn_ratio.low, heavy.cn_ratio.low)));
    CHECK(open.cn_ratio.high == Approx(most(light.cn_ratio.high, heavy.cn_ratio.high)));
}

TEST_CASE("what was measured by its volume has that volume") {
    const auto both = materials();
    const auto shared = both[0].share();
    const auto& density = *(*shared)[Property::bulk_density_loose];
    feed::Portion litre{both[0].share(), wet_kilograms(density.value / 1000.0)};
    litre.low_share = density.low / density.value;
    litre.high_share = density.high / density.value;
    const auto answer = feed::blend(std::vector<feed::Portion>{litre});
    CHECK(feed::in_litres(answer.volume.value) == Approx(1.0));
    CHECK(feed::in_litres(answer.volume.low) == Approx(1.0));
    CHECK(answer.dry_mass.low.value() < answer.dry_mass.value.value());
}
