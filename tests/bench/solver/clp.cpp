// COIN-OR CLP's dual simplex method on linear problems.
#include "others.hpp"

#if FEED_HAS_CLP
#include <ClpSimplex.hpp>
#include <CoinPackedMatrix.hpp>
#include <limits>
#include <vector>

namespace {

class Clp : public feed_bench::Other {
public:
    explicit Clp(const feed_test::GeneratedProblem& p) {
        std::vector<int> rows, columns;
        std::vector<double> values;
        for (std::size_t i = 0; i < p.row_count(); ++i) {
            for (std::size_t j = 0; j < p.variables(); ++j) {
                rows.push_back(static_cast<int>(i));
                columns.push_back(static_cast<int>(j));
                values.push_back(p.rows[i * p.variables() + j]);
            }
        }
        const CoinPackedMatrix matrix(false, rows.data(), columns.data(), values.data(),
                                      static_cast<CoinBigIndex>(values.size()));
        model_.setLogLevel(0);
        model_.loadProblem(matrix, p.lower.data(), p.upper.data(), p.gradient.data(),
                           p.row_lower.data(), p.row_upper.data());
    }

    double solve() override {
        model_.allSlackBasis(true);
        model_.dual();
        return model_.status() == 0 ? model_.objectiveValue()
                                    : std::numeric_limits<double>::quiet_NaN();
    }

private:
    ClpSimplex model_;
};

}  // namespace

std::unique_ptr<feed_bench::Other> feed_bench::make_clp(
    const feed_test::GeneratedProblem& problem) {
    return std::make_unique<Clp>(problem);
}
#else
std::unique_ptr<feed_bench::Other> feed_bench::make_clp(const feed_test::GeneratedProblem&) {
    return nullptr;
}
#endif
