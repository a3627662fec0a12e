#pragma once
#include <cstdint>
#include <string>

#include "feed/feedstock/measure.hpp"
#include "feed/quantity/units.hpp"

namespace feed {

/// A vessel the keeper declared, such as a bucket of 10 L.
struct Container {
    std::string name;
    Volume volume;
};

/// What an amount counts.
enum class AmountKind : std::uint8_t { mass, volume, measure };

/// An amount as written, with its unit understood. Masses and volumes are of the wet material.
struct Amount {
    AmountKind kind = AmountKind::mass;
    double count = 0.0;  ///< the number as written; the middle of a range
    Mass mass = kilograms(0.0);
    /// For volumes; and for measures whose volume is fixed (cup, tablespoon, teaspoon).
    Volume volume = cubic_metres(0.0);
    Measure measure = Measure::piece;
    std::string unit;  ///< the unit in the library's own words ("US gallon", "piece", "bucket")
    std::string said;  ///< what was taken for granted ("gallon is taken as US gallon"), or empty
    /// The ends of what was said ("1-2 kg", "a few", a bucket of unknown size), as shares of the
    /// amount; 1 where it is one number.
    double low_share = 1.0;
    double high_share = 1.0;
    bool counted = false;  ///< no unit was written ("3 apples"): the thing says what one is
};

}  // namespace feed
