// NLopt's SLSQP on separable quadratic problems.
#include "others.hpp"

#if FEED_HAS_NLOPT
#include <nlopt.h>

#include <cmath>
#include <limits>
#include <vector>

namespace {

class Slsqp : public feed_bench::Other {
public:
    explicit Slsqp(const feed_test::GeneratedProblem& problem)
        : p_(problem),
          n_(problem.variables()),
          solver_(nlopt_create(NLOPT_LD_SLSQP, static_cast<unsigned>(n_))) {
        for (std::size_t i = 0; i < p_.row_count(); ++i) {
            if (std::isfinite(p_.row_lower[i])) add(i, -1, p_.row_lower[i]);
            if (std::isfinite(p_.row_upper[i])) add(i, 1, -p_.row_upper[i]);
        }
        nlopt_set_lower_bounds(solver_, p_.lower.data());
        nlopt_set_upper_bounds(solver_, p_.upper.data());
        nlopt_set_min_objective(solver_, objective, this);
        const std::vector<double> tolerance(offsets_.size(), 1e-9);
        nlopt_add_inequality_mconstraint(solver_, static_cast<unsigned>(offsets_.size()), limits,
                                         this, tolerance.data());
        nlopt_set_ftol_rel(solver_, 1e-10);
        nlopt_set_maxeval(solver_, 1000);
        for (std::size_t j = 0; j < n_; ++j) {
            start_.push_back(
                std::fmin(std::fmax(-p_.gradient[j] / p_.hessian[j], p_.lower[j]), p_.upper[j]));
        }
    }
    Slsqp(const Slsqp&) = delete;
    Slsqp& operator=(const Slsqp&) = delete;
    ~Slsqp() override { nlopt_destroy(solver_); }

    double solve() override {
        x_ = start_;
        double value = 0;
        const nlopt_result result = nlopt_optimize(solver_, x_.data(), &value);
        return result > 0 && result != NLOPT_MAXEVAL_REACHED
                   ? value
                   : std::numeric_limits<double>::quiet_NaN();
    }

private:
    void add(std::size_t row, double sign, double offset) {
        for (std::size_t j = 0; j < n_; ++j)
            coefficients_.push_back(sign * p_.rows[row * n_ + j]);
        offsets_.push_back(offset);
    }

    static double objective(unsigned n, const double* x, double* gradient, void* data) {
        const auto& p = static_cast<Slsqp*>(data)->p_;
        double sum = 0;
        for (std::size_t j = 0; j < n; ++j) {
            sum += (0.5 * p.hessian[j] * x[j] + p.gradient[j]) * x[j];
            if (gradient != nullptr) gradient[j] = p.hessian[j] * x[j] + p.gradient[j];
        }
        return sum;
    }

    static void limits(unsigned m, double* values, unsigned n, const double* x, double* gradients,
                       void* data) {
        const auto& self = *static_cast<Slsqp*>(data);
        for (std::size_t i = 0; i < m; ++i) {
            double sum = self.offsets_[i];
            for (std::size_t j = 0; j < n; ++j)
                sum += self.coefficients_[i * n + j] * x[j];
            values[i] = sum;
        }
        if (gradients == nullptr) return;
        for (std::size_t k = 0; k < self.coefficients_.size(); ++k)
            gradients[k] = self.coefficients_[k];
    }

    const feed_test::GeneratedProblem& p_;
    std::size_t n_;
    nlopt_opt solver_;
    std::vector<double> coefficients_, offsets_, start_, x_;
};

}  // namespace

std::unique_ptr<feed_bench::Other> feed_bench::make_nlopt_slsqp(
    const feed_test::GeneratedProblem& problem) {
    return std::make_unique<Slsqp>(problem);
}
#else
std::unique_ptr<feed_bench::Other> feed_bench::make_nlopt_slsqp(
    const feed_test::GeneratedProblem&) {
    return nullptr;
}
#endif
