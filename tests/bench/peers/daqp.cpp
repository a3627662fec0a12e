// DAQP: a dual active-set method in C.
#include "peer.hpp"

extern "C" {
#include "api.h"
#include "auxiliary.h"
#include "utils.h"
}

#include <stdexcept>

namespace {

/// The arrays of one problem; `form` points into them.
struct Form {
    explicit Form(const feed::solver::Problem& problem)
        : hessian(feed_bench::full_hessian(problem)),
          gradient(feed_bench::copy_of(problem.gradient)),
          rows(feed_bench::copy_of(problem.within.rows)),
          upper(feed_bench::copy_of(problem.within.upper)),
          lower(feed_bench::copy_of(problem.within.lower)) {
        const auto& within = problem.within;
        upper.insert(upper.end(), within.row_upper.begin(), within.row_upper.end());
        lower.insert(lower.end(), within.row_lower.begin(), within.row_lower.end());
        for (std::size_t i = 0; i < upper.size(); ++i) {
            if (!(upper[i] < DAQP_INF)) upper[i] = DAQP_INF;
            if (!(lower[i] > -DAQP_INF)) lower[i] = -DAQP_INF;
        }
        form.n = static_cast<int>(within.variable_count());
        form.m = static_cast<int>(upper.size());
        form.ms = form.n;
        form.H = hessian.data();
        form.f = gradient.data();
        form.A = rows.data();
        form.bupper = upper.data();
        form.blower = lower.data();
    }

    std::vector<double> hessian, gradient, rows, upper, lower;
    DAQPProblem form{};
};

class Daqp : public feed_bench::Peer {
public:
    explicit Daqp(feed_bench::Problems problems) {
        forms_.reserve(problems.size());
        for (const auto& problem : problems)
            forms_.emplace_back(problem);
        point_.assign(static_cast<std::size_t>(forms_.front().form.n), 0.0);
        multipliers_.assign(static_cast<std::size_t>(forms_.front().form.m), 0.0);
        result_.x = point_.data();
        result_.lam = multipliers_.data();
        daqp_default_settings(&settings_);
        settings_.primal_tol = 1e-11;
        workspace_.settings = &settings_;
        if (setup_daqp(&forms_.front().form, &workspace_, nullptr) < 0) {
            throw std::runtime_error("DAQP does not take the problem");
        }
    }
    ~Daqp() override {
        workspace_.settings = nullptr;
        free_daqp_workspace(&workspace_);
        free_daqp_ldp(&workspace_);
    }

    bool solve(std::size_t which) override {
        daqp_deactivate_constraints(&workspace_);
        constexpr int everything = DAQP_UPDATE_Rinv | DAQP_UPDATE_M | DAQP_UPDATE_v |
                                   DAQP_UPDATE_d | DAQP_UPDATE_sense | DAQP_UPDATE_unconstrained |
                                   DAQP_UPDATE_eliminate;
        if (daqp_update_ldp(everything, &workspace_, &forms_[which].form) < 0) return false;
        daqp_solve(&result_, &workspace_);
        return result_.exitflag == DAQP_EXIT_OPTIMAL;
    }
    std::span<const double> point(std::size_t /*which*/) const override { return point_; }

private:
    std::vector<Form> forms_;
    std::vector<double> point_, multipliers_;
    DAQPSettings settings_{};
    DAQPWorkspace workspace_{};
    DAQPResult result_{};
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_daqp(Problems problems) {
    return std::make_unique<Daqp>(problems);
}
