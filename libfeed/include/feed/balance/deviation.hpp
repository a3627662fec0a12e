#pragma once
#include <optional>

#include "feed/balance/balance_problem.hpp"

namespace feed {

/// How far a property strays to one side: (value - zero) / unit, or its negative downwards.
struct Deviation {
    double zero = 0.0;
    double unit = 1.0;
};

/// The deviation of a property upwards and downwards; nothing on a side that is not judged.
struct Deviations {
    std::optional<Deviation> up;
    std::optional<Deviation> down;
};

namespace detail {

inline double magnitude(double number) {
    const double size = number < 0.0 ? -number : number;
    return size > 0.0 ? size : 1.0;
}

/// One side of an aim: the unit is the way from the aim to the window edge on that side; where
/// there is no edge, the way to the other edge; where there is none either, the aim itself.
inline double unit_of_side(double aim, const std::optional<double>& edge,
                           const std::optional<double>& other) {
    if (edge && *edge != aim) return magnitude(*edge - aim);
    if (other && *other != aim) return magnitude(*other - aim);
    return magnitude(aim);
}

/// The edge that is good to hold: of the wish, else of the must.
inline std::optional<double> wished_low(const Target& target) {
    return target.wish_low ? target.wish_low : target.low;
}
inline std::optional<double> wished_high(const Target& target) {
    return target.wish_high ? target.wish_high : target.high;
}
/// The edge that must hold, else the one that is good to hold.
inline std::optional<double> needed_low(const Target& target) {
    return target.low ? target.low : target.wish_low;
}
inline std::optional<double> needed_high(const Target& target) {
    return target.high ? target.high : target.wish_high;
}

}  // namespace detail

/// How the objective "closest to the aims" measures a target: 0 at the aim, 1 at the edge of the
/// wish on that side, or of the must where there is no wish. Targets without an aim are not
/// measured; a side whose edge is the aim needs no measure, since the window forbids it. Threads:
/// pure.
inline Deviations deviations_from_aim(const Target& target) {
    Deviations result;
    if (!target.aim) return result;
    const double aim = *target.aim;
    const auto low = detail::wished_low(target);
    const auto high = detail::wished_high(target);
    if (!target.high || *target.high != aim)
        result.up = Deviation{aim, detail::unit_of_side(aim, high, low)};
    if (!target.low || *target.low != aim)
        result.down = Deviation{aim, detail::unit_of_side(aim, low, high)};
    return result;
}

/// How the closest blend is measured when the windows cannot all be met: as above, 1 at every
/// window edge, so that what oversteps is more than 1. A window without an aim is measured from its
/// middle; a single edge in units of its own size. Threads: pure.
inline Deviations deviations_from_window(const Target& target) {
    Deviations result;
    std::optional<double> middle = target.aim;
    if (!middle && target.low && target.high) middle = (*target.low + *target.high) / 2.0;
    if (middle) {
        const auto low = detail::needed_low(target);
        const auto high = detail::needed_high(target);
        result.up = Deviation{*middle, detail::unit_of_side(*middle, high, low)};
        result.down = Deviation{*middle, detail::unit_of_side(*middle, low, high)};
        return result;
    }
    if (target.high) {
        const double unit = detail::magnitude(*target.high);
        result.up = Deviation{*target.high - unit, unit};
    }
    if (target.low) {
        const double unit = detail::magnitude(*target.low);
        result.down = Deviation{*target.low + unit, unit};
    }
    return result;
}

}  // namespace feed
