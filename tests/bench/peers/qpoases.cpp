// qpOASES: a parametric active-set method in C++.
#include <algorithm>
#include <qpOASES.hpp>

#include "peer.hpp"

namespace {

class QpOases : public feed_bench::Peer {
public:
    explicit QpOases(const feed::solver::Problem& problem)
        : hessian_(feed_bench::full_hessian(problem)),
          gradient_(feed_bench::copy_of(problem.gradient)),
          rows_(feed_bench::copy_of(problem.within.rows)),
          lower_(limits(problem.within.lower)),
          upper_(limits(problem.within.upper)),
          row_lower_(limits(problem.within.row_lower)),
          row_upper_(limits(problem.within.row_upper)),
          solver_(static_cast<int>(lower_.size()), static_cast<int>(row_lower_.size()),
                  qpOASES::HST_POSDEF) {
        qpOASES::Options options;
        options.setToMPC();
        options.printLevel = qpOASES::PL_NONE;
        solver_.setOptions(options);
        point_.assign(lower_.size(), 0.0);
    }

    bool solve() override {
        solver_.reset();
        solver_.setHessianType(qpOASES::HST_POSDEF);
        int steps = 1000;
        const auto said = solver_.init(hessian_.data(), gradient_.data(), rows_.data(),
                                       lower_.data(), upper_.data(), row_lower_.data(),
                                       row_upper_.data(), steps);
        return said == qpOASES::SUCCESSFUL_RETURN &&
               solver_.getPrimalSolution(point_.data()) == qpOASES::SUCCESSFUL_RETURN;
    }
    std::span<const double> point() const override { return point_; }

private:
    static std::vector<double> limits(std::span<const double> numbers) {
        std::vector<double> made;
        for (const double number : numbers)
            made.push_back(std::clamp(number, -qpOASES::INFTY, qpOASES::INFTY));
        return made;
    }

    std::vector<double> hessian_, gradient_, rows_, lower_, upper_, row_lower_, row_upper_, point_;
    qpOASES::QProblem solver_;
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_qpoases(const feed::solver::Problem& problem) {
    return std::make_unique<QpOases>(problem);
}
