#pragma once
// Feedstocks and problems for the tests of the balance, stated in the percentages of their sources.
#include <cstddef>
#include <memory>
#include <optional>
#include <string>

#include "feed/balance/balance_problem.hpp"

namespace feed_test {

inline feed::Datum datum(double value) {
    feed::Datum result;
    result.value = value;
    result.low = value;
    result.high = value;
    result.grade = feed::Grade::a;
    result.range_grade = feed::Grade::a;
    return result;
}

/// A scraps feedstock from moisture (% wet), carbon and nitrogen (% dry).
inline feed::Feedstock material(const std::string& name, double moisture, double carbon,
                                double nitrogen) {
    feed::Feedstock made;
    made.id = name;
    made.name = name;
    made.roles = static_cast<std::uint8_t>(feed::Role::scraps);
    made[feed::Property::moisture_wet] = datum(moisture / 100.0);
    made[feed::Property::carbon_dry] = datum(carbon / 100.0);
    made[feed::Property::nitrogen_dry] = datum(nitrogen / 100.0);
    made[feed::Property::bulk_density_loose] = datum(500.0);
    made[feed::Property::sodium_wet] = datum(0.0);
    made[feed::Property::titratable_acidity_wet] = datum(0.0);
    made[feed::Property::fat_dry] = datum(0.0);
    made[feed::Property::ash_dry] = datum(0.1);
    return made;
}

inline feed::Feedstock bedding(const std::string& name, double moisture, double carbon,
                               double nitrogen) {
    auto made = material(name, moisture, carbon, nitrogen);
    made.roles = static_cast<std::uint8_t>(feed::Role::bedding);
    made.group = feed::Group::beddings;
    made[feed::Property::bulk_density_loose] = datum(60.0);
    made[feed::Property::water_holding_capacity_dry] = datum(3.0);
    return made;
}

inline feed::Feedstock water() {
    auto made = material("water", 100.0, 0.0, 0.0);
    made.roles = static_cast<std::uint8_t>(feed::Role::water);
    made.group = feed::Group::water;
    made[feed::Property::bulk_density_loose] = datum(998.0);
    return made;
}

inline feed::Entry exactly(feed::Feedstock feedstock, double kilograms) {
    feed::Entry entry;
    entry.label = feedstock.name;
    entry.feedstock = std::make_shared<const feed::Feedstock>(std::move(feedstock));
    entry.least = feed::wet_kilograms(kilograms);
    entry.most = feed::wet_kilograms(kilograms);
    return entry;
}

inline feed::Entry free_amount(feed::Feedstock feedstock) {
    auto entry = exactly(std::move(feedstock), 0.0);
    entry.most.reset();
    return entry;
}

inline feed::Entry up_to(feed::Feedstock feedstock, double kilograms) {
    auto entry = exactly(std::move(feedstock), kilograms);
    entry.least = feed::wet_kilograms(0.0);
    return entry;
}

inline feed::Target target(feed::TargetProperty property, std::optional<double> low,
                           std::optional<double> high, std::optional<double> aim = std::nullopt) {
    feed::Target made;
    made.property = property;
    made.low = low;
    made.high = high;
    made.aim = aim;
    return made;
}

}  // namespace feed_test
