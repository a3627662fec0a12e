#pragma once
// Which entry the general method moves next.

#include <cstddef>
#include <cstdint>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

/// Picks entering entries: the steepest as long as steps gain something, then by lot, then by
/// Bland's rule (1977), which cannot cycle on linear problems.
class Pricing {
public:
    explicit Pricing(const Dictionary& dictionary) : d_(dictionary), b_(dictionary.b) {}

    void restart() { stalled_ = 0; }
    void note_progress(bool progress) { stalled_ = progress ? 0 : stalled_ + 1; }
    /// Nothing but Bland's rule from here on, until there is progress.
    void give_up_speed() { stalled_ = 100 + 11 * (d_.n + d_.m); }
    void look_closer(double tolerance) { tolerance_ = tolerance; }

    [[nodiscard]] bool use_bland() const { return stalled_ > 12 + d_.n / 2 + 10 * (d_.n + d_.m); }

    /// The nonbasic entry to move: the steepest, or the first by number when steps gain nothing. n
    /// if none gains.
    [[nodiscard]] std::size_t price(std::size_t none, bool loose_too) const {
        std::size_t best = none;
        double best_merit = 0;
        for (std::size_t j = 0; j < d_.n; ++j) {
            const std::size_t id = b_.nonbasic[j];
            if (b_.low[id] == b_.high[id]) continue;
            if (!loose_too && b_.place[id] == Place::loose) continue;
            const double slope = b_.slope[j];
            const double steep = size_of(slope);
            if (!(steep > tolerance_ * b_.slope_size[j])) continue;
            if (b_.place[id] == Place::at_lower && slope > 0) continue;
            if (b_.place[id] == Place::at_upper && slope < 0) continue;
            const double merit = draw_lots() ? lot(id) : steep;
            if (use_bland() ? (best == none || id < b_.nonbasic[best]) : merit > best_merit) {
                best = j;
                best_merit = merit;
            }
        }
        return best;
    }

private:
    /// Before that, entries are picked as if drawn by lot: of many ways out of a corner the
    /// steepest may go in circles, and Bland's rule visits them one by one.
    [[nodiscard]] bool draw_lots() const { return stalled_ > 12 + d_.n / 2; }

    /// A number that depends on the entry and on how long there was no gain, and on nothing else.
    [[nodiscard]] double lot(std::size_t id) const {
        std::uint64_t z = (static_cast<std::uint64_t>(id) << 32U) + stalled_ + 0x9e3779b97f4a7c15U;
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return static_cast<double>((z >> 40U) + 1U);
    }

    const Dictionary& d_;
    const Buffers& b_;
    double tolerance_ = search_tolerance;
    std::size_t stalled_ = 0;
};

}  // namespace feed::solver::detail
