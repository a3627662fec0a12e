#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "feed/bed/factor.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/bed/usual_bed.hpp"
#include "feed/quantity/normal.hpp"

// How many worms live in a bed, from counts of some samples of it.
namespace feed {

namespace census {

/// How far a sample may be from its size, and the bed from its volume, as a factor up or down that
/// holds 9 times of 10.
inline constexpr double measured_cup = 1.08;  // judgement
inline constexpr double bed_volume = 1.15;    // judgement

}  // namespace census

/// Samples of one day.
struct CensusInput {
    std::vector<double> counts;      ///< worms in each sample, whole numbers from 0; at least 2
    Ranged sample_l{0.0, 0.0, 0.0};  ///< volume of each
    double bed_l = 0.0;              ///< volume of the bed, at least that of all samples together
    Species species = Species::eisenia_fetida;
};

/// What the samples tell, with 90 % intervals.
struct WormCensus {
    std::size_t samples = 0;
    double counted = 0.0;
    Ranged a_litre;  ///< worms
    Ranged number;   ///< in the bed
    Ranged mass_kg;  ///< by the usual weight of a worm of mixed age
    /// How clumped the worms lie: the variance of the counts is mean + clumping x mean^2.
    double clumping = 0.0;
    /// Samples in all for an interval of half the width (as a factor); nothing where the size of
    /// samples and bed is what is not known well enough, or the bed has no room for so many.
    std::optional<std::size_t> samples_to_halve;
};

namespace detail {

/// Standard deviation of the logarithm of what lies within a range 9 times of 10.
inline double log_spread(double low, double high) {
    return low > 0.0 && high > low ? std::log(high / low) / (2.0 * normal_95) : 0.0;
}

/// The 95 % point of Student's t: the printed tables, between their rows by 1/degrees.
/// @param degrees  of freedom, at least 1.
inline double student_95(double degrees) noexcept {
    constexpr std::array<std::pair<double, double>, 13> rows{{{1.0, 6.314},
                                                              {2.0, 2.920},
                                                              {3.0, 2.353},
                                                              {4.0, 2.132},
                                                              {5.0, 2.015},
                                                              {6.0, 1.943},
                                                              {8.0, 1.860},
                                                              {10.0, 1.812},
                                                              {15.0, 1.753},
                                                              {20.0, 1.725},
                                                              {30.0, 1.697},
                                                              {60.0, 1.671},
                                                              {1e9, normal_95}}};
    for (std::size_t i = 1; i < rows.size(); ++i) {
        if (degrees > rows[i].first) continue;
        const double from = 1.0 / rows[i].first;
        const double part =
            std::clamp((1.0 / degrees - from) / (1.0 / rows[i - 1].first - from), 0.0, 1.0);
        return rows[i].second + part * (rows[i - 1].second - rows[i].second);
    }
    return rows.back().second;
}

/// Mean and variance of some counts, and from them how far the logarithm of the mean may be off.
struct CountSpread {
    double samples = 0.0;
    double mean = 0.0;      ///< with half a worm more, so that nothing found is not nothing there
    double variance = 0.0;  ///< of the counts
    double sample_share = 0.0;  ///< of the bed, of one sample

    /// What the counts scatter at least by chance alone is known; only the rest of the variance is
    /// told by so few of them.
    [[nodiscard]] double least_variance() const noexcept { return std::max(variance, mean); }
    /// Half of the 90 % interval of the logarithm of the mean with so many samples, where the
    /// sizes of sample and bed add a spread of their own that is known (Welch and Satterthwaite).
    [[nodiscard]] double reach(double with_samples, double size_sd) const noexcept {
        const double left = std::max(0.0, 1.0 - with_samples * sample_share);
        const double scale = left / (with_samples * mean * mean);
        const double all = least_variance() * scale + size_sd * size_sd;
        const double told = variance * scale;
        const double degrees =
            told > 0.0 ? std::min((with_samples - 1.0) * all * all / (told * told), 1e9) : 1e9;
        return student_95(degrees) * std::sqrt(all);
    }
};

inline CountSpread count_spread(const CensusInput& in) {
    CountSpread spread;
    spread.samples = static_cast<double>(in.counts.size());
    double sum = 0.0;
    for (const double count : in.counts)
        sum += count;
    for (const double count : in.counts)
        spread.variance += std::pow(count - sum / spread.samples, 2.0) / (spread.samples - 1.0);
    spread.mean = (sum + 0.5) / spread.samples;
    spread.sample_share = in.sample_l.value / in.bed_l;
    return spread;
}

inline Ranged times(double value, double log_reach) {
    return {value, value * std::exp(-log_reach), value * std::exp(log_reach)};
}

/// A factor with ends widened by what else is not known.
inline Ranged widened(const Ranged& r, double log_sd) {
    const auto end = [&](double log_reach) {
        return std::sqrt(log_reach * log_reach + std::pow(normal_95 * log_sd, 2.0));
    };
    return {r.value, r.value * std::exp(-end(std::log(r.value / r.low))),
            r.value * std::exp(end(std::log(r.high / r.value)))};
}

}  // namespace detail

/// Number and mass of the worms of a bed from counts of samples taken from all over it. Worms lie
/// in clumps, so the counts scatter more than by chance (young earthworms are negative binomial:
/// Daniel et al. 1992, Pedobiologia 36, 213-220, abstract); their own variance tells how much more,
/// and so few counts tell it so badly that the interval of the logarithm of the mean is one of
/// Student's t. What was looked at is no longer open; the sizes of sample and bed widen the
/// interval, the weight of a worm that of the mass. Where nothing was counted, the number is what
/// such samples may miss. Simulated beds: docs/worms.md.
/// @param in  at least 2 counts of at least 0, volumes above 0. Threads: pure. Time: below 0.1 ms.
inline WormCensus worm_census(const CensusInput& in) {
    WormCensus census;
    census.samples = in.counts.size();
    for (const double count : in.counts)
        census.counted += count;
    const detail::CountSpread spread = detail::count_spread(in);
    const double n = spread.samples;
    census.clumping = std::max(0.0, (spread.variance - spread.mean) / (spread.mean * spread.mean));
    const double size_sd = std::hypot(detail::log_spread(in.sample_l.low, in.sample_l.high),
                                      std::log(census::bed_volume) / normal_95);
    const double a_litre = spread.mean / in.sample_l.value;
    const double reach = spread.reach(n, size_sd);
    census.a_litre = detail::times(a_litre, spread.reach(n, 0.0));
    census.number = detail::times(a_litre * in.bed_l, reach);
    const Factor& grams = usual::worm_grams[static_cast<std::size_t>(in.species)];
    const Ranged whole = (grams.value / 1000.0) * census.number;
    census.mass_kg = detail::widened(whole, detail::log_spread(grams.low, grams.high));
    // What was counted is there.
    census.number.low = std::max(census.number.low, census.counted);
    census.number.value = std::max(census.number.value, census.counted);
    const auto most = static_cast<std::size_t>(std::min(in.bed_l / in.sample_l.value, 1000.0));
    for (auto more = static_cast<std::size_t>(n) + 1; more <= most; ++more) {
        if (spread.reach(static_cast<double>(more), size_sd) > 0.5 * reach) continue;
        census.samples_to_halve = more;
        break;
    }
    return census;
}

}  // namespace feed
