// quadprog: the method of Goldfarb and Idnani in C, as the Python package of that name carries it.
#include <algorithm>

#include "peer.hpp"

extern "C" int qpgen2_(double* G, double* av, int n, double* xv, double* lagr, double* obj,
                       double* C, double* bv, int q, int meq, int* iact, int* nact, int* iter,
                       double* work, int factorized);

namespace {

struct Form {
    explicit Form(const feed::solver::Problem& problem)
        : limits(problem), hessian(feed_bench::full_hessian(problem)) {
        for (const double slope : problem.gradient)
            minus_gradient.push_back(-slope);
    }

    feed_bench::OneSided limits;
    std::vector<double> hessian, minus_gradient;
};

class Quadprog : public feed_bench::Peer {
public:
    explicit Quadprog(feed_bench::Problems problems) {
        std::size_t most = 0;
        for (const auto& problem : problems) {
            forms_.emplace_back(problem);
            most = std::max(most, forms_.back().limits.limits.size());
        }
        const std::size_t n = forms_.front().limits.variables;
        const std::size_t fewer = std::min(n, most);
        point_.assign(n, 0.0);
        multipliers_.assign(most, 0.0);
        active_.assign(std::max(n, most), 0);
        work_.assign(2 * n + 2 * most + fewer * (fewer + 5) / 2, 0.0);
    }

    bool solve(std::size_t which) override {
        Form& form = forms_[which];
        // It writes over the matrix and the slopes.
        spent_hessian_ = form.hessian;
        spent_gradient_ = form.minus_gradient;
        double value = 0.0;
        int active_count = 0;
        int steps[2] = {0, 0};
        return qpgen2_(spent_hessian_.data(), spent_gradient_.data(),
                       static_cast<int>(point_.size()), point_.data(), multipliers_.data(), &value,
                       form.limits.coefficients.data(), form.limits.limits.data(),
                       static_cast<int>(form.limits.limits.size()),
                       static_cast<int>(form.limits.equality_count), active_.data(), &active_count,
                       steps, work_.data(), 0) == 0;
    }
    std::span<const double> point(std::size_t /*which*/) const override { return point_; }

private:
    std::vector<Form> forms_;
    std::vector<double> spent_hessian_, spent_gradient_, point_, multipliers_, work_;
    std::vector<int> active_;
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_quadprog(Problems problems) {
    return std::make_unique<Quadprog>(problems);
}
