#pragma once
// Exact steps of first-order decay chains: no step is too long, close rates do not cancel.
#include <cmath>

namespace feed::decay {

/// Share of a first-order pool that leaves in a step: 1 - exp(-x).
/// @param x  rate times duration, dimensionless, at least 0.
inline double lost_share(double x) noexcept {
    return -std::expm1(-x);
}

/// (1 - exp(-x)) / x, with its limit 1 at x = 0: the mean of exp(-x s) over s in 0..1.
/// @param x  rate times duration, dimensionless, at least 0.
/// @param lost  lost_share(x), where it is known already.
inline double mean_share(double x, double lost) noexcept {
    // Below 1e-8 the quadratic term is under the rounding of 1.
    return x < 1e-8 ? 1.0 - 0.5 * x : lost / x;
}
inline double mean_share(double x) noexcept {
    return mean_share(x, lost_share(x));
}

/// What a first-order loss leaves in a step. Exponentials are most of what a forecast costs: each
/// is taken once and handed on.
struct Kept {
    double x = 0.0;      ///< rate times duration, dimensionless, at least 0
    double share = 1.0;  ///< exp(-x)

    Kept() = default;
    /// Implicit: a loss is most often said by its exponent alone.
    Kept(double rate_times_duration) noexcept  // NOLINT(google-explicit-constructor)
        : x(rate_times_duration), share(std::exp(-rate_times_duration)) {}
    /// @param lost  lost_share(x), where it is known already.
    Kept(double rate_times_duration, double lost) noexcept
        : x(rate_times_duration), share(1.0 - lost) {}
};

/// (exp(-a) - exp(-b)) / (b - a), symmetric, with its limit exp(-a) at a = b.
/// The textbook difference of two exponentials cancels when the rates are close; expm1 of the
/// difference does not (Bateman 1910 for the chain, the expm1 form is arithmetic). Further apart
/// than an eighth the difference loses one digit at most, and costs no exponential.
inline double chain_share(const Kept& a, const Kept& b) noexcept {
    const double apart = std::fabs(a.x - b.x);
    if (apart > 0.125) return std::fabs(a.share - b.share) / apart;
    return (a.x < b.x ? a.share : b.share) * mean_share(apart);
}

/// What stands in the second pool of a chain after a step.
/// @param second      amount in the second pool at the start.
/// @param first       amount in the first pool at the start, same unit.
/// @param yield       share of what leaves the first pool that enters the second, 0..1.
/// @param of_first    what the first pool keeps in the step.
/// @param of_second   what the second pool keeps.
/// Source: Bateman 1910 (Proc. Cambridge Phil. Soc. 15:423), second member of the chain.
inline double second_after(double second, double first, double yield, const Kept& of_first,
                           const Kept& of_second) noexcept {
    return second * of_second.share + yield * first * of_first.x * chain_share(of_first, of_second);
}

/// Amount in a pool that is fed evenly over the step and loses in proportion to what it holds.
/// @param amount    at the start.
/// @param inflow    amount that enters over the whole step, same unit.
/// @param x         loss rate times duration.
inline double fed_evenly(double amount, double inflow, double x) noexcept {
    return amount * std::exp(-x) + inflow * mean_share(x);
}

/// Time at which the second pool of a chain that started empty is fullest, in the unit of 1/rate:
/// ln(k2/k1)/(k2 - k1), 1/k1 at equal rates. Both rates above 0.
inline double time_of_second_peak(double first_rate, double second_rate) noexcept {
    const double difference = second_rate - first_rate;
    if (difference == 0.0) return 1.0 / first_rate;
    return std::log1p(difference / first_rate) / difference;
}

/// A continuous rate from the share that leaves in one interval: -ln(1 - share) / interval.
/// A published "0.7 per day" of a discrete model is 1.204 per day in exp(-k t).
/// @param share_per_interval  0 to below 1.
/// @param interval_days       above 0.
/// @return per day. Source: Olson 1963 (Ecology 44:322) as in the CLM5 technical note.
inline double continuous_rate_per_day(double share_per_interval, double interval_days) noexcept {
    return -std::log1p(-share_per_interval) / interval_days;
}

/// Share that leaves in an interval at a continuous rate: 1 - exp(-k t). Inverse of
/// `continuous_rate_per_day`.
inline double discrete_share(double rate_per_day, double interval_days) noexcept {
    return lost_share(rate_per_day * interval_days);
}

/// First-order rate from two weighings: ln(before / after) / days.
/// @param before_kg, after_kg  dry masses above 0 on the same basis.
/// @param elapsed_days         above 0.
/// @return per day; negative when it grew.
inline double rate_from_two_weighings_per_day(double before_kg, double after_kg,
                                              double elapsed_days) noexcept {
    return std::log(before_kg / after_kg) / elapsed_days;
}

}  // namespace feed::decay
