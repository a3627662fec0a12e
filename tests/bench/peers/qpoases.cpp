// qpOASES: a parametric active-set method in C++.
#include <algorithm>
#include <qpOASES.hpp>

#include "peer.hpp"

namespace {

struct Form {
    explicit Form(const feed::solver::Problem& problem)
        : hessian(feed_bench::full_hessian(problem)),
          gradient(feed_bench::copy_of(problem.gradient)),
          rows(feed_bench::copy_of(problem.within.rows)),
          lower(limits(problem.within.lower)),
          upper(limits(problem.within.upper)),
          row_lower(limits(problem.within.row_lower)),
          row_upper(limits(problem.within.row_upper)) {}

    static std::vector<double> limits(std::span<const double> numbers) {
        std::vector<double> made;
        for (const double number : numbers)
            made.push_back(std::clamp(number, -qpOASES::INFTY, qpOASES::INFTY));
        return made;
    }

    std::vector<double> hessian, gradient, rows, lower, upper, row_lower, row_upper;
};

class QpOases : public feed_bench::Peer {
public:
    explicit QpOases(feed_bench::Problems problems)
        : forms_(problems.begin(), problems.end()),
          point_(forms_.front().lower.size()),
          solver_(static_cast<int>(forms_.front().lower.size()),
                  static_cast<int>(forms_.front().row_lower.size()), qpOASES::HST_POSDEF) {
        qpOASES::Options options;
        options.setToMPC();
        options.printLevel = qpOASES::PL_NONE;
        solver_.setOptions(options);
    }

    bool solve(std::size_t which) override {
        const Form& form = forms_[which];
        solver_.reset();
        solver_.setHessianType(qpOASES::HST_POSDEF);
        int steps = 1000;
        const auto said = solver_.init(form.hessian.data(), form.gradient.data(), form.rows.data(),
                                       form.lower.data(), form.upper.data(), form.row_lower.data(),
                                       form.row_upper.data(), steps);
        return said == qpOASES::SUCCESSFUL_RETURN &&
               solver_.getPrimalSolution(point_.data()) == qpOASES::SUCCESSFUL_RETURN;
    }
    std::span<const double> point(std::size_t /*which*/) const override { return point_; }

private:
    std::vector<Form> forms_;
    std::vector<double> point_;
    qpOASES::QProblem solver_;
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_qpoases(Problems problems) {
    return std::make_unique<QpOases>(problems);
}
