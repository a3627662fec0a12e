#pragma once
#include <cstdint>
#include <string>

#include "feed/quantity/basis.hpp"
#include "feed/quantity/units.hpp"

namespace feed {

/// What kind of step is taken against a cause, most reversible first.
enum class StepKind : std::uint8_t {
    none,
    look,       ///< watch the bed; nothing computed would help
    feed_less,  ///< less, or nothing for some days
    leave_out,  ///< less of one portion
    cool,
    add_bedding,
    add_water,
    spread,  ///< over a larger surface, or to a second bin
    add_lime
};

/// A computed step against a cause. The amounts that do not belong to the kind are 0.
struct SignStep {
    StepKind kind = StepKind::none;
    std::string text;      ///< one or two sentences with amounts
    std::string material;  ///< id of the feedstock to add, or ""
    WetMass add;
    WetMass feed_now;          ///< of scraps
    WetMass feed_later;        ///< of scraps
    Duration later = days(0);  ///< until then nothing is fed
    Area spread = square_metres(0);
};

}  // namespace feed
