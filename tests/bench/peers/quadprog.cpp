// quadprog: the method of Goldfarb and Idnani in C, as the Python package of that name carries it.
#include <algorithm>

#include "peer.hpp"

extern "C" int qpgen2_(double* G, double* av, int n, double* xv, double* lagr, double* obj,
                       double* C, double* bv, int q, int meq, int* iact, int* nact, int* iter,
                       double* work, int factorized);

namespace {

class Quadprog : public feed_bench::Peer {
public:
    explicit Quadprog(const feed::solver::Problem& problem)
        : limits_(problem), hessian_(feed_bench::full_hessian(problem)) {
        const std::size_t n = limits_.variables;
        const std::size_t q = limits_.limits.size();
        const std::size_t r = std::min(n, q);
        for (const double slope : problem.gradient)
            minus_gradient_.push_back(-slope);
        point_.assign(n, 0.0);
        multipliers_.assign(q, 0.0);
        active_.assign(std::max(n, q), 0);
        work_.assign(2 * n + 2 * q + r * (r + 5) / 2, 0.0);
    }

    bool solve() override {
        // It writes over the matrix and the slopes.
        spent_hessian_ = hessian_;
        spent_gradient_ = minus_gradient_;
        double value = 0.0;
        int active_count = 0;
        int steps[2] = {0, 0};
        return qpgen2_(spent_hessian_.data(), spent_gradient_.data(),
                       static_cast<int>(point_.size()), point_.data(), multipliers_.data(), &value,
                       limits_.coefficients.data(), limits_.limits.data(),
                       static_cast<int>(limits_.limits.size()),
                       static_cast<int>(limits_.equality_count), active_.data(), &active_count,
                       steps, work_.data(), 0) == 0;
    }
    std::span<const double> point() const override { return point_; }

private:
    feed_bench::OneSided limits_;
    std::vector<double> hessian_, minus_gradient_, spent_hessian_, spent_gradient_;
    std::vector<double> point_, multipliers_, work_;
    std::vector<int> active_;
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_quadprog(const feed::solver::Problem& problem) {
    return std::make_unique<Quadprog>(problem);
}
