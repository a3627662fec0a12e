#pragma once
// What the levels of the parametric method fall towards along rays, and how it is told from levels
// that points reach.

#include <cstddef>

#include "feed/solver/dictionary.hpp"

namespace feed::solver::detail {

/// The lowest limit of a ray so far.
///
/// Exactly at that level the problem is neither bounded nor unbounded to rounding, so it is asked a
/// little below: there another ray shows, or a point that is better than all rays, or the proof
/// that nothing comes nearer than that little.
class RayLimit {
public:
    [[nodiscard]] double level() const { return limit_; }
    /// What two values near the limit may differ by for rounding alone.
    [[nodiscard]] double rounding() const { return 1e-12 * (size_ + size_of(limit_)); }

    /// A ray with its limit and the size of the terms that comes from.
    /// @param lower  whether the limit is clearly lower than what was known
    void take(double limit, double size, bool lower, bool first) {
        if (first || limit < limit_) limit_ = limit;
        if (lower) steps_ = 0;
        size_ = size;
    }

    /// A point has a lower value than all rays.
    void leave() { steps_ = 0; }

    /// The next level to ask: at first a little below in proportion to the level itself, then more
    /// and more of the terms it comes from. False if that has been tried often enough.
    bool step_below(double& level) {
        if (steps_ == 6) return false;
        double step = 1e-11 * size_of(limit_);
        if (steps_ > 0) {
            step = 1e-13 * (size_ + size_of(limit_));
            for (std::size_t k = 0; k < steps_; ++k)
                step *= 10;
        }
        ++steps_;
        level = limit_ - step;
        return true;
    }

    /// A point is as good as the best ray: its value is asked for instead, once, if so far only a
    /// coarser level was.
    bool step_below_point(double value, double& level) {
        if (steps_ < 2 || met_) return false;
        met_ = true;
        steps_ = 0;
        limit_ = value;
        return step_below(level);
    }

private:
    double limit_ = 0;
    double size_ = 0;
    std::size_t steps_ = 0;
    bool met_ = false;
};

}  // namespace feed::solver::detail
