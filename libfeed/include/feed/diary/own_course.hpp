#pragma once
// How food goes in this bin, learned from looks: points of the parameters, weighed by how well they
// explain what was seen. Fixed points and a fixed seed: the same looks give the same answer.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>
#include <vector>

#include "feed/bed/pool_rates.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/quantity/normal.hpp"

namespace feed {

/// What is believed of a bin before any look (judgements, tried on simulated keepers;
/// docs/diary.md).
namespace course_prior {
inline constexpr double rate_log_sd = 0.75;
inline constexpr double lag_gamma_scale_days = 2.0;  ///< half of the bins: gamma, shape 2, mean 4 d
inline constexpr double shape_log_sd = 0.25;
inline constexpr double keeper_bias_sd = 0.08;
inline constexpr double look_error_median = 0.10;  ///< by eye; weighed a little over half of it
inline constexpr double look_error_log_sd = 0.35;
inline constexpr double weighed_over_eye = 0.6;
inline constexpr double feeding_log_sd = 0.3;  ///< spread between feedings of one bin
/// A lag delays; so that the median bin still has a quarter left on the published day, its rate is
/// this much higher (logarithm; from the prior itself).
inline constexpr double rate_log_mean = 0.30;
}  // namespace course_prior

/// One look at one feeding. The share seen lies between `low` and `high`: a reading in tenths is an
/// interval of a tenth, "gone" is anything up to 0.15, "not gone" anything above.
struct CourseLook {
    std::size_t feeding = 0;      ///< index into the feedings
    double days = 0.0;            ///< since the feeding, above 0
    double effective_days = 0.0;  ///< the same at 25 C, moist, airy, rich in nitrogen; above 0
    double low = 0.0;             ///< of the dry matter; -1 for "or less"
    double high = 1.0;            ///< 2 for "or more"
    bool weighed = false;
};

/// One feeding: pools of its scraps and how fast it goes beside others (preparation).
struct CourseFeeding {
    std::array<double, 3> pool_shares{};
    double log_rate = 0.0;
};

/// 5, 50 and 95 % points of what is left of a feeding.
struct CourseLeft {
    Ranged share;  ///< of its dry matter
    Ranged soft;   ///< of its labile part
};

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

/// log y of a look before the spread between feedings.
inline double log_exponent(const CourseBin& bin, double log_rate_25, double days,
                           double effective_days) noexcept {
    const double acting = 1.0 - bin.lag_days / days;
    if (!(acting > 0.0) || !(effective_days > 0.0)) return -1e9;
    return bin.shape * (bin.log_rate + log_rate_25 + std::log(effective_days * acting));
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

/// The course of food in one bin. A value; copying copies some thousand points. Threads: const
/// members are pure.
class OwnCourse {
public:
    /// Learns. @param looks  any number; each names a feeding within `feedings`.
    /// Time: 5000 points x looks x 5; 26 weeks of looks take about 30 ms.
    OwnCourse(std::vector<CourseFeeding> feedings, std::vector<CourseLook> looks)
        : feedings_(std::move(feedings)), looks_(std::move(looks)) {
        std::stable_sort(
            looks_.begin(), looks_.end(),
            [](const CourseLook& a, const CourseLook& b) { return a.feeding < b.feeding; });
        for (const CourseFeeding& feeding : feedings_)
            tables_.emplace_back(feeding.pool_shares);
        learn();
    }

    /// What is left of a feeding, looks at it counted. Time: points x (its looks + 1) x 5.
    /// @param days, effective_days  since the feeding; see CourseLook.
    CourseLeft left(std::size_t feeding, double days, double effective_days) const {
        return left_on(feeding, {&days, 1}, {&effective_days, 1}).front();
    }

    /// The same on several days. @param days, effective_days  as many of one as of the other.
    std::vector<CourseLeft> left_on(std::size_t feeding, std::span<const double> days,
                                    std::span<const double> effective_days) const {
        const auto of_feeding = looks_of(feeding);
        std::vector<std::vector<double>> bins(days.size(), std::vector<double>(bin_count, 0.0));
        for (std::size_t i = 0; i < own_.size(); ++i) {
            const detail::CourseBin& bin = own_[i];
            std::array<double, 5> share = seen_by_node(bin, of_feeding);
            double sum = 0.0;
            for (const double one : share)
                sum += one;
            if (!(sum > 0.0)) continue;
            for (std::size_t day = 0; day < days.size(); ++day) {
                const double log_y = days[day] > 0.0
                                         ? detail::log_exponent(bin, log_rate_of(feeding),
                                                                days[day], effective_days[day])
                                         : -1e9;
                for (std::size_t q = 0; q < share.size(); ++q)
                    add(bins[day], log_y + bin.shape * spread(q), weights_[i] * share[q] / sum);
            }
        }
        // The lowest bin holds what has not begun: all of it is left.
        const auto whole = [](double at) { return at <= lowest_bin + 1.0 / bins_per_unit; };
        const auto share = [&](double at) { return whole(at) ? 1.0 : tables_[feeding].exact(at); };
        const auto soft = [&](double at) { return whole(at) ? 1.0 : std::exp(-std::exp(at)); };
        std::vector<CourseLeft> left;
        left.reserve(days.size());
        for (const std::vector<double>& day : bins) {
            const Ranged log_y = quantiles(day);
            left.push_back({{share(log_y.value), share(log_y.high), share(log_y.low)},
                            {soft(log_y.value), soft(log_y.high), soft(log_y.low)}});
        }
        return left;
    }

    /// Effective days until a share of the labile part of a new feeding is left: 50, 5 and 95 %
    /// points. @param soft_share  above 0, below 1.
    /// @param effective_per_day    effective days in a day, above 0.
    Ranged effective_days_until(double soft_share, double effective_per_day) const {
        std::vector<double> bins(bin_count, 0.0);
        const double log_y = std::log(-std::log(soft_share));
        for (std::size_t i = 0; i < own_.size(); ++i) {
            const detail::CourseBin& bin = own_[i];
            for (std::size_t q = 0; q < detail::spread_node.size(); ++q) {
                const double rate = std::exp(bin.log_rate + log_rate_25() + spread(q));
                const double days =
                    bin.lag_days * effective_per_day + std::exp(log_y / bin.shape) / rate;
                add(bins, std::log(days), weights_[i] * detail::spread_weight[q]);
            }
        }
        const Ranged found = quantiles(bins);
        return {std::exp(found.value), std::exp(found.low), std::exp(found.high)};
    }

    /// The labile rate at 25 C with which a first-order forecast has a quarter of the soft part
    /// left on the same day as this bin: 50, 5 and 95 % points, per day.
    Ranged rate_per_day(double effective_per_day = 0.7) const {
        const Ranged until = effective_days_until(0.25, effective_per_day);
        const double exponent = -std::log(0.25);
        return {exponent / until.value, exponent / until.high, exponent / until.low};
    }

    std::size_t looks() const noexcept { return looks_.size(); }
    /// Points that carry the answer: 1 / sum of squared weights.
    double effective_points() const noexcept {
        double sum = 0.0;
        for (const double w : weights_)
            sum += w * w;
        return sum > 0.0 ? 1.0 / sum : 0.0;
    }

private:
    static constexpr std::size_t bin_count = 1200;
    static constexpr double lowest_bin = -8.0;
    static constexpr double bins_per_unit = 75.0;

    static double log_rate_25() noexcept { return std::log(pool_rates[0].rate_per_day.value); }
    double log_rate_of(std::size_t feeding) const noexcept {
        return log_rate_25() + feedings_[feeding].log_rate;
    }
    static double spread(std::size_t q) noexcept {
        return course_prior::feeding_log_sd * detail::spread_node[q];
    }
    static void add(std::vector<double>& bins, double at, double weight) noexcept {
        const double place = (at - lowest_bin) * bins_per_unit;
        const double last = static_cast<double>(bin_count - 1);
        bins[static_cast<std::size_t>(std::clamp(place, 0.0, last))] += weight;
    }
    static Ranged quantiles(const std::vector<double>& bins) noexcept {
        double sum = 0.0;
        for (const double one : bins)
            sum += one;
        const auto at = [&](double share) {
            double before = 0.0;
            for (std::size_t i = 0; i < bins.size(); ++i) {
                if (before + bins[i] >= share * sum && bins[i] > 0.0) {
                    const double within = (share * sum - before) / bins[i];
                    return lowest_bin + (static_cast<double>(i) + within) / bins_per_unit;
                }
                before += bins[i];
            }
            return lowest_bin + static_cast<double>(bins.size()) / bins_per_unit;
        };
        return {at(0.5), at(0.05), at(0.95)};
    }

    std::span<const CourseLook> looks_of(std::size_t feeding) const noexcept {
        const auto range = std::equal_range(
            looks_.begin(), looks_.end(), CourseLook{feeding, 0, 0, 0, 0, false},
            [](const CourseLook& a, const CourseLook& b) { return a.feeding < b.feeding; });
        return {looks_.data() + (range.first - looks_.begin()),
                static_cast<std::size_t>(range.second - range.first)};
    }

    /// Weight of each node of the spread: how well it explains the looks at one feeding.
    std::array<double, 5> seen_by_node(const detail::CourseBin& bin,
                                       std::span<const CourseLook> looks) const noexcept {
        std::array<double, 5> product = detail::spread_weight;
        for (const CourseLook& look : looks) {
            const double log_y = detail::log_exponent(bin, log_rate_of(look.feeding), look.days,
                                                      look.effective_days);
            const detail::LeftTable& table = tables_[look.feeding];
            const double error =
                look.weighed ? course_prior::weighed_over_eye * bin.error : bin.error;
            const double bias = look.weighed ? 0.0 : bin.bias;
            for (std::size_t q = 0; q < product.size(); ++q) {
                const double left = table(log_y + bin.shape * spread(q)) + bias;
                const double seen =
                    normal_((look.high - left) / error) - normal_((look.low - left) / error);
                // One look in a hundred is a slip of any size.
                product[q] *= 0.01 * std::min(1.0, look.high - look.low) + 0.99 * seen + 1e-12;
            }
        }
        return product;
    }

    double log_likelihood(const detail::CoursePoint& z) const noexcept {
        const detail::CourseBin bin = detail::bin_at(z);
        double sum = 0.0;
        for (std::size_t i = 0; i < looks_.size();) {
            std::size_t end = i + 1;
            while (end < looks_.size() && looks_[end].feeding == looks_[i].feeding)
                ++end;
            double all = 0.0;
            for (const double one : seen_by_node(bin, {looks_.data() + i, end - i}))
                all += one;
            sum += std::log(all);
            i = end;
        }
        return sum;
    }

    /// Weights of points drawn from a mixture of a cloud and the prior, for a tempered likelihood.
    static double normalise(std::vector<double>& log_weights) noexcept {
        const double most = *std::max_element(log_weights.begin(), log_weights.end());
        double sum = 0.0;
        double squares = 0.0;
        for (double& one : log_weights) {
            one = std::exp(one - most);
            sum += one;
        }
        for (double& one : log_weights) {
            one /= sum;
            squares += one * one;
        }
        return 1.0 / squares;
    }

    detail::CourseCloud cloud_of(const std::vector<detail::CoursePoint>& points,
                                 const std::vector<double>& weights) const noexcept {
        constexpr std::size_t n = detail::course_dimensions;
        detail::CourseCloud cloud;
        for (std::size_t k = 0; k < points.size(); ++k) {
            for (std::size_t i = 0; i < n; ++i)
                cloud.mean[i] += weights[k] * points[k][i];
        }
        std::array<detail::CoursePoint, n> covariance{};
        for (std::size_t k = 0; k < points.size(); ++k) {
            for (std::size_t i = 0; i < n; ++i) {
                for (std::size_t j = 0; j <= i; ++j)
                    covariance[i][j] += weights[k] * (points[k][i] - cloud.mean[i]) *
                                        (points[k][j] - cloud.mean[j]);
            }
        }
        // Wider than what was found, so that the tails are drawn too.
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j <= i; ++j) {
                double rest = 1.4 * covariance[i][j] + (i == j ? 0.01 : 0.0);
                for (std::size_t k = 0; k < j; ++k)
                    rest -= cloud.root[i][k] * cloud.root[j][k];
                cloud.root[i][j] =
                    i == j ? std::sqrt(std::max(rest, 1e-6)) : rest / cloud.root[j][j];
            }
            cloud.log_determinant += std::log(cloud.root[i][i]);
        }
        return cloud;
    }

    void learn() {
        detail::CourseDice dice(20260314);
        const auto tempered = [](const std::vector<double>& base, const std::vector<double>& seen,
                                 double power) {
            std::vector<double> log_weights(base.size());
            for (std::size_t i = 0; i < base.size(); ++i)
                log_weights[i] = base[i] + power * seen[i];
            return log_weights;
        };
        detail::CourseCloud cloud;
        for (std::size_t i = 0; i < detail::course_dimensions; ++i)
            cloud.root[i][i] = 1.0;
        const int rounds = looks_.empty() ? 1 : 3;
        for (int round = 0; round < rounds; ++round) {
            const bool last = round + 1 == rounds;
            const std::size_t count = last ? 3000 : 1000;
            points_.resize(count);
            std::vector<double> base(count);
            std::vector<double> seen(count);
            for (std::size_t i = 0; i < count; ++i) {
                const bool from_prior = round == 0 || dice.uniform() < 0.15;
                if (from_prior) {
                    for (double& one : points_[i])
                        one = dice.normal();
                } else {
                    points_[i] = cloud.draw(dice);
                }
                const double prior = detail::prior_log_density(points_[i]);
                const double mixed =
                    round == 0 ? prior
                               : std::log(0.15 * std::exp(prior) +
                                          0.85 * std::exp(cloud.log_density(points_[i])) + 1e-300);
                base[i] = prior - mixed;
                seen[i] = log_likelihood(points_[i]);
            }
            weights_ = tempered(base, seen, 1.0);
            if (normalise(weights_) < 60.0 && !last) {
                double none = 0.0;
                double all = 1.0;
                for (int halving = 0; halving < 20; ++halving) {
                    const double power = 0.5 * (none + all);
                    weights_ = tempered(base, seen, power);
                    (normalise(weights_) < 60.0 ? all : none) = power;
                }
            }
            if (!last) cloud = cloud_of(points_, weights_);
        }
        own_.reserve(points_.size());
        for (const detail::CoursePoint& point : points_)
            own_.push_back(detail::bin_at(point));
    }

    std::vector<CourseFeeding> feedings_;
    std::vector<CourseLook> looks_;
    std::vector<detail::LeftTable> tables_;
    detail::NormalTable normal_;
    std::vector<detail::CoursePoint> points_;
    std::vector<double> weights_;
    std::vector<detail::CourseBin> own_;  ///< of the last points
};

}  // namespace feed
