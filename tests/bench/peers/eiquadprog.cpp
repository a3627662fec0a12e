// eiquadprog: the method of Goldfarb and Idnani in C++ with Eigen.
#include <eiquadprog/eiquadprog-fast.hpp>

#include "peer.hpp"

namespace {

class One {
public:
    explicit One(const feed::solver::Problem& problem) {
        const feed_bench::OneSided limits(problem);
        const auto n = static_cast<Eigen::Index>(limits.variables);
        const auto equalities = static_cast<Eigen::Index>(limits.equality_count);
        const auto others = static_cast<Eigen::Index>(limits.limits.size()) - equalities;
        hessian_ = Eigen::MatrixXd::Zero(n, n);
        gradient_ = Eigen::VectorXd::Zero(n);
        equal_ = Eigen::MatrixXd::Zero(equalities, n);
        at_least_ = Eigen::MatrixXd::Zero(others, n);
        equal_constants_ = Eigen::VectorXd::Zero(equalities);
        at_least_constants_ = Eigen::VectorXd::Zero(others);
        for (Eigen::Index j = 0; j < n; ++j) {
            hessian_(j, j) = problem.hessian[static_cast<std::size_t>(j)];
            gradient_(j) = problem.gradient[static_cast<std::size_t>(j)];
        }
        for (Eigen::Index i = 0; i < equalities + others; ++i) {
            auto& rows = i < equalities ? equal_ : at_least_;
            auto& constants = i < equalities ? equal_constants_ : at_least_constants_;
            const Eigen::Index to = i < equalities ? i : i - equalities;
            for (Eigen::Index j = 0; j < n; ++j)
                rows(to, j) = limits.coefficients[static_cast<std::size_t>(i * n + j)];
            constants(to) = -limits.limits[static_cast<std::size_t>(i)];
        }
        point_ = Eigen::VectorXd::Zero(n);
        solver_.reset(static_cast<std::size_t>(n), static_cast<std::size_t>(equalities),
                      static_cast<std::size_t>(others));
    }

    bool solve() {
        return solver_.solve_quadprog(hessian_, gradient_, equal_, equal_constants_, at_least_,
                                      at_least_constants_,
                                      point_) == eiquadprog::solvers::EIQUADPROG_FAST_OPTIMAL;
    }
    std::span<const double> point() const {
        return {point_.data(), static_cast<std::size_t>(point_.size())};
    }

private:
    Eigen::MatrixXd hessian_, equal_, at_least_;
    Eigen::VectorXd gradient_, equal_constants_, at_least_constants_, point_;
    eiquadprog::solvers::EiquadprogFast solver_;
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_eiquadprog(Problems problems) {
    return std::make_unique<feed_bench::PeerPerProblem<One>>(problems);
}
