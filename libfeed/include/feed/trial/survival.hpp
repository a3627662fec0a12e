#pragma once
// Days until a feeding is gone, when some were still there at the last look.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace feed {

/// How long one feeding was watched.
struct TimeToGone {
    double days = 0.0;  ///< at least 0
    bool gone = true;   ///< false: still there at the last look (censored)
};

/// One step of a Kaplan-Meier curve.
struct SurvivalStep {
    double days = 0.0;
    std::size_t watched = 0;  ///< still there and watched just before
    std::size_t gone = 0;
    double share_left = 1.0;  ///< estimated share of feedings still there after this day
    /// Greenwood's standard error of `share_left`; nothing once the share is 0.
    std::optional<double> standard_error;
    double cumulative_hazard = 0.0;  ///< Nelson-Aalen
};

/// Kaplan-Meier curve: one step for each day on which a feeding was gone. On a tie "gone" comes
/// before "still there".
/// @param times  any order. Time n log n, one allocation of n entries besides the result.
/// Source: Kaplan & Meier 1958 (J. Am. Stat. Assoc. 53:457); Greenwood 1926 for the error.
inline std::vector<SurvivalStep> kaplan_meier(std::span<const TimeToGone> times) {
    std::vector<TimeToGone> sorted(times.begin(), times.end());
    std::sort(sorted.begin(), sorted.end(), [](const TimeToGone& a, const TimeToGone& b) {
        return a.days < b.days || (a.days == b.days && a.gone && !b.gone);
    });
    std::vector<SurvivalStep> steps;
    double share_left = 1.0;
    double hazard = 0.0;
    double greenwood = 0.0;
    for (std::size_t i = 0; i < sorted.size();) {
        const double now = sorted[i].days;
        const std::size_t watched = sorted.size() - i;
        std::size_t gone = 0;
        std::size_t next = i;
        for (; next < sorted.size() && sorted[next].days == now; ++next)
            gone += sorted[next].gone ? 1 : 0;
        if (gone > 0) {
            const auto n = static_cast<double>(watched);
            const auto d = static_cast<double>(gone);
            share_left *= (n - d) / n;
            hazard += d / n;
            SurvivalStep step{now, watched, gone, share_left, std::nullopt, hazard};
            if (gone < watched) {
                greenwood += d / (n * (n - d));
                step.standard_error = share_left * std::sqrt(greenwood);
            }
            steps.push_back(step);
        }
        i = next;
    }
    return steps;
}

/// First day on which at most half are estimated to be left; nothing when the curve stays above.
inline std::optional<double> median_days(std::span<const SurvivalStep> curve) {
    for (const SurvivalStep& step : curve) {
        // A hair of tolerance: (n - d) / n multiplied up may miss one half by rounding.
        if (step.share_left <= 0.5 + 1e-12) return step.days;
    }
    return std::nullopt;
}

/// Share of a chi-square distribution above x. Exact recurrence over the degrees of freedom.
/// @param degrees  at least 1.
inline double chi_square_above(double x, std::size_t degrees) {
    if (!(x > 0.0)) return 1.0;
    double above = degrees % 2 == 1 ? std::erfc(std::sqrt(0.5 * x)) : std::exp(-0.5 * x);
    double term = degrees % 2 == 1 ? std::exp(-0.5 * x) * std::sqrt(2.0 * x / 3.14159265358979324)
                                   : std::exp(-0.5 * x) * 0.5 * x;
    for (std::size_t reached = degrees % 2 == 1 ? 1 : 2; reached < degrees; reached += 2) {
        above += term;
        term *= x / static_cast<double>(reached + 2);
    }
    return above;
}

/// Whether feeds differ in how fast they are gone.
struct LogRank {
    std::vector<double> observed;  ///< gone, for each group
    std::vector<double> expected;  ///< for each group, if all were alike
    std::vector<double> variance;  ///< k times k, row after row
    double chi_square = 0.0;       ///< with the hypergeometric variance
    std::size_t degrees = 0;
    double p_value = 1.0;
};

/// Log-rank test of k groups. The statistic uses the hypergeometric variance, not the short-cut sum
/// of (O - E)^2 / E, which is smaller (16.79 against 15.23 for the classic leukaemia trial).
/// @param groups  at least 2.
/// @return degrees 0 and p 1 when nothing can be told (no group has both a loss and a rival).
/// Time: n log n + t k^2 for t different days. Source: Mantel 1966; Peto & Peto 1972 (J. R. Stat.
/// Soc. A 135:185).
inline LogRank log_rank(std::span<const std::span<const TimeToGone>> groups) {
    const std::size_t k = groups.size();
    struct Entry {
        double days;
        std::size_t group;
        bool gone;
    };
    std::vector<Entry> entries;
    std::vector<double> watched(k, 0.0);
    for (std::size_t g = 0; g < k; ++g) {
        watched[g] = static_cast<double>(groups[g].size());
        for (const TimeToGone& time : groups[g])
            entries.push_back({time.days, g, time.gone});
    }
    std::sort(entries.begin(), entries.end(),
              [](const Entry& a, const Entry& b) { return a.days < b.days; });
    LogRank test;
    test.observed.assign(k, 0.0);
    test.expected.assign(k, 0.0);
    test.variance.assign(k * k, 0.0);
    std::vector<double> leaving(k, 0.0);
    for (std::size_t i = 0; i < entries.size();) {
        double total = 0.0;
        for (const double n : watched)
            total += n;
        double gone = 0.0;
        std::fill(leaving.begin(), leaving.end(), 0.0);
        std::size_t next = i;
        for (; next < entries.size() && entries[next].days == entries[i].days; ++next) {
            leaving[entries[next].group] += 1.0;
            if (entries[next].gone) {
                gone += 1.0;
                test.observed[entries[next].group] += 1.0;
            }
        }
        if (gone > 0.0) {
            for (std::size_t g = 0; g < k; ++g)
                test.expected[g] += gone * watched[g] / total;
            if (total > 1.0) {
                const double spread = gone * (total - gone) / (total - 1.0);
                for (std::size_t g = 0; g < k; ++g) {
                    for (std::size_t h = 0; h < k; ++h) {
                        const double both = watched[g] / total * (watched[h] / total);
                        test.variance[g * k + h] +=
                            spread * ((g == h ? watched[g] / total : 0.0) - both);
                    }
                }
            }
        }
        for (std::size_t g = 0; g < k; ++g)
            watched[g] -= leaving[g];
        i = next;
    }
    // (O - E)' V^-1 (O - E) without the last group, by elimination; a group that carries no
    // information has a zero pivot and is passed over.
    const std::size_t size = k - 1;
    std::vector<double> matrix(size * size);
    std::vector<double> right(size);
    for (std::size_t g = 0; g < size; ++g) {
        right[g] = test.observed[g] - test.expected[g];
        for (std::size_t h = 0; h < size; ++h)
            matrix[g * size + h] = test.variance[g * k + h];
    }
    for (std::size_t g = 0; g < size; ++g) {
        const double pivot = matrix[g * size + g];
        if (pivot <= 1e-12 * (1.0 + test.variance[g * k + g])) continue;
        ++test.degrees;
        test.chi_square += right[g] * right[g] / pivot;
        for (std::size_t h = g + 1; h < size; ++h) {
            const double factor = matrix[h * size + g] / pivot;
            right[h] -= factor * right[g];
            for (std::size_t j = g; j < size; ++j)
                matrix[h * size + j] -= factor * matrix[g * size + j];
        }
    }
    if (test.degrees > 0) test.p_value = chi_square_above(test.chi_square, test.degrees);
    return test;
}

}  // namespace feed
