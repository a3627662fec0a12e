// Structured problems from bytes. Wild numbers must do no harm; tame ones must be answered, by both
// methods alike.
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <vector>

#include "feed/solver/conflict.hpp"
#include "feed/solver/fractional.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/solve.hpp"

using namespace feed::solver;

namespace {

/// Reads bytes; zeros when they run out.
class Bytes {
public:
    Bytes(const std::uint8_t* data, std::size_t size) : data_(data), left_(size) {}

    std::uint8_t byte() {
        if (left_ == 0) return 0;
        --left_;
        return *data_++;
    }

    /// A small multiple of 1/4, or with `wild` any double at all.
    double number(bool wild) {
        const std::uint8_t first = byte();
        if (!wild || first < 200) return static_cast<double>(first % 33) / 4 - 4;
        std::uint64_t bits = 0;
        for (int k = 0; k < 8; ++k)
            bits = bits << 8U | byte();
        return std::bit_cast<double>(bits);
    }

private:
    const std::uint8_t* data_;
    std::size_t left_;
};

struct Made {
    std::vector<double> hessian, gradient, lower, upper, rows, row_lower, row_upper;

    [[nodiscard]] Problem view() const {
        return {hessian, gradient, {lower, upper, rows, row_lower, row_upper}};
    }
};

void limits(Bytes& bytes, bool wild, double& low, double& high) {
    const std::uint8_t kind = bytes.byte() % 5;
    const double at = bytes.number(wild);
    const double room = bytes.number(wild);
    low = kind == 1 ? -infinity : at;
    high = kind == 0 ? infinity : kind == 2 ? at : at + (wild ? room : std::fabs(room));
    if (kind == 4) {
        low = -infinity;
        high = infinity;
    }
}

Made make(Bytes& bytes, bool wild) {
    const std::size_t n = 1 + bytes.byte() % 8;
    const std::size_t m = bytes.byte() % 9;
    const std::uint8_t curvature = bytes.byte() % 3;
    Made made;
    for (std::size_t j = 0; j < n; ++j) {
        const double h = bytes.number(wild);
        made.hessian.push_back(curvature == 0                     ? 0.0
                               : curvature == 1 || wild || h != 0 ? (wild ? h : std::fabs(h))
                                                                  : 1.0);
        made.gradient.push_back(bytes.number(wild));
        double low = 0;
        double high = 0;
        limits(bytes, wild, low, high);
        made.lower.push_back(low);
        made.upper.push_back(high);
    }
    for (std::size_t i = 0; i < m; ++i) {
        double low = 0;
        double high = 0;
        limits(bytes, wild, low, high);
        made.row_lower.push_back(low);
        made.row_upper.push_back(high);
        for (std::size_t j = 0; j < n; ++j)
            made.rows.push_back(bytes.number(wild));
    }
    return made;
}

void demand(bool holds) {
    if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static Workspace workspace(8, 16);
    Bytes bytes(data, size);
    const bool wild = bytes.byte() % 2 == 1;
    const Made made = make(bytes, wild);
    const Problem problem = made.view();
    const Polyhedron& within = problem.within;
    Options general;
    general.general_method = true;
    const Status quick_status = solve(problem, workspace).status;
    const Status general_status = solve(problem, workspace, general).status;
    const Status ranked_status = lexicographic(within, made.gradient, workspace).status;
    std::vector<double> ones(made.lower.size(), 1.0);
    const std::vector<double> constant{64.0};
    const FractionalResult ratio =
        fractional(within, {made.gradient, {}, ones, constant}, made.gradient, workspace);
    const std::vector<double> scales(made.row_lower.size(), 1.0);
    const Status loosened = least_violation(within, scales, made.gradient, workspace).status;
    std::vector<Removable> removable;
    for (std::size_t i = 0; i < made.row_lower.size(); ++i) {
        removable.push_back({Removable::Kind::row, i, Side::both, i});
    }
    const Conflict conflict = find_conflict(within, removable, workspace);
    if (wild) return 0;

    demand(quick_status == Status::solved || quick_status == Status::infeasible ||
           quick_status == Status::unbounded);
    demand(general_status == quick_status);
    demand((ranked_status == Status::infeasible) == (quick_status == Status::infeasible));
    demand(ranked_status == Status::solved || ranked_status == Status::infeasible ||
           ranked_status == Status::unbounded);
    demand(ratio.status != FractionalStatus::iteration_limit &&
           ratio.status != FractionalStatus::numerical);
    demand((ratio.status == FractionalStatus::infeasible) == (quick_status == Status::infeasible));
    demand(loosened == Status::solved || loosened == Status::unbounded);
    demand(conflict.status ==
           (quick_status == Status::infeasible ? Status::infeasible : Status::solved));
    demand(conflict.status == Status::solved || !conflict.entries.empty());
    return 0;
}
