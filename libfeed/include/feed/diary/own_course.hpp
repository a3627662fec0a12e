#pragma once
// How food goes in this bin, learned from looks: points of the parameters, weighed by how well they
// explain what was seen. Fixed points and a fixed seed: the same looks give the same answer.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "feed/bed/pool_rates.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/diary/course_points.hpp"
#include "feed/quantity/sorted.hpp"

namespace feed {

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

/// The course of food in one bin. A value; copying copies some thousand points. Threads: const
/// members are pure.
class OwnCourse {
public:
    /// Learns. @param looks  any number; each names a feeding within `feedings`.
    /// Time: 5000 points x looks x 5; 26 weeks of looks take about 30 ms.
    OwnCourse(std::vector<CourseFeeding> feedings, std::vector<CourseLook> looks)
        : feedings_(std::move(feedings)), looks_(std::move(looks)) {
        detail::sort_by(looks_, [](const CourseLook& look) { return look.feeding; });
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
        const std::vector<std::array<double, 5>> weights = weights_by_node(feeding);
        std::vector<double> bins(bin_count);
        // The lowest bin holds what has not begun: all of it is left.
        const auto whole = [](double at) { return at <= lowest_bin + 1.0 / bins_per_unit; };
        const auto share = [&](double at) { return whole(at) ? 1.0 : tables_[feeding].exact(at); };
        const auto soft = [&](double at) { return whole(at) ? 1.0 : std::exp(-std::exp(at)); };
        std::vector<CourseLeft> left;
        left.reserve(days.size());
        for (std::size_t day = 0; day < days.size(); ++day) {
            fill(bins, weights, log_rate_of(feeding), days[day], effective_days[day]);
            const Ranged log_y = quantiles(bins);
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

    /// The chance of seeing as little as a look says, and as much, by all other looks.
    /// @param look  one of those learned from. Time: points x the looks at its feeding x 5.
    std::pair<double, double> chance_of(const CourseLook& look) const {
        const auto same = [&](const CourseLook& other) {
            return other.days == look.days && other.low == look.low && other.high == look.high &&
                   other.weighed == look.weighed;
        };
        std::vector<CourseLook> others;
        bool left_out = false;
        for (const CourseLook& other : looks_of(look.feeding)) {
            if (left_out || !same(other)) others.push_back(other);
            left_out = left_out || same(other);
        }
        double sum = 0.0;
        double little = 0.0;
        double much = 0.0;
        for (std::size_t i = 0; i < own_.size(); ++i) {
            const detail::CourseBin& bin = own_[i];
            const std::array<double, 5> without = seen_by_node(bin, others);
            std::array<double, 5> with = without;
            multiply_by(with, bin, look);
            double all = 0.0;
            for (const double one : with)
                all += one;
            if (!(all > 0.0)) continue;
            // What the look itself added to the weight of the point is taken out again.
            const double weight = weights_[i] / all;
            const double error = error_of(bin, look);
            for (std::size_t q = 0; q < without.size(); ++q) {
                const double left = left_by(bin, look, q);
                sum += weight * without[q];
                little += weight * without[q] * normal_((look.high - left) / error);
                much += weight * without[q] * (1.0 - normal_((look.low - left) / error));
            }
        }
        return {little / sum, much / sum};
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
        // By way of an int: a machine turns a double into one in a single step.
        bins[static_cast<std::size_t>(static_cast<int>(std::clamp(place, 0.0, last)))] += weight;
    }
    /// What each point weighs at each node of the spread, by the looks at one feeding.
    std::vector<std::array<double, 5>> weights_by_node(std::size_t feeding) const {
        const auto of_feeding = looks_of(feeding);
        std::vector<std::array<double, 5>> weights(own_.size());
        for (std::size_t i = 0; i < own_.size(); ++i) {
            const std::array<double, 5> share = seen_by_node(own_[i], of_feeding);
            double sum = 0.0;
            for (const double one : share)
                sum += one;
            if (!(sum > 0.0)) continue;
            for (std::size_t q = 0; q < share.size(); ++q)
                weights[i][q] = weights_[i] * share[q] / sum;
        }
        return weights;
    }

    /// The logarithm of the exponent on one day, by bins. A day at a time: its bins then stay in
    /// the nearest cache, and the points without a lag, half of them, share one logarithm.
    void fill(std::vector<double>& bins, const std::vector<std::array<double, 5>>& weights,
              double log_rate, double days, double effective_days) const {
        std::fill(bins.begin(), bins.end(), 0.0);
        const bool begun = days > 0.0 && effective_days > 0.0;
        const double log_whole = begun ? std::log(effective_days) : 0.0;
        for (std::size_t i = 0; i < own_.size(); ++i) {
            const detail::CourseBin& bin = own_[i];
            double log_y = -1e9;
            if (begun)
                log_y = bin.lag_days > 0.0
                            ? detail::log_exponent(bin, log_rate, days, effective_days)
                            : detail::log_exponent_at(bin, log_rate, log_whole);
            for (std::size_t q = 0; q < weights[i].size(); ++q)
                add(bins, log_y + bin.shape * spread(q), weights[i][q]);
        }
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

    static double error_of(const detail::CourseBin& bin, const CourseLook& look) noexcept {
        return look.weighed ? course_prior::weighed_over_eye * bin.error : bin.error;
    }

    /// What a keeper of this bin takes for the share left at a node of the spread.
    double left_by(const detail::CourseBin& bin, const CourseLook& look,
                   std::size_t q) const noexcept {
        const double log_y =
            detail::log_exponent(bin, log_rate_of(look.feeding), look.days, look.effective_days);
        return tables_[look.feeding](log_y + bin.shape * spread(q)) +
               (look.weighed ? 0.0 : bin.bias);
    }

    void multiply_by(std::array<double, 5>& product, const detail::CourseBin& bin,
                     const CourseLook& look) const noexcept {
        const double log_y =
            detail::log_exponent(bin, log_rate_of(look.feeding), look.days, look.effective_days);
        const detail::LeftTable& table = tables_[look.feeding];
        const double error = error_of(bin, look);
        const double bias = look.weighed ? 0.0 : bin.bias;
        for (std::size_t q = 0; q < product.size(); ++q) {
            const double left = table(log_y + bin.shape * spread(q)) + bias;
            const double seen =
                normal_((look.high - left) / error) - normal_((look.low - left) / error);
            // One look in a hundred is a slip of any size.
            product[q] *= 0.01 * std::min(1.0, look.high - look.low) + 0.99 * seen + 1e-12;
        }
    }

    /// Weight of each node of the spread: how well it explains the looks at one feeding.
    std::array<double, 5> seen_by_node(const detail::CourseBin& bin,
                                       std::span<const CourseLook> looks) const noexcept {
        std::array<double, 5> product = detail::spread_weight;
        for (const CourseLook& look : looks)
            multiply_by(product, bin, look);
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
