#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "feed/bed/factor.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/bed/usual_bed.hpp"

// How many worms live in a bed, from counts of some samples of it.
namespace feed {

namespace census {

/// How clumped worms lie: the variance of a count is mean + clumping x mean^2 (negative binomial,
/// 1/k). Young earthworms are negative binomial, adults Poisson, that is 0 (Daniel et al. 1992,
/// Pedobiologia 36, 213-220, abstract); 12 counts of a worm farm gave 0.06 (a keeper's page, 2020).
inline constexpr Factor clumping{0.3, 0.06,     1.5,
                                 "",  Grade::d, "before any count: none to strong (judgement)"};
/// How far a sample may be from its size, and the bed from its volume, as a factor up or down that
/// holds 9 times of 10.
inline constexpr double measured_cup = 1.08;  // judgement
inline constexpr double bed_volume = 1.15;    // judgement

/// Standard deviations from the middle to either end of a 90 % interval.
inline constexpr double ends_90 = 1.6448536269514722;

}  // namespace census

/// Samples of one day.
struct CensusInput {
    std::vector<double> counts;      ///< worms in each sample, whole numbers from 0; at least 2
    Ranged sample_l{0.0, 0.0, 0.0};  ///< volume of each
    double bed_l = 0.0;              ///< volume of the bed
    Species species = Species::eisenia_fetida;
};

/// What the samples tell, with 90 % intervals.
struct WormCensus {
    std::size_t samples = 0;
    double counted = 0.0;
    Ranged a_litre;  ///< worms
    Ranged number;   ///< in the bed
    Ranged mass_kg;  ///< by the usual weight of a worm of mixed age
    double clumping = 0.0;
    /// Samples in all for an interval of half the width (as a factor); nothing where the size of
    /// samples and bed is what is not known well enough.
    std::optional<std::size_t> samples_to_halve;
};

namespace detail {

/// The likelihood of counts of a negative binomial, but for what does not move with its mean and
/// clumping, as a logarithm.
class CountLikelihood {
public:
    explicit CountLikelihood(std::span<const double> counts) : samples_(counts.size()) {
        for (const double count : counts) {
            sum_ += count;
            most_ = std::max(most_, static_cast<std::size_t>(count));
        }
        above_.assign(most_, 0.0);
        for (const double count : counts) {
            for (std::size_t j = 0; j < static_cast<std::size_t>(count); ++j)
                above_[j] += 1.0;
        }
    }

    /// What moves with the clumping alone.
    [[nodiscard]] double of_clumping(double clumping) const {
        double sum = 0.0;
        for (std::size_t j = 1; j < most_; ++j)
            sum += above_[j] * std::log1p(clumping * static_cast<double>(j));
        return sum;
    }
    /// The rest. @param mean  above 0.
    [[nodiscard]] double of_mean(double mean, double clumping) const noexcept {
        return sum_ * std::log(mean) -
               (sum_ + static_cast<double>(samples_) / clumping) * std::log1p(clumping * mean);
    }

private:
    std::size_t samples_;
    double sum_ = 0.0;
    std::size_t most_ = 0;
    std::vector<double> above_;  ///< samples with more than so many worms
};

/// Standard deviation of the logarithm of what lies within a range 9 times of 10.
inline double log_spread(double low, double high) {
    return low > 0.0 && high > low ? std::log(high / low) / (2.0 * census::ends_90) : 0.0;
}

inline constexpr std::size_t mean_points = 161;
inline constexpr std::size_t clumping_points = 25;

/// The mean count with its interval and the clumping: their distribution given the counts, on a
/// grid. Before any count the logarithm of the clumping is normal, and the mean as Jeffreys has it
/// for a Poisson count.
struct MeanCount {
    Ranged mean;
    double clumping = 0.0;
};
inline MeanCount mean_count(std::span<const double> counts) {
    const CountLikelihood likelihood(counts);
    double sum = 0.0;
    for (const double count : counts)
        sum += count;
    const auto samples = static_cast<double>(counts.size());
    const double middle = std::log((sum + 0.5) / samples);
    // As wide as the strongest clumping makes it, six deviations either way.
    const double reach =
        6.0 * std::sqrt(1.0 / (sum + 0.5) + 2.0 * census::clumping.high / samples) + 1.0;
    const double spread = log_spread(census::clumping.low, census::clumping.high);
    std::array<double, mean_points> weight{};
    double clumping_sum = 0.0;
    double total = 0.0;
    double best = -1e300;
    std::array<std::array<double, mean_points>, clumping_points> logs{};
    std::array<double, clumping_points> clumpings{};
    for (std::size_t c = 0; c < clumping_points; ++c) {
        const double z = -3.0 + 6.0 * static_cast<double>(c) / (clumping_points - 1);
        clumpings[c] = census::clumping.value * std::exp(z * spread);
        const double alone = likelihood.of_clumping(clumpings[c]) - 0.5 * z * z;
        for (std::size_t m = 0; m < mean_points; ++m) {
            const double x =
                middle - reach + 2.0 * reach * static_cast<double>(m) / (mean_points - 1);
            logs[c][m] = alone + likelihood.of_mean(std::exp(x), clumpings[c]) + 0.5 * x;
            best = std::max(best, logs[c][m]);
        }
    }
    for (std::size_t c = 0; c < clumping_points; ++c) {
        for (std::size_t m = 0; m < mean_points; ++m) {
            const double w = std::exp(logs[c][m] - best);
            weight[m] += w;
            clumping_sum += w * clumpings[c];
            total += w;
        }
    }
    const auto at = [&](double share) {
        double below = 0.0;
        for (std::size_t m = 0; m < mean_points; ++m) {
            const double next = below + weight[m] / total;
            if (next < share) {
                below = next;
                continue;
            }
            const double part = (share - below) / (next - below) - 0.5;
            const double step = 2.0 * reach / (mean_points - 1);
            return std::exp(middle - reach + step * (static_cast<double>(m) + part));
        }
        return std::exp(middle + reach);
    };
    return {{at(0.5), at(0.05), at(0.95)}, clumping_sum / total};
}

/// A factor with ends widened by what else is not known.
inline Ranged widened(const Ranged& r, double log_sd) {
    const auto end = [&](double log_reach) {
        return std::sqrt(log_reach * log_reach + std::pow(census::ends_90 * log_sd, 2.0));
    };
    return {r.value, r.value * std::exp(-end(std::log(r.value / r.low))),
            r.value * std::exp(end(std::log(r.high / r.value)))};
}

}  // namespace detail

/// Number and mass of the worms of a bed from counts of samples taken from all over it. Counts are
/// negative binomial with a clumping that they tell as far as they can; the sizes of sample and bed
/// widen the interval, the weight of a worm that of the mass. Where nothing was counted, the number
/// is what such samples may miss.
/// @param in  at least 2 counts of at least 0, volumes above 0. Threads: pure. Time: below 1 ms for
/// some tens of samples.
inline WormCensus worm_census(const CensusInput& in) {
    WormCensus census;
    census.samples = in.counts.size();
    for (const double count : in.counts)
        census.counted += count;
    const detail::MeanCount found = detail::mean_count(in.counts);
    census.clumping = found.clumping;
    const double size_sd = std::hypot(detail::log_spread(in.sample_l.low, in.sample_l.high),
                                      std::log(census::bed_volume) / census::ends_90);
    census.a_litre = (1.0 / in.sample_l.value) * found.mean;
    census.number = in.bed_l * detail::widened(census.a_litre, size_sd);
    const Factor& grams = usual::worm_grams[static_cast<std::size_t>(in.species)];
    const Ranged whole{census.number.value * grams.value / 1000.0,
                       census.number.low * grams.value / 1000.0,
                       census.number.high * grams.value / 1000.0};
    census.mass_kg = detail::widened(whole, detail::log_spread(grams.low, grams.high));
    // The variance of the logarithm: what more samples shrink, and what they do not.
    const double by_samples = std::pow(detail::log_spread(found.mean.low, found.mean.high), 2.0);
    const double stays = size_sd * size_sd;
    const double wanted = 0.25 * (by_samples + stays) - stays;
    if (wanted > 0.0)
        census.samples_to_halve = static_cast<std::size_t>(
            std::ceil(static_cast<double>(census.samples) * by_samples / wanted));
    return census;
}

}  // namespace feed
