#pragma once
// What the course of food in a bin is learned with: what is believed before any look, the points of
// its parameters, and how they are drawn and weighed.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "feed/bed/look_limits.hpp"
#include "feed/bed/pool_rates.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/quantity/normal.hpp"

namespace feed {

/// What is believed of a bin before any look (judgements, tried on simulated keepers;
/// docs/diary.md).
namespace course_prior {
inline constexpr double rate_log_sd = limits::rate_log_sd.value;
inline constexpr double lag_gamma_scale_days =
    limits::lag_scale.value;  ///< half of the bins: gamma, shape 2, mean 4 d
inline constexpr double shape_log_sd = limits::shape_log_sd.value;
inline constexpr double keeper_bias_sd = limits::keeper_bias_sd.value;
inline constexpr double look_error_median =
    limits::look_error_median.value;  ///< by eye; weighed a little over half of it
inline constexpr double look_error_log_sd = limits::look_error_log_sd.value;
inline constexpr double weighed_over_eye = limits::weighed_over_eye.value;
inline constexpr double feeding_log_sd =
    limits::feeding_log_sd.value;  ///< spread between feedings of one bin
/// A lag delays; so that the median bin still has a quarter left on the published day, its rate is
/// this much higher (logarithm; from the prior itself).
inline constexpr double rate_log_mean = limits::rate_log_mean.value;
}  // namespace course_prior

namespace detail {

inline constexpr std::size_t course_dimensions = 5;
using CoursePoint = std::array<double, course_dimensions>;

/// Standard normal at 0, +-1.356, +-2.857: five-point Gauss-Hermite.
inline constexpr std::array<double, 5> spread_node{-2.8569700138728, -1.3556261799743, 0.0,
                                                   1.3556261799743, 2.8569700138728};
inline constexpr std::array<double, 5> spread_weight{
    0.0112574113277, 0.2220759220056, 0.5333333333333, 0.2220759220056, 0.0112574113277};

/// The distribution function of the standard normal by table, to 1e-5.
class NormalTable {
public:
    NormalTable() noexcept {
        for (std::size_t i = 0; i < below_.size(); ++i)
            below_[i] = normal_below(-5.0 + static_cast<double>(i) / 50.0);
    }
    double operator()(double x) const noexcept {
        if (x <= -5.0) return 0.0;
        if (x >= 4.979) return 1.0;
        const double at = 50.0 * (x + 5.0);
        const auto i = static_cast<std::size_t>(at);
        return below_[i] + (at - static_cast<double>(i)) * (below_[i + 1] - below_[i]);
    }

private:
    std::array<double, 501> below_{};
};

/// Share of the dry matter left by the logarithm of the labile exponent, by table.
class LeftTable {
public:
    static constexpr double lowest = -7.0;
    static constexpr double steps_per_unit = 16.0;

    explicit LeftTable(const std::array<double, 3>& pools) noexcept : pools_(pools) {
        for (std::size_t i = 0; i < left_.size(); ++i)
            left_[i] = exact(lowest + static_cast<double>(i) / steps_per_unit);
    }
    /// @param log_y  logarithm of the exponent that the labile pool has gone through.
    double operator()(double log_y) const noexcept {
        const double at = steps_per_unit * (log_y - lowest);
        if (!(at > 0.0)) return 1.0;
        if (at >= static_cast<double>(left_.size() - 1)) return left_.back();
        const auto i = static_cast<std::size_t>(at);
        return left_[i] + (at - static_cast<double>(i)) * (left_[i + 1] - left_[i]);
    }
    double exact(double log_y) const noexcept {
        const double y = std::exp(log_y);
        double left = std::max(0.0, 1.0 - pools_[0] - pools_[1] - pools_[2]);
        for (std::size_t p = 0; p < 3; ++p)
            left += pools_[p] * std::exp(-y * pool_rates[p].rate_per_day.value /
                                         pool_rates[0].rate_per_day.value);
        return left;
    }

private:
    std::array<double, 3> pools_;
    std::array<double, 224> left_{};
};

/// The parameters of a bin at a point of five standard normals.
struct CourseBin {
    double log_rate = 0.0;  ///< of the labile rate over the published one
    double lag_days = 0.0;
    double shape = 1.0;
    double bias = 0.0;
    double error = 0.1;
};

inline double gamma_two_quantile(double p, double scale) noexcept {
    // 1 - (1 + x) exp(-x) = p, by Newton from above zero.
    double x = std::sqrt(2.0 * p) + p;
    for (int i = 0; i < 12; ++i) {
        const double e = std::exp(-x);
        const double slope = std::max(x * e, 1e-9);
        x = std::clamp(x - (1.0 - (1.0 + x) * e - p) / slope, 1e-6, 20.0);
    }
    return scale * x;
}

inline CourseBin bin_at(const CoursePoint& z) noexcept {
    CourseBin bin;
    bin.log_rate = course_prior::rate_log_mean + course_prior::rate_log_sd * z[0];
    bin.lag_days = z[1] <= 0.0
                       ? 0.0
                       : gamma_two_quantile(std::min(2.0 * normal_below(z[1]) - 1.0, 0.99999),
                                            course_prior::lag_gamma_scale_days);
    bin.shape = std::exp(course_prior::shape_log_sd * z[2]);
    bin.bias = course_prior::keeper_bias_sd * z[3];
    bin.error = course_prior::look_error_median * std::exp(course_prior::look_error_log_sd * z[4]);
    return bin;
}

/// log y by the logarithm of the effective days that food was acted on.
inline double log_exponent_at(const CourseBin& bin, double log_rate_25, double log_days) noexcept {
    return bin.shape * (bin.log_rate + log_rate_25 + log_days);
}

/// log y of a look before the spread between feedings.
inline double log_exponent(const CourseBin& bin, double log_rate_25, double days,
                           double effective_days) noexcept {
    const double acting = 1.0 - bin.lag_days / days;
    if (!(acting > 0.0) || !(effective_days > 0.0)) return -1e9;
    return log_exponent_at(bin, log_rate_25, std::log(effective_days * acting));
}

/// Random numbers that do not depend on a library's distribution.
class CourseDice {
public:
    explicit CourseDice(std::uint64_t seed) noexcept : state_(seed) {}
    double uniform() noexcept {
        state_ += 0x9E3779B97F4A7C15ULL;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
        z ^= z >> 31;
        return (static_cast<double>(z >> 11) + 0.5) / 9007199254740992.0;
    }
    double normal() noexcept {
        const double radius = std::sqrt(-2.0 * std::log(uniform()));
        return radius * std::cos(6.283185307179586 * uniform());
    }

private:
    std::uint64_t state_;
};

/// A normal distribution in the space of the points.
struct CourseCloud {
    CoursePoint mean{};
    std::array<CoursePoint, course_dimensions> root{};  ///< lower triangle of the covariance
    double log_determinant = 0.0;

    CoursePoint draw(CourseDice& dice) const noexcept {
        CoursePoint z;
        for (double& one : z)
            one = dice.normal();
        CoursePoint point = mean;
        for (std::size_t i = 0; i < course_dimensions; ++i) {
            for (std::size_t j = 0; j <= i; ++j)
                point[i] += root[i][j] * z[j];
        }
        return point;
    }
    /// Logarithm of the density, without the constant of the dimension.
    double log_density(const CoursePoint& point) const noexcept {
        CoursePoint z{};
        double sum = 0.0;
        for (std::size_t i = 0; i < course_dimensions; ++i) {
            double rest = point[i] - mean[i];
            for (std::size_t j = 0; j < i; ++j)
                rest -= root[i][j] * z[j];
            z[i] = rest / root[i][i];
            sum += z[i] * z[i];
        }
        return -0.5 * sum - log_determinant;
    }
};

inline double prior_log_density(const CoursePoint& z) noexcept {
    double sum = 0.0;
    for (const double one : z)
        sum += one * one;
    return -0.5 * sum;
}

}  // namespace detail

}  // namespace feed
