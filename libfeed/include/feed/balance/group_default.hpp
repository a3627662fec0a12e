#pragma once
#include <array>
#include <cstddef>
#include <optional>

#include "feed/feedstock/classes.hpp"
#include "feed/feedstock/property.hpp"

namespace feed {

/// What a balance takes for a property that a feedstock lacks, by group; each a judgement (grade D)
/// near the middle of the known rows of the group, and listed in the answer when it is used.
/// Nothing for a property or group where a guess could do harm: moisture, carbon and nitrogen are
/// never guessed, nor anything of the guarded group (meat, oil, salt, caustic lime).
struct GroupDefault {
    Property property;
    /// scraps, beddings, manures, amendments, water; in the order of Group.
    std::array<double, 5> values;
};

inline constexpr std::array<GroupDefault, 4> group_defaults{{
    {Property::bulk_density_loose, {500.0, 100.0, 600.0, 1000.0, 1000.0}},
    {Property::titratable_acidity_wet, {0.002, 0.0, 0.0, 0.0, 0.0}},
    {Property::sodium_wet, {0.0002, 0.0005, 0.0015, 0.0005, 0.0}},
    {Property::fat_dry, {0.03, 0.02, 0.03, 0.0, 0.0}},
}};

/// The default of a property in a group, or nothing. Constant time.
constexpr std::optional<double> group_default(Property property, Group group) noexcept {
    const auto at = static_cast<std::size_t>(group);
    for (const auto& row : group_defaults) {
        if (row.property == property && at < row.values.size()) return row.values[at];
    }
    return std::nullopt;
}

}  // namespace feed
