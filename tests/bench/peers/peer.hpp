#pragma once
// Other solvers for small quadratic problems, each behind the same small face.
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "feed/solver/problem.hpp"

namespace feed_bench {

using Problems = std::span<const feed::solver::Problem>;

/// Problems of one size in another solver's own form. The constructor asks for memory and copies
/// the numbers, so that `solve` is what a user pays for one more problem of this size: everything
/// that depends on its numbers, factorisations included, from a cold start. Where a solver's memory
/// fits all problems of the size, there is one for all.
class Peer {
public:
    Peer() = default;
    Peer(const Peer&) = delete;
    Peer& operator=(const Peer&) = delete;
    virtual ~Peer() = default;

    /// @return whether the solver says that it has found the answer of problem `which`.
    virtual bool solve(std::size_t which) = 0;
    /// The point it found for the problem that was solved last, which was `which`.
    virtual std::span<const double> point(std::size_t which) const = 0;
};

/// For a solver whose memory depends on how many amounts are exact: every problem has its own.
/// @tparam One  made from a problem; `solve` and `point` as in Peer.
template <class One>
class PeerPerProblem : public Peer {
public:
    explicit PeerPerProblem(Problems problems) {
        for (const auto& problem : problems)
            ones_.push_back(std::make_unique<One>(problem));
    }
    bool solve(std::size_t which) override { return ones_[which]->solve(); }
    std::span<const double> point(std::size_t which) const override {
        return ones_[which]->point();
    }

private:
    std::vector<std::unique_ptr<One>> ones_;
};

/// A problem as the methods of Goldfarb and Idnani want it: equalities first, then rows of the form
/// coefficients . x >= limit. An amount that is exact is an equality.
struct OneSided {
    explicit OneSided(const feed::solver::Problem& problem)
        : variables(problem.within.variable_count()) {
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

std::unique_ptr<Peer> make_daqp(Problems problems);
std::unique_ptr<Peer> make_quadprog(Problems problems);
std::unique_ptr<Peer> make_eiquadprog(Problems problems);
std::unique_ptr<Peer> make_qpoases(Problems problems);
std::unique_ptr<Peer> make_piqp(Problems problems);

}  // namespace feed_bench
