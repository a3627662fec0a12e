// GLPK's simplex method on linear problems.
#include "others.hpp"

#if FEED_HAS_GLPK
#include <glpk.h>

#include <cmath>
#include <limits>
#include <vector>

namespace {

int kind(double low, double high) {
    if (low == high) return GLP_FX;
    if (std::isfinite(low)) return std::isfinite(high) ? GLP_DB : GLP_LO;
    return std::isfinite(high) ? GLP_UP : GLP_FR;
}

class Glpk : public feed_bench::Other {
public:
    explicit Glpk(const feed_test::GeneratedProblem& p) : problem_(glp_create_prob()) {
        const int n = static_cast<int>(p.variables());
        const int m = static_cast<int>(p.row_count());
        glp_add_cols(problem_, n);
        glp_add_rows(problem_, m);
        for (int j = 0; j < n; ++j) {
            const auto at = static_cast<std::size_t>(j);
            glp_set_col_bnds(problem_, j + 1, kind(p.lower[at], p.upper[at]), p.lower[at],
                             p.upper[at]);
            glp_set_obj_coef(problem_, j + 1, p.gradient[at]);
        }
        std::vector<int> columns(p.variables() + 1);
        std::vector<double> values(p.variables() + 1);
        for (int i = 0; i < m; ++i) {
            const auto at = static_cast<std::size_t>(i);
            glp_set_row_bnds(problem_, i + 1, kind(p.row_lower[at], p.row_upper[at]),
                             p.row_lower[at], p.row_upper[at]);
            for (int j = 0; j < n; ++j) {
                const auto place = static_cast<std::size_t>(j) + 1;
                columns[place] = j + 1;
                values[place] = p.rows[at * p.variables() + place - 1];
            }
            glp_set_mat_row(problem_, i + 1, n, columns.data(), values.data());
        }
        glp_init_smcp(&settings_);
        settings_.msg_lev = GLP_MSG_OFF;
    }
    Glpk(const Glpk&) = delete;
    Glpk& operator=(const Glpk&) = delete;
    ~Glpk() override { glp_delete_prob(problem_); }

    double solve() override {
        glp_std_basis(problem_);
        const bool done =
            glp_simplex(problem_, &settings_) == 0 && glp_get_status(problem_) == GLP_OPT;
        return done ? glp_get_obj_val(problem_) : std::numeric_limits<double>::quiet_NaN();
    }

private:
    glp_prob* problem_;
    glp_smcp settings_;
};

}  // namespace

std::unique_ptr<feed_bench::Other> feed_bench::make_glpk(
    const feed_test::GeneratedProblem& problem) {
    return std::make_unique<Glpk>(problem);
}
#else
std::unique_ptr<feed_bench::Other> feed_bench::make_glpk(const feed_test::GeneratedProblem&) {
    return nullptr;
}
#endif
