#pragma once
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "feed/ration/week_problem.hpp"
#include "feed/solver/solve.hpp"
#include "feed/solver/workspace.hpp"

// Solves the problem of a week exactly. Its blocks meet only in the things they share, so a small
// problem of shares and one problem a bin take turns (Dantzig and Wolfe, Decomposition Principle
// for Linear Programs, Operations Research 8, 1960): the bins answer to prices of the things, the
// shares are mixed from their answers, and when no bin has a better answer to the prices, the mix
// is the most there is. That bound is the proof.
namespace feed::detail {

/// What each block is given, and whether that was proved to be the most.
struct WeekShares {
    std::vector<std::vector<double>> kg;  ///< of the columns of each block
    std::vector<double> most_kg;          ///< reached of each aim
    bool verified = false;
};

class WeekSolver {
public:
    explicit WeekSolver(const WeekProblem& problem) : p_(problem) {
        for (std::size_t i = 0; i < p_.there_kg.size(); ++i) {
            if (p_.there_kg[i] < solver::infinity)
                row_of_.push_back(stock_rows_++);
            else
                row_of_.push_back(std::nullopt);
        }
        for (const WeekBlock& block : p_.blocks) {
            lower_.emplace_back(block.size(), 0.0);
            workspaces_.emplace_back(block.size(), block.row_lower.size());
        }
        asked_.thing.assign(p_.there_kg.size(), 0.0);
        for (const double kg : p_.there_kg)
            scale_ += kg < solver::infinity ? kg : 0.0;
    }

    WeekShares solve() {
        WeekShares shares;
        shares.verified = true;
        for (std::size_t aim = 0; aim < p_.aims.size(); ++aim) {
            if (aim == 0) start();
            shares.verified = improve(aim) && shares.verified;
            shares.most_kg.push_back(-mixed_);
            pinned_kg_.push_back(-mixed_);
        }
        for (const WeekBlock& block : p_.blocks)
            shares.kg.emplace_back(block.size(), 0.0);
        for (std::size_t k = 0; k < points_.size() && k < mix_.size(); ++k) {
            if (!(mix_[k] > 0.0)) continue;
            auto& kg = shares.kg[points_[k].block];
            for (std::size_t c = 0; c < kg.size(); ++c)
                kg[c] += mix_[k] * points_[k].kg[c];
        }
        return shares;
    }

private:
    /// One answer of a bin.
    struct Point {
        std::size_t block = 0;
        std::vector<double> kg;      ///< of its columns
        std::vector<double> shared;  ///< of the things of the week
        std::vector<double> aims;    ///< of each aim
        int idle = 0;                ///< turns since it was part of a mix
    };

    /// Prices of the things, and of the aims that are settled.
    struct Prices {
        std::vector<double> thing;
        std::vector<double> aim;
    };

    /// The best of a block at the prices; its cost, or nothing where it was not proved.
    /// @param left_kg  of each thing; empty: as much as there is.
    std::optional<double> ask(std::size_t b, std::size_t aim, std::span<const double> left_kg,
                              Point& point) {
        const WeekBlock& block = p_.blocks[b];
        gradient_.assign(block.size(), 0.0);
        upper_ = block.upper;
        for (std::size_t c = 0; c < block.size(); ++c) {
            const auto& shared = block.columns[c].shared;
            if (!shared) continue;
            gradient_[c] = -asked_.thing[*shared];
            if (p_.aims[aim][*shared]) gradient_[c] -= 1.0;
            for (std::size_t k = 0; k < asked_.aim.size(); ++k)
                gradient_[c] -= p_.aims[k][*shared] ? asked_.aim[k] : 0.0;
            if (std::abs(gradient_[c]) < 1e-12) gradient_[c] = 0.0;  // what cancels up to rounding
            const double left = left_kg.empty() ? p_.there_kg[*shared] : left_kg[*shared];
            upper_[c] = std::min(upper_[c], left);
        }
        const solver::Polyhedron within{lower_[b], upper_, block.rows, block.row_lower,
                                        block.row_upper};
        const auto found = solver::solve({{}, gradient_, within}, workspaces_[b]);
        if (found.status != solver::Status::solved) return std::nullopt;
        point.block = b;
        point.kg.assign(found.x.begin(), found.x.end());
        point.shared.assign(p_.there_kg.size(), 0.0);
        point.aims.assign(p_.aims.size(), 0.0);
        for (std::size_t c = 0; c < block.size(); ++c) {
            const auto& shared = block.columns[c].shared;
            if (!shared) continue;
            point.shared[*shared] += point.kg[c];
            for (std::size_t k = 0; k < p_.aims.size(); ++k)
                point.aims[k] += p_.aims[k][*shared] ? point.kg[c] : 0.0;
        }
        return found.objective;
    }

    /// Each bin in its turn takes the most of what the ones before it left.
    void start() {
        std::vector<double> left = p_.there_kg;
        for (std::size_t b = 0; b < p_.blocks.size(); ++b) {
            Point point;
            if (p_.blocks[b].size() == 0 || !ask(b, p_.aims.size() - 1, left, point)) continue;
            for (std::size_t i = 0; i < left.size(); ++i)
                left[i] = std::max(0.0, left[i] - point.shared[i]);
            points_.push_back(std::move(point));
        }
    }

    /// Mixes the answers of the bins for the most of an aim; the prices are those of the mix.
    bool mix(std::size_t aim) {
        const std::size_t n = points_.size();
        const std::size_t m = stock_rows_ + p_.blocks.size() + pinned_kg_.size();
        rows_.assign(n * m, 0.0);
        row_lower_.assign(m, -solver::infinity);
        row_upper_.assign(m, 1.0);
        gradient_.assign(n, 0.0);
        for (std::size_t i = 0; i < row_of_.size(); ++i) {
            if (row_of_[i]) row_upper_[*row_of_[i]] = p_.there_kg[i];
        }
        for (std::size_t k = 0; k < n; ++k) {
            gradient_[k] = -points_[k].aims[aim];
            for (std::size_t i = 0; i < row_of_.size(); ++i) {
                if (row_of_[i]) rows_[*row_of_[i] * n + k] = points_[k].shared[i];
            }
            rows_[(stock_rows_ + points_[k].block) * n + k] = 1.0;
            for (std::size_t pin = 0; pin < pinned_kg_.size(); ++pin)
                rows_[(stock_rows_ + p_.blocks.size() + pin) * n + k] = points_[k].aims[pin];
        }
        for (std::size_t pin = 0; pin < pinned_kg_.size(); ++pin) {
            row_lower_[stock_rows_ + p_.blocks.size() + pin] = settled_kg(pin);
            row_upper_[stock_rows_ + p_.blocks.size() + pin] = solver::infinity;
        }
        const std::vector<double> lower(n, 0.0);
        const std::vector<double> upper(n, solver::infinity);
        solver::Workspace workspace(n, m);
        const auto found = solver::solve(
            {{}, gradient_, {lower, upper, rows_, row_lower_, row_upper_}}, workspace);
        if (found.status != solver::Status::solved) return false;
        mix_.assign(found.x.begin(), found.x.end());
        mixed_ = found.objective;
        for (std::size_t i = 0; i < row_of_.size(); ++i)
            asked_.thing[i] = row_of_[i] ? found.row_multipliers[*row_of_[i]] : 0.0;
        block_price_.assign(
            found.row_multipliers.begin() + static_cast<std::ptrdiff_t>(stock_rows_),
            found.row_multipliers.begin() +
                static_cast<std::ptrdiff_t>(stock_rows_ + p_.blocks.size()));
        asked_.aim.assign(found.row_multipliers.begin() +
                              static_cast<std::ptrdiff_t>(stock_rows_ + p_.blocks.size()),
                          found.row_multipliers.end());
        return true;
    }

    /// Takes turns until no bin has a better answer. Whether that was proved.
    /// Bins are asked at prices halfway to those that gave the best bound so far, which swing less
    /// (Wentges, International Transactions in Operational Research 4, 1997); where that brings
    /// nothing new, at those of the mix.
    bool improve(std::size_t aim) {
        const double enough = 1e-9 * std::max(1.0, scale_);
        Prices best;
        // Nobody can use more than there is.
        double best_bound = 0.0;
        for (std::size_t i = 0; i < p_.there_kg.size(); ++i)
            best_bound -= p_.aims[aim][i] ? p_.there_kg[i] : 0.0;
        bool any_best = false;
        bool halfway = false;
        for (int turn = 0; turn < most_turns; ++turn) {
            if (!mix(aim)) return false;
            const Prices of_mix = asked_;
            if (halfway) asked_ = between(best, of_mix);
            double bound = bound_of_things();
            bool proved = true;
            std::vector<Point> better;
            for (std::size_t b = 0; b < p_.blocks.size(); ++b) {
                if (p_.blocks[b].size() == 0) continue;
                Point point;
                const auto cost = ask(b, aim, {}, point);
                proved = proved && cost;
                if (!cost) continue;
                bound += std::min(0.0, *cost);
                const double gain = block_price_[b] - cost_at(of_mix, aim, point);
                if (gain > enough / static_cast<double>(p_.blocks.size()))
                    better.push_back(std::move(point));
            }
            if (proved && bound > best_bound) {
                best_bound = bound;
                best = asked_;
                any_best = true;
            }
            asked_ = of_mix;
            if (mixed_ - best_bound <= enough) return true;
            if (better.empty() && !halfway) return false;
            halfway = !better.empty() && any_best;
            drop_idle();
            for (Point& point : better)
                points_.push_back(std::move(point));
        }
        return false;
    }

    static Prices between(const Prices& a, const Prices& b) {
        Prices mean = b;
        for (std::size_t i = 0; i < mean.thing.size(); ++i)
            mean.thing[i] = 0.5 * (a.thing[i] + b.thing[i]);
        for (std::size_t i = 0; i < mean.aim.size(); ++i)
            mean.aim[i] = 0.5 * (a.aim[i] + b.aim[i]);
        return mean;
    }

    [[nodiscard]] double bound_of_things() const {
        double sum = 0.0;
        for (std::size_t i = 0; i < row_of_.size(); ++i)
            sum += row_of_[i] ? asked_.thing[i] * p_.there_kg[i] : 0.0;
        for (std::size_t k = 0; k < asked_.aim.size(); ++k)
            sum += asked_.aim[k] * settled_kg(k);
        return sum;
    }

    [[nodiscard]] double cost_at(const Prices& prices, std::size_t aim, const Point& point) const {
        double cost = -point.aims[aim];
        for (std::size_t i = 0; i < point.shared.size(); ++i)
            cost -= prices.thing[i] * point.shared[i];
        for (std::size_t k = 0; k < prices.aim.size(); ++k)
            cost -= prices.aim[k] * point.aims[k];
        return cost;
    }

    [[nodiscard]] double settled_kg(std::size_t aim) const {
        return (1.0 - 1e-9) * pinned_kg_[aim];
    }

    /// Forgets answers that were in no mix for some turns.
    void drop_idle() {
        constexpr int most_idle = 10;
        std::size_t kept = 0;
        for (std::size_t k = 0; k < points_.size(); ++k) {
            points_[k].idle = mix_[k] > 0.0 ? 0 : points_[k].idle + 1;
            if (points_[k].idle > most_idle) continue;
            if (kept != k) points_[kept] = std::move(points_[k]);
            mix_[kept++] = mix_[k];
        }
        points_.resize(kept);
        mix_.resize(kept);
    }

    static constexpr int most_turns = 300;
    const WeekProblem& p_;
    std::vector<std::optional<std::size_t>> row_of_;  ///< of each thing that has an end
    std::size_t stock_rows_ = 0;
    double scale_ = 0.0;
    std::vector<std::vector<double>> lower_;  ///< of each block
    std::vector<solver::Workspace> workspaces_;
    std::vector<Point> points_;
    std::vector<double> mix_;
    double mixed_ = 0.0;  ///< cost of the mix: the aim, negative
    Prices asked_;        ///< at which the bins are asked
    std::vector<double> block_price_;
    std::vector<double> pinned_kg_;
    std::vector<double> gradient_;
    std::vector<double> upper_;
    std::vector<double> rows_;
    std::vector<double> row_lower_;
    std::vector<double> row_upper_;
};

}  // namespace feed::detail
