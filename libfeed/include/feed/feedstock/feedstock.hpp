#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/feedstock/classes.hpp"
#include "feed/feedstock/measure.hpp"
#include "feed/feedstock/property.hpp"
#include "feed/quantity/basis.hpp"
#include "feed/quantity/estimate.hpp"

namespace feed {

/// One stored number of a feedstock, in the unit of its PropertyKind, with range and source.
struct Datum {
    double value = 0.0;
    double low = 0.0;
    double high = 0.0;
    Grade grade = Grade::d;
    Grade range_grade = Grade::d;
    /// `ID:place` pairs parted by blanks, or what the user said; text with static storage.
    std::string_view sources;
    /// How it was obtained; text with static storage.
    std::string_view method;
};

/// Wet mass in one household measure of one feedstock.
struct MeasuredMass {
    Measure measure = Measure::piece;
    WetMass wet_mass;
    Grade grade = Grade::d;
    std::string_view sources;
    /// What another piece, sheet or cup of it may weigh, as factors of wet_mass: from the table by
    /// size and measure, for a mass of the user's own a quarter to either side (grade D).
    double low_factor = 0.75;
    double high_factor = 1.25;
};

/// What a preparation does to the speed of decay: a factor on the rates, 1 for the material cut as
/// the table describes it (grade D).
struct RateFactor {
    double value = 1.0;
    double low = 1.0;
    double high = 1.0;
};

/// A material with properties: from the table, or the user's own. A value type; free to copy and
/// share between threads.
struct Feedstock {
    std::string id;
    std::string name;
    std::string note;
    std::string preparation_hint;
    Group group = Group::scraps;
    std::uint8_t roles = 0;        ///< bits of Role
    Stance stance = Stance::feed;  ///< in a worm bed; see stance_in of place.hpp
    /// In a small heap, where the table says so; see stance_in.
    std::optional<Stance> heap_stance;
    /// In a worm bed once it was pre-composted, where that changes it (raw poultry manure).
    std::optional<Stance> stance_pre_composted;
    std::string_view why_barred;  ///< why it is never fed, a few words with static storage, or ""
    std::string_view instead;     ///< where to go with it instead, or ""
    bool stance_lifted = false;   ///< a file feeds what the table bars
    DecayClass decay_class = DecayClass::medium;
    std::uint32_t cautions = 0;  ///< bits of Caution
    /// Most wet mass at a time for each kg of worms, where the material is touchy.
    std::optional<double> most_wet_kg_per_kg_worms;
    std::string_view most_sources;
    /// What limits it: "nitrogen", "salt", "acid", "oil", "starch" ... (data/properties.yaml).
    std::string_view most_reason;
    std::array<std::optional<Datum>, property_count> data{};
    std::vector<MeasuredMass> measures;
    /// What was done to it ("frozen and thawed, drained"), or empty; see preparation.hpp.
    std::string prepared_as;
    RateFactor decay_rate_factor;
    /// Of an own feedstock: id of the row of the table that it is like, whose cap it shares; or "".
    std::string like_id;
    /// Id of the row of the table that this is made from at home, as it is sold (soaked coir from a
    /// dry brick), or "".
    std::string_view sold_as;

    /// The stored number of a property, or nothing when it is unknown (unknown never means zero).
    constexpr const std::optional<Datum>& operator[](Property property) const& noexcept {
        return data[static_cast<std::size_t>(property)];
    }
    constexpr std::optional<Datum>& operator[](Property property) & noexcept {
        return data[static_cast<std::size_t>(property)];
    }
    /// Not of a feedstock that is gone at the end of the line: the reference would dangle.
    const std::optional<Datum>& operator[](Property property) const&& = delete;
    constexpr bool has(Role role) const noexcept {
        return (roles & static_cast<std::uint8_t>(role)) != 0;
    }
    constexpr bool has(Caution caution) const noexcept {
        return (cautions & static_cast<std::uint32_t>(caution)) != 0;
    }
};

/// Whether two are one material, prepared alike; their numbers may differ.
inline bool same_material(const Feedstock& a, const Feedstock& b) noexcept {
    return a.id == b.id && a.prepared_as == b.prepared_as;
}

}  // namespace feed
