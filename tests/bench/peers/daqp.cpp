// DAQP: a dual active-set method in C.
#include "peer.hpp"

extern "C" {
#include "api.h"
#include "auxiliary.h"
#include "utils.h"
}

#include <stdexcept>

namespace {

class Daqp : public feed_bench::Peer {
public:
    explicit Daqp(const feed::solver::Problem& problem)
        : hessian_(feed_bench::full_hessian(problem)),
          gradient_(feed_bench::copy_of(problem.gradient)),
          rows_(feed_bench::copy_of(problem.within.rows)),
          upper_(feed_bench::copy_of(problem.within.upper)),
          lower_(feed_bench::copy_of(problem.within.lower)) {
        const auto& within = problem.within;
        upper_.insert(upper_.end(), within.row_upper.begin(), within.row_upper.end());
        lower_.insert(lower_.end(), within.row_lower.begin(), within.row_lower.end());
        for (std::size_t i = 0; i < upper_.size(); ++i) {
            if (!(upper_[i] < DAQP_INF)) upper_[i] = DAQP_INF;
            if (!(lower_[i] > -DAQP_INF)) lower_[i] = -DAQP_INF;
        }
        sense_.assign(upper_.size(), 0);
        point_.assign(within.variable_count(), 0.0);
        multipliers_.assign(upper_.size(), 0.0);
        problem_.n = static_cast<int>(point_.size());
        problem_.m = static_cast<int>(upper_.size());
        problem_.ms = problem_.n;
        problem_.H = hessian_.data();
        problem_.f = gradient_.data();
        problem_.A = rows_.data();
        problem_.bupper = upper_.data();
        problem_.blower = lower_.data();
        problem_.sense = sense_.data();
        result_.x = point_.data();
        result_.lam = multipliers_.data();
        daqp_default_settings(&settings_);
        settings_.primal_tol = 1e-11;
        workspace_.settings = &settings_;
        if (setup_daqp(&problem_, &workspace_, nullptr) < 0) {
            throw std::runtime_error("DAQP does not take the problem");
        }
    }
    ~Daqp() override {
        workspace_.settings = nullptr;
        free_daqp_workspace(&workspace_);
        free_daqp_ldp(&workspace_);
    }

    bool solve() override {
        daqp_deactivate_constraints(&workspace_);
        constexpr int everything = DAQP_UPDATE_Rinv | DAQP_UPDATE_M | DAQP_UPDATE_v |
                                   DAQP_UPDATE_d | DAQP_UPDATE_sense | DAQP_UPDATE_unconstrained |
                                   DAQP_UPDATE_eliminate;
        if (daqp_update_ldp(everything, &workspace_, &problem_) < 0) return false;
        daqp_solve(&result_, &workspace_);
        return result_.exitflag == DAQP_EXIT_OPTIMAL;
    }
    std::span<const double> point() const override { return point_; }

private:
    std::vector<double> hessian_, gradient_, rows_, upper_, lower_, point_, multipliers_;
    std::vector<int> sense_;
    DAQPProblem problem_{};
    DAQPSettings settings_{};
    DAQPWorkspace workspace_{};
    DAQPResult result_{};
};

}  // namespace

std::unique_ptr<feed_bench::Peer> feed_bench::make_daqp(const feed::solver::Problem& problem) {
    return std::make_unique<Daqp>(problem);
}
