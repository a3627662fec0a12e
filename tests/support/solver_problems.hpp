#pragma once
// Generated problems for the solver, many with an answer that is known because it was planted.
//
// Planted data are small dyadic numbers, so that the planted point and multipliers satisfy the
// optimality conditions without any rounding.

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "feed/solver/problem.hpp"

namespace feed_test {

/// SplitMix64 (Steele, Lea, Flood 2014): the same numbers from every compiler and library.
class Random {
public:
    explicit Random(std::uint64_t seed) : state_(seed) {}

    std::uint64_t next() {
        state_ += 0x9e3779b97f4a7c15U;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }

    /// 0 .. count - 1.
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(next() % count); }
    bool chance(std::size_t in) { return below(in) == 0; }
    /// A double in [0, 1).
    double unit() { return static_cast<double>(next() >> 11U) * 0x1p-53; }
    double between(double low, double high) { return low + (high - low) * unit(); }
    /// A multiple of 1/4 in [-reach, reach].
    double quarter(int reach) {
        const std::size_t count = static_cast<std::size_t>(8 * reach + 1);
        return static_cast<double>(below(count)) / 4 - reach;
    }

private:
    std::uint64_t state_;
};

/// A problem that owns its numbers, and what is known of its answer.
struct GeneratedProblem {
    std::string kind;
    std::vector<double> hessian, gradient, lower, upper, rows, row_lower, row_upper;
    bool status_known = false;
    feed::solver::Status status = feed::solver::Status::solved;
    std::vector<double> planted;  ///< an optimal point, if one was planted.

    [[nodiscard]] std::size_t variables() const { return lower.size(); }
    [[nodiscard]] std::size_t row_count() const { return row_lower.size(); }
    [[nodiscard]] feed::solver::Polyhedron within() const {
        return {lower, upper, rows, row_lower, row_upper};
    }
    [[nodiscard]] feed::solver::Problem view() const { return {hessian, gradient, within()}; }

    void resize(std::size_t n, std::size_t m) {
        hessian.assign(n, 0);
        gradient.assign(n, 0);
        lower.assign(n, 0);
        upper.assign(n, feed::solver::infinity);
        rows.assign(n * m, 0);
        row_lower.assign(m, -feed::solver::infinity);
        row_upper.assign(m, feed::solver::infinity);
    }
};

enum class Curvature { none, some, all };

namespace generate {

using feed::solver::infinity;
using feed::solver::Status;

/// A point, active limits and multipliers are drawn; the gradient follows from them.
/// @param extra_active  how many more limits than needed hold the point (degenerate).
/// @param weak          in how many the multiplier of an active limit is zero (ties): one in
/// `weak`.
inline GeneratedProblem planted(Random& random, std::size_t n, std::size_t m, Curvature curvature,
                                std::size_t extra_active, std::size_t weak) {
    GeneratedProblem p;
    p.kind = "planted";
    p.resize(n, m);
    p.planted.resize(n);
    for (std::size_t j = 0; j < n; ++j) {
        if (curvature == Curvature::all || (curvature == Curvature::some && random.chance(2))) {
            p.hessian[j] = 0.25 * static_cast<double>(1 + random.below(16));
        }
        p.planted[j] = random.quarter(4);
    }
    for (double& entry : p.rows)
        entry = random.chance(3) ? 0.0 : random.quarter(3);
    std::vector<double> slope(n, 0.0);
    const std::size_t row_target = m == 0 ? 0 : random.below(m + 1);
    for (std::size_t i = 0; i < m; ++i) {
        double activity = 0;
        for (std::size_t j = 0; j < n; ++j)
            activity += p.rows[i * n + j] * p.planted[j];
        const bool active = i < row_target || i < extra_active;
        const double room = 0.25 * static_cast<double>(1 + random.below(40));
        double multiplier = 0;
        if (active) {
            multiplier =
                random.chance(weak) ? 0.0 : 0.25 * static_cast<double>(1 + random.below(12));
            switch (random.below(3)) {
                case 0:
                    p.row_lower[i] = activity;
                    p.row_upper[i] = random.chance(2) ? infinity : activity + room;
                    break;
                case 1:
                    p.row_upper[i] = activity;
                    p.row_lower[i] = random.chance(2) ? -infinity : activity - room;
                    multiplier = -multiplier;
                    break;
                default:
                    p.row_lower[i] = p.row_upper[i] = activity;
                    if (random.chance(2)) multiplier = -multiplier;
            }
        } else {
            if (random.chance(2)) p.row_lower[i] = activity - room;
            if (random.chance(2)) p.row_upper[i] = activity + room;
        }
        for (std::size_t j = 0; j < n; ++j)
            slope[j] += p.rows[i * n + j] * multiplier;
    }
    for (std::size_t j = 0; j < n; ++j) {
        const double room = 0.25 * static_cast<double>(1 + random.below(40));
        double multiplier =
            random.chance(weak) ? 0.0 : 0.25 * static_cast<double>(1 + random.below(12));
        switch (random.below(5)) {
            case 0:
            case 1:
                p.lower[j] = p.planted[j];
                p.upper[j] = random.chance(2) ? infinity : p.planted[j] + room;
                break;
            case 2:
                p.upper[j] = p.planted[j];
                p.lower[j] = random.chance(2) ? -infinity : p.planted[j] - room;
                multiplier = -multiplier;
                break;
            case 3:
                p.lower[j] = random.chance(2) ? -infinity : p.planted[j] - room;
                p.upper[j] = random.chance(2) ? infinity : p.planted[j] + room;
                multiplier = 0;
                break;
            default:
                p.lower[j] = p.upper[j] = p.planted[j];
                if (random.chance(2)) multiplier = -multiplier;
        }
        p.gradient[j] = slope[j] + multiplier - p.hessian[j] * p.planted[j];
    }
    p.status_known = true;
    p.status = Status::solved;
    return p;
}

/// The same with each variable in another unit, from a gram to ten tonnes, and rows likewise.
inline GeneratedProblem badly_scaled(Random& random, std::size_t n, std::size_t m,
                                     Curvature curvature) {
    GeneratedProblem p = planted(random, n, m, curvature, 0, 6);
    p.kind = "badly scaled";
    const double units[] = {0x1p-10, 0x1p-5, 1.0, 0x1p7, 0x1p13};
    for (std::size_t j = 0; j < n; ++j) {
        const double unit = units[random.below(5)];  // one new unit is `unit` old ones
        p.lower[j] /= unit;
        p.upper[j] /= unit;
        p.planted[j] /= unit;
        p.gradient[j] *= unit;
        p.hessian[j] *= unit * unit;
        for (std::size_t i = 0; i < m; ++i)
            p.rows[i * n + j] *= unit;
    }
    for (std::size_t i = 0; i < m; ++i) {
        const double unit = units[random.below(5)];
        p.row_lower[i] *= unit;
        p.row_upper[i] *= unit;
        for (std::size_t j = 0; j < n; ++j)
            p.rows[i * n + j] *= unit;
    }
    return p;
}

/// Rows that contradict: a positive combination of some rows and bounds demands more than it
/// allows, by `gap`.
inline GeneratedProblem contradicting(Random& random, std::size_t n, std::size_t m,
                                      Curvature curvature, double gap) {
    GeneratedProblem p = planted(random, n, m, curvature, 0, 4);
    p.kind = gap < 0.01 ? "tiny gap" : "contradicting";
    p.planted.clear();
    p.status = Status::infeasible;
    if (m < 2 || random.chance(4)) {
        // One variable against a row that is nothing but that variable.
        if (m == 0) {
            p.lower[0] = 0;
            p.upper[0] = -gap;
            return p;
        }
        const std::size_t j = random.below(n);
        for (std::size_t k = 0; k < n; ++k)
            p.rows[k] = k == j ? 1.0 : 0.0;
        p.lower[j] = random.chance(2) ? 0.0 : -infinity;
        p.upper[j] = 0;
        p.row_lower[0] = gap;
        p.row_upper[0] = infinity;
        return p;
    }
    // Row m-1 is a combination of rows before it, and its limit lies beyond what they allow.
    std::vector<double> sum(n, 0.0);
    double most = 0;
    const std::size_t parts = 1 + random.below(m - 1);
    for (std::size_t i = 0; i < parts; ++i) {
        const double weight = static_cast<double>(1 + random.below(3));
        if (p.row_upper[i] == infinity)
            p.row_upper[i] = p.row_lower[i] > -infinity ? p.row_lower[i] + 1 : 1;
        most += weight * p.row_upper[i];
        for (std::size_t j = 0; j < n; ++j)
            sum[j] += weight * p.rows[i * n + j];
    }
    for (std::size_t j = 0; j < n; ++j)
        p.rows[(m - 1) * n + j] = sum[j];
    p.row_lower[m - 1] = most + gap;
    p.row_upper[m - 1] = infinity;
    return p;
}

/// A linear fall along a ray that no limit meets.
inline GeneratedProblem endless(Random& random, std::size_t n, std::size_t m, Curvature curvature) {
    GeneratedProblem p = planted(random, n, m, curvature, 0, 3);
    p.kind = "endless";
    p.planted.clear();
    p.status = Status::unbounded;
    std::vector<double> ray(n, 0.0);
    bool moves = false;
    for (std::size_t j = 0; j < n; ++j) {
        if (p.hessian[j] == 0 && (random.chance(2) || j + 1 == n)) {
            ray[j] = random.chance(2) ? 1.0 : -1.0;
            moves = true;
        }
    }
    if (!moves) {
        p.hessian[0] = 0;
        ray[0] = 1;
    }
    double fall = 0;
    for (std::size_t j = 0; j < n; ++j) {
        if (ray[j] > 0) p.upper[j] = infinity;
        if (ray[j] < 0) p.lower[j] = -infinity;
        fall += p.gradient[j] * ray[j];
    }
    for (std::size_t j = 0; j < n; ++j) {
        if (ray[j] != 0 && fall >= 0) {
            p.gradient[j] -= ray[j] * (fall + 1);
            break;
        }
    }
    for (std::size_t i = 0; i < m; ++i) {
        double change = 0;
        for (std::size_t j = 0; j < n; ++j)
            change += p.rows[i * n + j] * ray[j];
        if (change > 0) p.row_upper[i] = infinity;
        if (change < 0) p.row_lower[i] = -infinity;
    }
    return p;
}

/// Only one point is feasible: n independent equalities, or opposed inequalities.
inline GeneratedProblem single_point(Random& random, std::size_t n, Curvature curvature) {
    GeneratedProblem p;
    p.kind = "single point";
    const std::size_t m = 2 * n;
    p.resize(n, m);
    p.planted.resize(n);
    for (std::size_t j = 0; j < n; ++j) {
        p.planted[j] = random.quarter(4);
        p.lower[j] = random.chance(2) ? -infinity : p.planted[j] - (random.chance(2) ? 1.0 : 0.0);
        p.gradient[j] = random.quarter(4);
        if (curvature != Curvature::none)
            p.hessian[j] = random.chance(2) && curvature == Curvature::some ? 0.0 : 1.0;
    }
    for (std::size_t i = 0; i < n; ++i) {
        double activity = 0;
        for (std::size_t j = 0; j <= i; ++j) {
            const double entry =
                j == i ? 0.25 * static_cast<double>(1 + random.below(12)) : random.quarter(2);
            p.rows[i * n + j] = entry;
            p.rows[(n + i) * n + j] = random.chance(2) ? entry : 2 * entry;
            activity += entry * p.planted[j];
        }
        double second = 0;
        for (std::size_t j = 0; j <= i; ++j)
            second += p.rows[(n + i) * n + j] * p.planted[j];
        // The second row may mix factors; only keep it opposed where it is a multiple of the first.
        bool multiple = true;
        const double factor = p.rows[(n + i) * n + i] / p.rows[i * n + i];
        for (std::size_t j = 0; j <= i; ++j)
            multiple = multiple && p.rows[(n + i) * n + j] == factor * p.rows[i * n + j];
        if (multiple) {
            p.row_lower[i] = activity;
            p.row_upper[n + i] = second;
        } else {
            p.row_lower[i] = p.row_upper[i] = activity;
            p.row_upper[n + i] = second + 1;
        }
    }
    p.status_known = true;
    p.status = Status::solved;
    return p;
}

/// A feeding to balance: windows on the ratio of carbon to nitrogen and on moisture, a total, and a
/// usual recipe. Carbon, nitrogen and moisture fractions are drawn from the ranges of kitchen
/// scraps, beddings and water.
inline GeneratedProblem kitchen(Random& random, std::size_t n, std::size_t extra_rows,
                                Curvature curvature) {
    GeneratedProblem p;
    p.kind = "kitchen";
    const std::size_t m = 5 + extra_rows;
    p.resize(n, m);
    const double low_ratio = 20;
    const double high_ratio = 50;
    const double low_moisture = 0.70;
    const double high_moisture = 0.85;
    double total = 0;
    for (std::size_t j = 0; j < n; ++j) {
        double moisture = 1;
        double carbon = 0;
        double nitrogen = 0;
        if (j % 3 == 0) {
            moisture = random.between(0.6, 0.95);
            carbon = random.between(0.38, 0.48);
            nitrogen = random.between(0.01, 0.04);
        } else if (j % 3 == 1 || random.chance(2)) {
            moisture = random.between(0.05, 0.12);
            carbon = random.between(0.38, 0.46);
            nitrogen = random.between(0.001, 0.01);
        }
        const double dry = 1 - moisture;
        p.rows[0 * n + j] = dry * (carbon - low_ratio * nitrogen);
        p.rows[1 * n + j] = dry * (carbon - high_ratio * nitrogen);
        p.rows[2 * n + j] = moisture - low_moisture;
        p.rows[3 * n + j] = moisture - high_moisture;
        p.rows[4 * n + j] = 1;
        for (std::size_t i = 5; i < m; ++i)
            p.rows[i * n + j] = random.between(0, 0.02);
        const double usual = random.between(0.05, 2.0);
        total += usual;
        p.upper[j] = usual * random.between(1.2, 4);
        if (curvature == Curvature::all) {
            p.hessian[j] = 1 / usual;
            p.gradient[j] = -1;
        } else if (j % 3 != 0) {
            p.gradient[j] = 1;
        }
        if (random.chance(5)) p.lower[j] = 0.5 * usual;
    }
    p.row_lower[0] = 0;
    p.row_upper[1] = 0;
    p.row_lower[2] = 0;
    p.row_upper[3] = 0;
    p.row_lower[4] = 0.5 * total;
    p.row_upper[4] = random.chance(2) ? 0.5 * total : infinity;
    for (std::size_t i = 5; i < m; ++i)
        p.row_upper[i] = 0.011 * total;
    return p;
}

}  // namespace generate

inline constexpr std::size_t generated_count = 2640;

/// Problem number `index`; sizes up to 12 variables and 24 rows, every kind in turn.
inline GeneratedProblem generated_problem(std::size_t index) {
    Random random(0x5eed0000U + index);
    const std::size_t n = 1 + random.below(12);
    const std::size_t m = random.below(13);
    const Curvature curvature = static_cast<Curvature>(random.below(3));
    switch (index % 11) {
        case 0:
            return generate::planted(random, n, m, Curvature::none, 0, 5);
        case 1:
            return generate::planted(random, n, m, Curvature::some, 0, 5);
        case 2:
            return generate::planted(random, n, m, Curvature::all, 0, 5);
        case 3: {
            GeneratedProblem p = generate::planted(random, n, n + 4, curvature, n + 4, 3);
            p.kind = "degenerate";
            return p;
        }
        case 4: {
            GeneratedProblem p = generate::planted(random, n, m, curvature, 2, 1);
            p.kind = "tied";
            return p;
        }
        case 5:
            return generate::badly_scaled(random, n, m, curvature);
        case 6:
            return generate::contradicting(random, n, m, curvature,
                                           0.25 * static_cast<double>(1 + random.below(8)));
        case 7:
            return generate::contradicting(random, n, m, curvature, 1e-4);
        case 8:
            return generate::endless(random, n, m,
                                     random.chance(2) ? Curvature::none : Curvature::some);
        case 9:
            return generate::single_point(random, 1 + random.below(6), curvature);
        default: {
            // One draw a statement: the order of draws among arguments is the compiler's choice.
            const std::size_t count = 3 + random.below(10);
            const std::size_t extra_rows = random.below(3);
            return generate::kitchen(random, count, extra_rows,
                                     random.chance(2) ? Curvature::all : Curvature::none);
        }
    }
}

}  // namespace feed_test
