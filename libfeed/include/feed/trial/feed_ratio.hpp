#pragma once
// How many times as long one feed takes as another, and how sure that is.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "feed/trial/time_model.hpp"

namespace feed {

/// What a trial says of two feeds. A ratio below 1: the first is the quicker.
struct FeedRatio {
    std::size_t first = 0;
    std::size_t second = 1;
    double ratio = 1.0;  ///< time of the first over time of the second, median
    double low = 1.0;    ///< 90 % interval
    double high = 1.0;
    double log_sd = 0.0;                ///< of the logarithm of the ratio
    double surety_first_quicker = 0.5;  ///< chance that the true ratio is below 1
    double next_first_quicker = 0.5;    ///< chance that the first goes first in the next pair
    double spread = 0.35;               ///< log sd between like portions, mean
};

namespace detail {

/// One spread of the grid with its weight and the shape of the difference there.
struct SpreadPoint {
    double sigma = 0.35;
    double log_weight = 0.0;
};

/// Log prior of a spread, up to a constant, per unit of log spread.
inline double log_spread_prior(double sigma, const RatioPrior& prior) {
    const double off = std::log(sigma / prior.spread_median) / prior.spread_log_sd;
    return -0.5 * off * off;
}

/// Spreads that matter, found in two passes over the logarithm of the spread.
inline std::vector<SpreadPoint> spread_grid(PeakFinder& finder, const FeedMap& map,
                                            const RatioPrior& prior) {
    const auto weigh = [&](double middle, double step, int reach) {
        std::vector<SpreadPoint> points;
        for (int i = -reach; i <= reach; ++i) {
            SpreadPoint point;
            point.sigma = std::exp(middle + step * i);
            const Peak peak = finder.find(point.sigma, map);
            point.log_weight =
                peak.log_height - 0.5 * peak.log_determinant + log_spread_prior(point.sigma, prior);
            points.push_back(point);
        }
        return points;
    };
    const auto coarse = weigh(std::log(prior.spread_median), 0.6 * prior.spread_log_sd, 6);
    double highest = coarse[0].log_weight;
    for (const auto& point : coarse)
        highest = std::max(highest, point.log_weight);
    double sum = 0.0;
    double mean = 0.0;
    double square = 0.0;
    for (const auto& point : coarse) {
        const double weight = std::exp(point.log_weight - highest);
        const double at = std::log(point.sigma);
        sum += weight;
        mean += weight * at;
        square += weight * at * at;
    }
    mean /= sum;
    const double sd = std::sqrt(std::max(square / sum - mean * mean, 0.01));
    return weigh(mean, 0.75 * sd, 4);
}

/// Nodes at which the density of a difference is evaluated, in standard deviations from its peak.
inline constexpr std::array<double, 13> difference_nodes{-6.0, -4.5, -3.2, -2.2, -1.4, -0.7, 0.0,
                                                         0.7,  1.4,  2.2,  3.2,  4.5,  6.0};

/// A log density between its nodes: what it differs from a normal one, by cubic (Lagrange) pieces
/// through the four nearest nodes.
class NodeDensity {
public:
    double peak = 0.0;
    double sd = 1.0;
    std::array<double, difference_nodes.size()> excess{};

    double log_at(double difference) const noexcept {
        const double at =
            std::clamp((difference - peak) / sd, difference_nodes.front(), difference_nodes.back());
        std::size_t first = 0;
        while (first + 4 < difference_nodes.size() && difference_nodes[first + 2] < at)
            ++first;
        double sum = 0.0;
        for (std::size_t i = first; i < first + 4; ++i) {
            double part = excess[i];
            for (std::size_t j = first; j < first + 4; ++j) {
                if (j != i)
                    part *=
                        (at - difference_nodes[j]) / (difference_nodes[i] - difference_nodes[j]);
            }
            sum += part;
        }
        const double z = (difference - peak) / sd;
        return sum - 0.5 * z * z;
    }
};

/// The density of the log ratio of two feeds at one spread: at every node the other effects are
/// put at their best and integrated by Laplace's method.
/// Source: Tierney & Kadane 1986 (J. Am. Stat. Assoc. 81:82).
inline NodeDensity difference_density(PeakFinder& finder, const FeedMap& free, std::size_t first,
                                      std::size_t second, std::size_t feeds, double sigma) {
    const Peak whole = finder.find(sigma, free);
    NodeDensity density;
    density.peak = whole.shared[first] - whole.shared[second];
    density.sd = std::sqrt(whole.covariance[first][first] + whole.covariance[second][second] -
                           2.0 * whole.covariance[first][second]);
    FeedMap tied;
    tied.parameters = feeds - 1;
    std::size_t next = 1;
    for (std::size_t feed = 0; feed < feeds; ++feed)
        tied.parameter[feed] = feed == first || feed == second ? 0 : next++;
    finder.reset();
    for (std::size_t i = 0; i < difference_nodes.size(); ++i) {
        const double difference = density.peak + density.sd * difference_nodes[i];
        tied.offset[first] = 0.5 * difference;
        tied.offset[second] = -0.5 * difference;
        const Peak peak = finder.find(sigma, tied);
        const double z = difference_nodes[i];
        density.excess[i] = peak.log_height - 0.5 * peak.log_determinant + 0.5 * z * z;
    }
    finder.reset();
    return density;
}

/// Quantiles, surety and the next pair from the densities of all spreads.
inline void sum_up(std::span<const SpreadPoint> points, std::span<const NodeDensity> densities,
                   FeedRatio& ratio) {
    constexpr std::size_t steps = 600;
    double from = densities[0].peak;
    double to = from;
    double highest = -std::numeric_limits<double>::infinity();
    for (std::size_t s = 0; s < densities.size(); ++s) {
        from = std::min(from, densities[s].peak - 6.0 * densities[s].sd);
        to = std::max(to, densities[s].peak + 6.0 * densities[s].sd);
        highest = std::max(highest, densities[s].excess[6] + points[s].log_weight);
    }
    const double width = (to - from) / static_cast<double>(steps);
    std::array<double, steps> mass{};
    double whole = 0.0;
    double below = 0.0;
    double next = 0.0;
    double mean = 0.0;
    double square = 0.0;
    double spread = 0.0;
    for (std::size_t s = 0; s < densities.size(); ++s) {
        const double pair_sd = 1.4142135623730951 * points[s].sigma;
        for (std::size_t i = 0; i < steps; ++i) {
            const double at = from + width * (static_cast<double>(i) + 0.5);
            const double z = (at - densities[s].peak) / densities[s].sd;
            if (z < -6.0 || z > 6.0) continue;
            const double part = std::exp(densities[s].log_at(at) + points[s].log_weight - highest);
            mass[i] += part;
            whole += part;
            // The cell about zero counts in part.
            below += part * std::clamp(0.5 - at / width, 0.0, 1.0);
            next += part * normal_below(-at / pair_sd);
            mean += part * at;
            square += part * at * at;
            spread += part * points[s].sigma;
        }
    }
    const auto quantile = [&](double share) {
        double reached = 0.0;
        for (std::size_t i = 0; i < steps; ++i) {
            if (reached + mass[i] >= share * whole)
                return from +
                       width * (static_cast<double>(i) + (share * whole - reached) / mass[i]);
            reached += mass[i];
        }
        return to;
    };
    ratio.ratio = std::exp(quantile(0.5));
    ratio.low = std::exp(quantile(0.05));
    ratio.high = std::exp(quantile(0.95));
    ratio.surety_first_quicker = below / whole;
    ratio.next_first_quicker = next / whole;
    ratio.spread = spread / whole;
    mean /= whole;
    ratio.log_sd = std::sqrt(std::max(0.0, square / whole - mean * mean));
}

}  // namespace detail

/// The ratio of the times of each pair of feeds: log-normal times with an effect of each bin (and
/// of each round in `alone`), of which the looks on both sides are known. Deterministic: a grid
/// over the spread between like portions, and along the ratio Laplace's method for all else.
/// @param intervals  one for each plot; a plot that was never looked at has `after_days` 0 and no
/// `by_days`, and says nothing.
/// Time: a few milliseconds a pair.
inline std::vector<FeedRatio> feed_ratios(const TrialLayout& layout,
                                          std::span<const PlotInterval> intervals,
                                          const RatioPrior& prior = {}) {
    const detail::TimeData data = detail::time_data(layout, intervals);
    detail::PeakFinder finder(data, prior);
    detail::FeedMap free;
    free.parameters = data.feeds;
    auto points = detail::spread_grid(finder, free, prior);
    double highest = points[0].log_weight;
    for (const auto& point : points)
        highest = std::max(highest, point.log_weight);
    // What weighs less than a thousandth of the largest moves no figure that is shown.
    points.erase(std::remove_if(points.begin(), points.end(),
                                [&](const detail::SpreadPoint& point) {
                                    return point.log_weight < highest - 7.0;
                                }),
                 points.end());
    std::vector<FeedRatio> ratios;
    std::vector<detail::NodeDensity> densities;
    for (std::size_t first = 0; first < data.feeds; ++first) {
        for (std::size_t second = first + 1; second < data.feeds; ++second) {
            densities.clear();
            auto weighed = points;
            for (auto& point : weighed) {
                densities.push_back(detail::difference_density(finder, free, first, second,
                                                               data.feeds, point.sigma));
                // The densities carry the likelihood themselves: the prior is left.
                point.log_weight = detail::log_spread_prior(point.sigma, prior);
            }
            FeedRatio ratio;
            ratio.first = first;
            ratio.second = second;
            detail::sum_up(weighed, densities, ratio);
            ratios.push_back(ratio);
        }
    }
    return ratios;
}

}  // namespace feed
