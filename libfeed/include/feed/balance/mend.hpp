#pragma once
#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/workspace.hpp"

namespace feed {

/// Beddings most keepers can get hold of, and water, in the order in which they are tried.
inline constexpr std::array<std::string_view, 7> common_beddings{
    "cardboard-corrugated", "paper-office", "newspaper", "leaves-dry-shredded", "coir-pith",
    "straw-wheat",          "water-tap"};

namespace detail {

/// The least wet mass of one more feedstock with which all targets can be met; nothing if no amount
/// of it does, or if it lacks a value that the targets need.
inline std::optional<double> least_addition(const PreparedBalance& prepared,
                                            std::shared_ptr<const Feedstock> feedstock,
                                            const std::string& label) {
    BalanceProblem more = prepared.problem;
    more.objective = Objective::least_added;
    for (auto& entry : more.entries)
        entry.use_up_priority = 0;
    Entry extra;
    extra.feedstock = std::move(feedstock);
    extra.label = label;
    more.entries.push_back(std::move(extra));
    const auto with_extra = prepare(std::move(more));
    if (!with_extra) return std::nullopt;
    std::vector<double> only_extra(with_extra->entry_count(), 0.0);
    only_extra.back() = 1.0;
    solver::Workspace workspace(with_extra->entry_count(), with_extra->row_count());
    const auto result = solver::lexicographic(with_extra->within(), only_extra, workspace);
    if (result.status != solver::Status::solved || !(result.x.back() > 0.0)) return std::nullopt;
    return result.x.back();
}

inline void take_if_less(std::optional<Mend>& best, std::optional<double> add,
                         const std::shared_ptr<const Feedstock>& feedstock,
                         const std::string& label) {
    if (!add || (best && !(*add < best->add.in_kilograms()))) return;
    best = Mend{feedstock, label, wet_kilograms(*add)};
}

}  // namespace detail

/// The smallest single addition that lets all targets be met: the one of least wet mass among the
/// feedstocks the keeper listed (more of one than was allowed, scraps included); only if none of
/// them does, among the common beddings and water. Ties go to the one named first. Nothing if no
/// single addition does. One linear problem for each candidate. Threads: pure.
inline std::optional<Mend> find_mend(const PreparedBalance& prepared) {
    std::optional<Mend> best;
    for (const auto& entry : prepared.problem.entries) {
        if (!entry.most) continue;
        detail::take_if_less(best, detail::least_addition(prepared, entry.feedstock, entry.label),
                             entry.feedstock, entry.label);
    }
    if (best) return best;
    for (const auto id : common_beddings) {
        const auto index = find_id(id);
        if (!index) continue;
        const auto feedstock = std::make_shared<const Feedstock>(feedstock_at(*index));
        detail::take_if_less(best, detail::least_addition(prepared, feedstock, feedstock->name),
                             feedstock, feedstock->name);
    }
    return best;
}

}  // namespace feed
