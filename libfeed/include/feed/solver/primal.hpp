#pragma once
// The general method: first find a feasible point by driving the sum of the oversteppings down,
// then lower the objective while staying feasible. For linear objectives it is the bounded simplex
// method; with curvature some nonbasic entries are `loose`, between their limits, and move together
// by Newton steps on the reduced objective (the reduced-gradient form of Murtagh and Saunders 1978,
// Mathematical Programming 14).

#include <cstddef>

#include "feed/solver/dictionary.hpp"
#include "feed/solver/pricing.hpp"
#include "feed/solver/problem.hpp"
#include "feed/solver/reduced_newton.hpp"
#include "feed/solver/workspace.hpp"

namespace feed::solver::detail {

class Primal {
public:
    Primal(Dictionary& dictionary, std::size_t iteration_limit)
        : d_(dictionary),
          b_(dictionary.b),
          limit_(iteration_limit),
          pricing_(dictionary),
          newton_(dictionary) {}

    [[nodiscard]] std::size_t iterations() const { return iterations_; }

    /// How closely limits and slopes are looked at, relative. Closer looks are for answers that
    /// failed their check.
    void look_closer(int attempt) {
        tolerance_ = attempt == 0 ? search_tolerance : attempt == 1 ? 1e-14 : 1e-13;
        pricing_.look_closer(tolerance_);
        newton_.look_closer(tolerance_, attempt == 0   ? 1e-11
                                        : attempt == 1 ? 1e-9
                                        : attempt == 2 ? 1e-8
                                                       : 1e-13);
    }

    /// Both phases. `unbounded` leaves the ray in the workspace, `infeasible` the signs of the
    /// oversteppings in basic_cost.
    Status run() {
        for (int visit = 0; visit < 20; ++visit) {
            const Status feasible = find_feasible();
            if (feasible != Status::solved) return feasible;
            bool lost = false;
            const Status status = descend(lost);
            if (!lost) return status;
        }
        return Status::numerical;
    }

    Status find_feasible() {
        const std::size_t n = d_.n;
        const std::size_t m = d_.m;
        pricing_.restart();
        for (;;) {
            d_.place_basics();
            bool feasible = true;
            for (std::size_t i = 0; i < m; ++i) {
                b_.basic_cost[i] = overstep_sign(i);
                b_.basic_cost_size[i] = size_of(b_.basic_cost[i]);
                if (b_.basic_cost[i] != 0) feasible = false;
            }
            if (feasible) return Status::solved;
            if (++iterations_ > limit_) return Status::iteration_limit;
            d_.place_slopes([](std::size_t, double& slope, double& size) { slope = size = 0; });
            const std::size_t entering = pricing_.price(n, true);
            if (entering == n) return Status::infeasible;
            step_towards_feasible(entering);
            refresh_if_stale();
        }
    }

    /// Lowers the objective from a feasible place. Sets `lost` if rounding broke feasibility.
    Status descend(bool& lost) {
        const std::size_t n = d_.n;
        pricing_.restart();
        std::size_t newton_in_a_row = 0;
        for (;;) {
            d_.place_basics();
            for (std::size_t i = 0; i < d_.m; ++i) {
                if (overstep_sign(i) != 0) {
                    lost = true;
                    return Status::numerical;
                }
            }
            place_costs();
            newton_.gather();
            bool moving = false;
            if (newton_.count() > 0 && newton_in_a_row < 4) moving = newton_.direction();
            if (!moving) {
                newton_in_a_row = 0;
                const std::size_t entering = pricing_.price(n, false);
                if (entering == n) {
                    newton_.park();
                    return Status::solved;
                }
                const std::size_t id = b_.nonbasic[entering];
                b_.loose_value[id] = d_.value_at_rest(id);
                b_.place[id] = Place::loose;
                if (!newton_.direction_with(entering)) return Status::numerical;
            }
            if (++iterations_ > limit_) return Status::iteration_limit;
            bool blocked = false;
            if (!move(blocked)) return Status::unbounded;
            newton_in_a_row = blocked ? 0 : newton_in_a_row + 1;
            refresh_if_stale();
        }
    }

private:
    enum class Stop { nothing, basic_low, basic_high, own };

    [[nodiscard]] double overstep_sign(std::size_t i) const {
        const std::size_t id = b_.basic[i];
        const double value = b_.basic_value[i];
        const double low = b_.low[id];
        const double high = b_.high[id];
        if (value < low && low - value > tolerance_ * (b_.basic_size[i] + size_of(low))) {
            return -1;
        }
        if (value > high && value - high > tolerance_ * (b_.basic_size[i] + size_of(high))) {
            return 1;
        }
        return 0;
    }

    void refresh_if_stale() {
        if (d_.pivots_since_rebuild > 60 + d_.n / 4) d_.rebuild();
    }

    /// Phase one: moves one entry past every limit as long as the sum of the oversteppings keeps
    /// falling.
    void step_towards_feasible(std::size_t entering) {
        const std::size_t m = d_.m;
        const std::size_t id = b_.nonbasic[entering];
        const double slope = b_.slope[entering];
        const double sense = slope > 0 ? -1.0 : 1.0;
        const double start = d_.value_at_rest(id);
        const double own = sense > 0 ? b_.high[id] - start : start - b_.low[id];
        place_breaks(entering, sense);
        double descent = size_of(slope);
        double time = 0;
        std::size_t chosen = 2 * m;
        double chosen_rate = 0;
        const bool bland = pricing_.use_bland();
        bool to_own_limit = false;
        for (;;) {
            const std::size_t next = next_break(bland);
            if (next == 2 * m || b_.break_time[next] >= own) {
                to_own_limit = own < infinity;
                break;
            }
            const double rate = size_of(b_.basic_rate[next / 2]);
            // A tiny pivot is taken only if nothing better was passed.
            if (chosen == 2 * m || rate > 1e-7 || rate > chosen_rate) {
                chosen = next;
                chosen_rate = rate;
                time = b_.break_time[next];
            }
            descent -= rate;
            b_.break_time[next] = infinity;
            if (descent <= 0 || bland) break;
        }
        if (to_own_limit) {
            b_.place[id] = sense > 0 ? Place::at_upper : Place::at_lower;
            pricing_.note_progress(own > 0);
            return;
        }
        if (chosen == 2 * m) {  // rounding: a descent without end cannot be
            pricing_.give_up_speed();
            return;
        }
        exchange(chosen / 2, entering, chosen % 2 == 0 ? Place::at_lower : Place::at_upper);
        pricing_.note_progress(time > 0);
    }

    /// When each basic entry meets its limits if the entering one moves: low at 2 i, high at 2 i
    /// + 1.
    void place_breaks(std::size_t entering, double sense) {
        for (std::size_t i = 0; i < d_.m; ++i) {
            const double rate = b_.table[i * d_.n + entering] * sense;
            b_.basic_rate[i] = rate;
            double to_low = infinity;
            double to_high = infinity;
            const double sign = b_.basic_cost[i];
            if (rate > 0) {
                if (sign < 0) to_low = (b_.low[b_.basic[i]] - b_.basic_value[i]) / rate;
                if (sign <= 0) to_high = room_above(i) / rate;
            } else if (rate < 0) {
                if (sign > 0) to_high = (b_.high[b_.basic[i]] - b_.basic_value[i]) / rate;
                if (sign >= 0) to_low = room_below(i) / -rate;
            }
            b_.break_time[2 * i] = to_low;
            b_.break_time[2 * i + 1] = to_high;
        }
    }

    /// The earliest of the breaks that are left, 2 m if there is none; of equal ones the largest
    /// pivot, or by Bland's rule the lowest number.
    [[nodiscard]] std::size_t next_break(bool bland) const {
        const std::size_t none = 2 * d_.m;
        std::size_t next = none;
        for (std::size_t k = 0; k < none; ++k) {
            if (b_.break_time[k] == infinity) continue;
            if (next == none || b_.break_time[k] < b_.break_time[next]) {
                next = k;
            } else if (b_.break_time[k] == b_.break_time[next]) {
                const bool better =
                    bland ? b_.basic[k / 2] < b_.basic[next / 2]
                          : size_of(b_.basic_rate[k / 2]) > size_of(b_.basic_rate[next / 2]);
                if (better) next = k;
            }
        }
        return next;
    }

    void exchange(std::size_t row, std::size_t column, Place leaving_place) {
        const std::size_t leaving = b_.basic[row];
        const std::size_t entering = b_.nonbasic[column];
        b_.place[leaving] = leaving_place;
        b_.place[entering] = Place::basic;
        d_.pivot(row, column);
    }

    void place_costs() {
        const auto cost = [this](std::size_t id, double value, double value_size, double& slope,
                                 double& size) {
            slope = size = 0;
            if (id >= d_.n) return;
            slope = b_.scaled_hessian[id] * value + b_.scaled_gradient[id];
            size = b_.scaled_hessian[id] * value_size + size_of(b_.scaled_gradient[id]);
        };
        for (std::size_t i = 0; i < d_.m; ++i) {
            cost(b_.basic[i], b_.basic_value[i], b_.basic_size[i], b_.basic_cost[i],
                 b_.basic_cost_size[i]);
        }
        d_.place_slopes([&](std::size_t id, double& slope, double& size) {
            const double value = d_.value_at_rest(id);
            cost(id, value, size_of(value), slope, size);
        });
    }

    /// How far basic entry i may still change in the direction of its rate.
    [[nodiscard]] double room_of(std::size_t i) const {
        return b_.basic_rate[i] > 0 ? room_above(i) : room_below(i);
    }

    [[nodiscard]] double room_above(std::size_t i) const {
        const double limit = b_.high[b_.basic[i]];
        return real_room(i, limit, limit - b_.basic_value[i]);
    }

    [[nodiscard]] double room_below(std::size_t i) const {
        const double limit = b_.low[b_.basic[i]];
        return real_room(i, limit, b_.basic_value[i] - limit);
    }

    /// The room to a limit, and zero where it is no more than rounding: a step over rounding is no
    /// progress, and Bland's rule needs ties to be seen as ties.
    [[nodiscard]] double real_room(std::size_t i, double limit, double room) const {
        if (room == infinity) return room;
        return room > 1e-13 * (b_.basic_size[i] + size_of(limit)) ? room : 0.0;
    }

    /// Where a move ends: after how long, at what, and which entry that is.
    struct End {
        double time = 0;
        Stop stop = Stop::nothing;
        std::size_t which = 0;
    };

    [[nodiscard]] End at_basic(std::size_t i) const {
        return {room_of(i) / size_of(b_.basic_rate[i]),
                b_.basic_rate[i] > 0 ? Stop::basic_high : Stop::basic_low, i};
    }

    /// How fast basic entry i changes along b_.step; zero where that is only rounding.
    [[nodiscard]] double rate_along_step(std::size_t i, double longest) const {
        const double* row = b_.table.data() + i * d_.n;
        double rate = 0;
        double size = 0;
        for (std::size_t k = 0; k < newton_.count(); ++k) {
            const double term = row[b_.loose_columns[k]] * b_.step[k];
            rate += term;
            size += size_of(term);
        }
        if (size_of(rate) <= 1e-13 * size || size_of(rate) <= least_entry * longest) return 0;
        return rate;
    }

    /// Places the rates of the basic entries; the one that ends the step first when each limit
    /// gives way a little, m if none does. reach: how far that is.
    std::size_t first_basic(double give, double& reach) {
        double longest = 0;
        for (std::size_t k = 0; k < newton_.count(); ++k) {
            if (size_of(b_.step[k]) > longest) longest = size_of(b_.step[k]);
        }
        std::size_t limiting = d_.m;
        for (std::size_t i = 0; i < d_.m; ++i) {
            const double rate = rate_along_step(i, longest);
            b_.basic_rate[i] = rate;
            if (rate == 0) continue;
            double room = room_of(i);
            if (room == infinity) continue;
            const double limit = rate > 0 ? b_.high[b_.basic[i]] : b_.low[b_.basic[i]];
            room += give * (b_.basic_size[i] + size_of(limit));
            if (room < reach * size_of(rate)) {
                reach = room / size_of(rate);
                limiting = i;
            }
        }
        return limiting;
    }

    /// The loose column that first meets a limit of its own; their count if none does.
    [[nodiscard]] std::size_t first_own(double& own_time) const {
        std::size_t own = newton_.count();
        for (std::size_t k = 0; k < newton_.count(); ++k) {
            const double rate = b_.step[k];
            if (rate == 0) continue;
            const std::size_t id = b_.nonbasic[b_.loose_columns[k]];
            const double limit = rate > 0 ? b_.high[id] : b_.low[id];
            if (size_of(limit) == infinity) continue;
            double room = rate > 0 ? limit - b_.loose_value[id] : b_.loose_value[id] - limit;
            if (room < 0) room = 0;
            if (room < own_time * size_of(rate)) {
                own_time = room / size_of(rate);
                own = k;
            }
        }
        return own;
    }

    /// Among the basic entries that end the step at about the same time, the largest pivot.
    [[nodiscard]] End largest_pivot(End end, double reach, bool bland) const {
        for (std::size_t i = 0; i < d_.m; ++i) {
            const double rate = size_of(b_.basic_rate[i]);
            if (rate == 0) continue;
            const double room = room_of(i);
            if (room == infinity) continue;
            if (!(end.stop == Stop::own ? room < reach * rate : room <= reach * rate)) continue;
            const bool better = end.stop == Stop::own || end.stop == Stop::nothing ||
                                (bland ? b_.basic[i] < b_.basic[end.which]
                                       : rate > size_of(b_.basic_rate[end.which]));
            if (better) end = at_basic(i);
        }
        return end;
    }

    /// Moves along b_.step on the loose columns as far as the limits allow. False if nothing ends
    /// it.
    bool move(bool& blocked) {
        const bool bland = pricing_.use_bland();
        const double whole = newton_.flat() ? infinity : 1.0;
        double reach = whole;
        const std::size_t limiting = first_basic(bland ? 0.0 : 0.5 * tolerance_, reach);
        double own_time = infinity;
        const std::size_t own = first_own(own_time);
        End end{whole, Stop::nothing, 0};
        if (own < newton_.count() && own_time <= reach) {
            reach = own_time;
            end = {own_time, Stop::own, own};
        } else if (limiting < d_.m) {
            end = at_basic(limiting);
        }
        end = largest_pivot(end, reach, bland);
        if (end.stop == Stop::nothing && newton_.flat()) {
            write_ray();
            return false;
        }
        apply(end.time);
        blocked = end.stop != Stop::nothing;
        pricing_.note_progress(end.time > 0);
        leave(end);
        return true;
    }

    /// What met its limit leaves: a loose column stays there, a basic entry changes places with the
    /// loose column of the largest pivot.
    void leave(const End& end) {
        if (end.stop == Stop::nothing) return;
        if (end.stop == Stop::own) {
            const std::size_t id = b_.nonbasic[b_.loose_columns[end.which]];
            b_.place[id] = b_.step[end.which] > 0 ? Place::at_upper : Place::at_lower;
            return;
        }
        const double* row = b_.table.data() + end.which * d_.n;
        std::size_t column = b_.loose_columns[0];
        for (std::size_t k = 1; k < newton_.count(); ++k) {
            const std::size_t j = b_.loose_columns[k];
            if (size_of(row[j]) > size_of(row[column])) column = j;
        }
        exchange(end.which, column,
                 end.stop == Stop::basic_high ? Place::at_upper : Place::at_lower);
    }

    void apply(double time) {
        for (std::size_t k = 0; k < newton_.count(); ++k) {
            b_.loose_value[b_.nonbasic[b_.loose_columns[k]]] += time * b_.step[k];
        }
    }

    void write_ray() {
        for (std::size_t j = 0; j < d_.n; ++j)
            b_.ray[j] = 0;
        double largest = 0;
        for (std::size_t k = 0; k < newton_.count(); ++k) {
            const std::size_t id = b_.nonbasic[b_.loose_columns[k]];
            if (id < d_.n) b_.ray[id] = b_.step[k] * b_.column_scale[id];
        }
        for (std::size_t i = 0; i < d_.m; ++i) {
            const std::size_t id = b_.basic[i];
            if (id < d_.n) b_.ray[id] = b_.basic_rate[i] * b_.column_scale[id];
        }
        for (std::size_t j = 0; j < d_.n; ++j) {
            if (size_of(b_.ray[j]) > largest) largest = size_of(b_.ray[j]);
        }
        for (std::size_t j = 0; j < d_.n; ++j) {
            // A curved variable does not move along a flat direction but for rounding.
            if (b_.scaled_hessian[j] != 0 && size_of(b_.ray[j]) <= 1e-9 * largest) b_.ray[j] = 0;
        }
    }

    Dictionary& d_;
    Buffers& b_;
    std::size_t limit_;
    std::size_t iterations_ = 0;
    double tolerance_ = search_tolerance;
    Pricing pricing_;
    ReducedNewton newton_;
};

}  // namespace feed::solver::detail
