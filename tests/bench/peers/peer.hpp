#pragma once
// Other solvers for small quadratic problems, each behind the same small face.
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "feed/solver/problem.hpp"

namespace feed_bench {

/// One problem in another solver's own form. What its memory needs is asked for in the constructor,
/// so that `solve` is what a user pays for one more problem of this size: everything that reads the
/// problem's numbers, factorisations included, from a cold start.
class Peer {
public:
    Peer() = default;
    Peer(const Peer&) = delete;
    Peer& operator=(const Peer&) = delete;
    virtual ~Peer() = default;

    /// @return whether the solver says that it has found the answer.
    virtual bool solve() = 0;
    /// The point it found.
    virtual std::span<const double> point() const = 0;
};

/// A problem as the methods of Goldfarb and Idnani want it: equalities first, then rows of the form
/// coefficients . x >= limit. An amount that is exact is an equality.
struct OneSided {
    explicit OneSided(const feed::solver::Problem& problem) : variables(problem.within.variable_count()) {
        for (const bool equalities : {true, false}) {
            const auto& within = problem.within;
            std::vector<double> unit(variables, 0.0);
            for (std::size_t j = 0; j < variables; ++j) {
                unit[j] = 1.0;
                add(unit.data(), within.lower[j], within.upper[j], equalities);
                unit[j] = 0.0;
            }
            for (std::size_t i = 0; i < within.row_count(); ++i) {
                add(within.rows.data() + i * variables, within.row_lower[i], within.row_upper[i],
                    equalities);
            }
        }
    }

    std::size_t variables;
    std::size_t equality_count = 0;
    std::vector<double> coefficients;  ///< one row after the other
    std::vector<double> limits;

private:
    void add(const double* row, double lower, double upper, bool equalities) {
        if ((lower == upper) != equalities) return;
        if (equalities) {
            append(row, 1.0, lower);
            ++equality_count;
            return;
        }
        if (lower > -feed::solver::infinity) append(row, 1.0, lower);
        if (upper < feed::solver::infinity) append(row, -1.0, -upper);
    }
    void append(const double* row, double sign, double limit) {
        for (std::size_t j = 0; j < variables; ++j)
            coefficients.push_back(sign * row[j]);
        limits.push_back(limit);
    }
};

/// The diagonal curvature as the full matrix that general solvers read.
inline std::vector<double> full_hessian(const feed::solver::Problem& problem) {
    const std::size_t n = problem.within.variable_count();
    std::vector<double> full(n * n, 0.0);
    for (std::size_t j = 0; j < n; ++j)
        full[j * n + j] = problem.hessian[j];
    return full;
}

inline std::vector<double> copy_of(std::span<const double> numbers) {
    return {numbers.begin(), numbers.end()};
}

std::unique_ptr<Peer> make_daqp(const feed::solver::Problem& problem);
std::unique_ptr<Peer> make_quadprog(const feed::solver::Problem& problem);
std::unique_ptr<Peer> make_eiquadprog(const feed::solver::Problem& problem);
std::unique_ptr<Peer> make_qpoases(const feed::solver::Problem& problem);
std::unique_ptr<Peer> make_piqp(const feed::solver::Problem& problem);

}  // namespace feed_bench
