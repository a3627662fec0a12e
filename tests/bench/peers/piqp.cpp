// PIQP: a proximal interior-point method in C++ with Eigen.
#include <algorithm>
#include <piqp/piqp.hpp>

#include "peer.hpp"

namespace {

class One {
public:
    explicit One(const feed::solver::Problem& problem) {
        const auto& within = problem.within;
        const auto n = static_cast<Eigen::Index>(within.variable_count());
        std::vector<std::size_t> exact;
        for (std::size_t j = 0; j < within.variable_count(); ++j) {
            if (within.lower[j] == within.upper[j]) exact.push_back(j);
        }
        const auto m = static_cast<Eigen::Index>(within.row_count());
        hessian_ = Eigen::MatrixXd::Zero(n, n);
        gradient_ = read(problem.gradient);
        lower_ = read(within.lower);
        upper_ = read(within.upper);
        row_lower_ = read(within.row_lower);
        row_upper_ = read(within.row_upper);
        rows_ = Eigen::MatrixXd::Zero(m, n);
        for (Eigen::Index j = 0; j < n; ++j)
            hessian_(j, j) = problem.hessian[static_cast<std::size_t>(j)];
        for (Eigen::Index i = 0; i < m; ++i) {
            for (Eigen::Index j = 0; j < n; ++j)
                rows_(i, j) = within.rows[static_cast<std::size_t>(i * n + j)];
        }
        // Exact amounts leave a barrier no room; they are equalities here.
        equal_ = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(exact.size()), n);
        equal_to_ = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(exact.size()));
        for (std::size_t k = 0; k < exact.size(); ++k) {
            const auto row = static_cast<Eigen::Index>(k);
            const auto column = static_cast<Eigen::Index>(exact[k]);
            equal_(row, column) = 1.0;
            equal_to_(row) = within.lower[exact[k]];
            lower_(column) = -PIQP_INF;
            upper_(column) = PIQP_INF;
        }
        // Looser ones leave more answers further than 1e-9 kg from the exact ones.
        solver_.settings().eps_abs = 1e-13;
        solver_.settings().eps_rel = 1e-13;
        solver_.settings().eps_duality_gap_abs = 1e-13;
        solver_.settings().eps_duality_gap_rel = 1e-13;
        solver_.setup(hessian_, gradient_, equal_, equal_to_, rows_, row_lower_, row_upper_, lower_,
                      upper_);
    }

    bool solve() {
        solver_.update(hessian_, gradient_, equal_, equal_to_, rows_, row_lower_, row_upper_,
                       lower_, upper_);
        return solver_.solve() == piqp::PIQP_SOLVED;
    }
    std::span<const double> point() const {
        const auto& x = solver_.result().x;
        return {x.data(), static_cast<std::size_t>(x.size())};
    }

private:
    static Eigen::VectorXd read(std::span<const double> numbers) {
        Eigen::VectorXd made(static_cast<Eigen::Index>(numbers.size()));
        for (std::size_t k = 0; k < numbers.size(); ++k)
            made(static_cast<Eigen::Index>(k)) = std::clamp(numbers[k], -PIQP_INF, PIQP_INF);
        return made;
    }

    Eigen::MatrixXd hessian_, rows_, equal_;
    Eigen::VectorXd gradient_, lower_, upper_, row_lower_, row_upper_, equal_to_;
    piqp::DenseSolver<double> solver_;
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_piqp(Problems problems) {
    return std::make_unique<feed_bench::PeerPerProblem<One>>(problems);
}
