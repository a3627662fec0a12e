#pragma once
#include <memory>
#include <string>
#include <vector>

#include "feed/blend/portion.hpp"

namespace feed_test {

/// Builds an invented feedstock for tests, one property after another; ranges as given, or none.
class Material {
public:
    explicit Material(std::string name) {
        feedstock_.id = name;
        feedstock_.name = std::move(name);
        feedstock_.roles = static_cast<std::uint8_t>(feed::Role::scraps);
    }
    Material& with(feed::Property property, double value) {
        return with(property, value, value, value);
    }
    Material& with(feed::Property property, double value, double low, double high,
                   feed::Grade grade = feed::Grade::a) {
        feedstock_[property] = feed::Datum{value, low, high, grade, grade, "invented", "invented"};
        return *this;
    }
    Material& role(feed::Role role) {
        feedstock_.roles = static_cast<std::uint8_t>(role);
        return *this;
    }
    Material& decay(feed::DecayClass decay_class) {
        feedstock_.decay_class = decay_class;
        return *this;
    }
    std::shared_ptr<const feed::Feedstock> share() const {
        return std::make_shared<const feed::Feedstock>(feedstock_);
    }

private:
    feed::Feedstock feedstock_;
};

/// Grass and leaves of the published mixing example (Richard and Trautmann 1996).
inline Material grass() {
    return Material("grass")
        .with(feed::Property::moisture_wet, 0.77)
        .with(feed::Property::carbon_dry, 0.45)
        .with(feed::Property::nitrogen_dry, 0.024);
}
inline Material leaves() {
    return Material("leaves")
        .role(feed::Role::bedding)
        .with(feed::Property::moisture_wet, 0.35)
        .with(feed::Property::carbon_dry, 0.50)
        .with(feed::Property::nitrogen_dry, 0.0075);
}

/// Water with its definitional zeros.
inline Material water() {
    Material material("water");
    material.role(feed::Role::water).decay(feed::DecayClass::inert);
    material.with(feed::Property::moisture_wet, 1.0);
    for (const auto property :
         {feed::Property::carbon_dry, feed::Property::nitrogen_dry, feed::Property::ash_dry,
          feed::Property::fat_dry, feed::Property::titratable_acidity_wet,
          feed::Property::sodium_wet, feed::Property::potassium_wet})
        material.with(property, 0.0);
    return material.with(feed::Property::bulk_density_loose, 998.0);
}

}  // namespace feed_test
