#pragma once
#include <cmath>
#include <cstddef>
#include <span>

#include "feed/quantity/error.hpp"

namespace feed {

/// The curve y = plateau (1 - exp(-rate x)) through points, by unweighted least squares.
struct FirstOrderFit {
    double plateau = 0.0;  ///< in the unit of y
    double rate_per_day = 0.0;
    double plateau_standard_error = 0.0;
    double rate_standard_error = 0.0;
    double residual_sum_of_squares = 0.0;
    double residual_standard_deviation = 0.0;  ///< n - 2 degrees of freedom
};

namespace detail {

struct ProfilePoint {
    double plateau = 0.0;
    double sum_of_squares = 0.0;
    double slope = 0.0;  ///< of half the sum of squares with respect to the rate
};

/// For a given rate the best plateau is a ratio of sums; the slope of the remaining sum needs no
/// derivative of the plateau, which is at its own minimum.
inline ProfilePoint profile(std::span<const double> x, std::span<const double> y, double rate) {
    double shape_y = 0.0;
    double shape_shape = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double shape = -std::expm1(-rate * x[i]);
        shape_y += shape * y[i];
        shape_shape += shape * shape;
    }
    ProfilePoint point;
    point.plateau = shape_y / shape_shape;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double residual = y[i] + point.plateau * std::expm1(-rate * x[i]);
        point.sum_of_squares += residual * residual;
        point.slope -= residual * point.plateau * x[i] * std::exp(-rate * x[i]);
    }
    return point;
}

}  // namespace detail

/// Fits first-order loss or gas release. The rate is found on a grid of its logarithm and then by
/// bisection of the slope, so it needs no start value and cannot run away.
/// @param elapsed_days  n values above 0, not all equal.
/// @param lost          n values: what has gone by then, any one unit.
/// @return the fit; errors: sizes differ, fewer than 3 points, a value that is not finite, or no
///         minimum at a finite rate (the points fall on a line or do not flatten).
/// Time: n times about 250. Source of the form: first-order accumulation, as in biochemical oxygen
/// demand (Bates & Watts 1988, appendix A4.1).
inline Result<FirstOrderFit> fit_first_order(std::span<const double> elapsed_days,
                                             std::span<const double> lost) {
    const auto wrong = [](ErrorCode code, const char* allowed, const char* message) {
        return make_error(code, "points of the fit", "", allowed, message);
    };
    if (elapsed_days.size() != lost.size() || elapsed_days.size() < 3)
        return wrong(ErrorCode::bad_argument, "at least 3 pairs",
                     "A first-order curve needs at least three pairs of day and loss.");
    double least = elapsed_days[0];
    double most = elapsed_days[0];
    for (std::size_t i = 0; i < lost.size(); ++i) {
        if (!std::isfinite(lost[i]) || !std::isfinite(elapsed_days[i]))
            return wrong(ErrorCode::not_a_number, "finite numbers",
                         "A day or a loss is not a finite number.");
        if (elapsed_days[i] <= 0.0)
            return wrong(ErrorCode::out_of_range, "days above 0",
                         "The days are counted from the start and must be above 0.");
        least = elapsed_days[i] < least ? elapsed_days[i] : least;
        most = elapsed_days[i] > most ? elapsed_days[i] : most;
    }
    if (least == most)
        return wrong(ErrorCode::bad_argument, "at least 2 different days",
                     "All weighings are of the same day, so no rate can be told.");

    constexpr int grid = 120;
    const double lowest = std::log(1e-3 / most);
    const double highest = std::log(40.0 / least);
    const auto rate_at = [&](int i) { return std::exp(lowest + (highest - lowest) * i / grid); };
    int best = 0;
    double best_sum = detail::profile(elapsed_days, lost, rate_at(0)).sum_of_squares;
    for (int i = 1; i <= grid; ++i) {
        const double sum = detail::profile(elapsed_days, lost, rate_at(i)).sum_of_squares;
        if (sum < best_sum) {
            best_sum = sum;
            best = i;
        }
    }
    if (best == 0 || best == grid)
        return wrong(ErrorCode::failed, "points that flatten out",
                     "The points do not flatten out (or are flat from the start), so no rate and "
                     "plateau can be told apart.");
    double low = rate_at(best - 1);
    double high = rate_at(best + 1);
    for (int i = 0; i < 200 && low < high; ++i) {
        const double middle = 0.5 * (low + high);
        if (middle <= low || middle >= high) break;
        (detail::profile(elapsed_days, lost, middle).slope > 0.0 ? high : low) = middle;
    }
    FirstOrderFit fit;
    fit.rate_per_day = 0.5 * (low + high);
    const detail::ProfilePoint at_best = detail::profile(elapsed_days, lost, fit.rate_per_day);
    fit.plateau = at_best.plateau;
    fit.residual_sum_of_squares = at_best.sum_of_squares;
    // Covariance of the two parameters from the Jacobian: s^2 (J'J)^-1.
    double plateau_plateau = 0.0;
    double plateau_rate = 0.0;
    double rate_rate = 0.0;
    for (const double x : elapsed_days) {
        const double by_plateau = -std::expm1(-fit.rate_per_day * x);
        const double by_rate = fit.plateau * x * std::exp(-fit.rate_per_day * x);
        plateau_plateau += by_plateau * by_plateau;
        plateau_rate += by_plateau * by_rate;
        rate_rate += by_rate * by_rate;
    }
    const double variance = fit.residual_sum_of_squares / (static_cast<double>(lost.size()) - 2.0);
    const double determinant = plateau_plateau * rate_rate - plateau_rate * plateau_rate;
    fit.residual_standard_deviation = std::sqrt(variance);
    fit.plateau_standard_error = std::sqrt(variance * rate_rate / determinant);
    fit.rate_standard_error = std::sqrt(variance * plateau_plateau / determinant);
    return fit;
}

}  // namespace feed
