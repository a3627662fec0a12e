#pragma once
#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "feed/bed/check.hpp"
#include "feed/feedstock/table.hpp"

// Feedstocks and beds that the tests of this folder share.
namespace kitchen {

/// A feedstock of the table by id; the index is checked, so a renamed id fails loudly.
inline std::shared_ptr<const feed::Feedstock> from_table(std::string_view id) {
    const auto index = feed::find_id(id);
    if (!index) return nullptr;
    return std::make_shared<const feed::Feedstock>(feed::feedstock_at(*index));
}

inline feed::Portion portion(std::string_view id, double wet_kg) {
    return {from_table(id), feed::wet_kilograms(wet_kg)};
}

/// A made-up feedstock with exact numbers.
class Made {
public:
    explicit Made(feed::Group group, feed::Role role) {
        feedstock_.id = "made";
        feedstock_.name = "made-up stuff";
        feedstock_.group = group;
        feedstock_.roles = static_cast<std::uint8_t>(role);
    }
    Made& with(feed::Property property, double value) {
        feedstock_[property] =
            feed::Datum{value, value, value, feed::Grade::a, feed::Grade::a, "test", "test"};
        return *this;
    }
    Made& with(feed::Caution caution) {
        feedstock_.cautions |= static_cast<std::uint32_t>(caution);
        return *this;
    }
    Made& named(std::string name) {
        feedstock_.id = feedstock_.name = std::move(name);
        return *this;
    }
    Made& at_most(double wet_kg_per_kg_worms) {
        feedstock_.most_wet_kg_per_kg_worms = wet_kg_per_kg_worms;
        feedstock_.most_sources = "PRACTICE";
        return *this;
    }
    std::shared_ptr<const feed::Feedstock> share() const {
        return std::make_shared<const feed::Feedstock>(feedstock_);
    }
    const feed::Feedstock& get() const { return feedstock_; }

private:
    feed::Feedstock feedstock_;
};

/// Soft scraps with every figure: 85 % water, C:N 20.
inline Made scraps() {
    using feed::Property;
    return Made(feed::Group::scraps, feed::Role::scraps)
        .with(Property::moisture_wet, 0.85)
        .with(Property::carbon_dry, 0.42)
        .with(Property::nitrogen_dry, 0.021)
        .with(Property::ash_dry, 0.05)
        .with(Property::fat_dry, 0.02)
        .with(Property::sodium_wet, 0.0005)
        .with(Property::titratable_acidity_wet, 0.005)
        .with(Property::bulk_density_settled, 700)
        .with(Property::labile_share, 0.8)
        .with(Property::cellulosic_share, 0.18)
        .with(Property::lignin_like_share, 0.02);
}

/// Dry card that holds three times its dry mass of water.
inline Made card() {
    using feed::Property;
    return Made(feed::Group::beddings, feed::Role::bedding)
        .with(Property::moisture_wet, 0.05)
        .with(Property::carbon_dry, 0.44)
        .with(Property::nitrogen_dry, 0.001)
        .with(Property::ash_dry, 0.08)
        .with(Property::water_holding_capacity_dry, 3.0)
        .with(Property::bulk_density_settled, 90)
        .with(Property::labile_share, 0.16)
        .with(Property::cellulosic_share, 0.66)
        .with(Property::lignin_like_share, 0.18);
}

/// An invented settled school tote: 60 L, half a kilogram of worms, one or two drops.
inline feed::Bed tote() {
    feed::Bed bed;
    bed.container.kind = feed::ContainerKind::tote;
    bed.container.inside =
        feed::InsideSize{feed::metres(0.55), feed::metres(0.38), feed::metres(0.30)};
    bed.depth_of_contents = feed::metres(0.20);
    bed.drainage = feed::Drainage::none;
    bed.lid = feed::Lid::loose;
    bed.ventilation = feed::Ventilation::holes;
    bed.species = feed::Species::eisenia_fetida;
    bed.worms.wet_mass = feed::wet_grams(500);
    bed.temperature = feed::celsius(20);
    bed.squeeze = feed::Squeeze::drops;
    bed.lime = feed::grams(0);
    bed.age = feed::days(365);
    return bed;
}

/// The numbers of a bed as check sees them.
inline feed::BedNumbers numbers(const feed::Bed& bed, const feed::CheckOptions& options = {}) {
    return feed::bed_numbers(bed, feed::completed(bed), options);
}

}  // namespace kitchen
