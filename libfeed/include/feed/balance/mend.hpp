#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/balance/prepared_balance.hpp"
#include "feed/balance/solve_prepared.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/solver/lexicographic.hpp"
#include "feed/solver/workspace.hpp"

namespace feed {

/// Beddings most keepers can get hold of, and water, in the order in which they are tried.
inline constexpr std::array<std::string_view, 7> common_beddings{
    "cardboard-corrugated", "paper-office", "newspaper", "leaves-dry-shredded", "coir-pith",
    "straw-wheat",          "water-tap"};
/// Nitrogen-rich and dry things most keepers can get hold of, tried where no bedding mends.
inline constexpr std::array<std::string_view, 5> common_scraps{
    "coffee-grounds", "lettuce-leaf", "grass-clippings", "bread-white", "wheat-bran"};

/// The same for a heap, which is built of what a garden has by the bag and the barrow.
inline constexpr std::array<std::string_view, 5> heap_browns{"leaves-dry-shredded", "straw-wheat",
                                                             "cardboard-corrugated",
                                                             "wood-shavings-pine", "water-tap"};
inline constexpr std::array<std::string_view, 4> heap_greens{"grass-clippings", "coffee-grounds",
                                                             "manure-horse", "hay-grass"};

namespace detail {

/// The least wet mass of one more feedstock with which all targets can be met, and the least of the
/// others with it; nothing if no amount of it does, or if it lacks a value that the targets need.
inline std::optional<Mend> least_addition(const PreparedBalance& prepared,
                                          std::shared_ptr<const Feedstock> feedstock,
                                          const std::string& label) {
    BalanceProblem more = prepared.problem;
    more.objective = Objective::least_added;
    for (auto& entry : more.entries)
        entry.use_up_priority = 0;
    Entry extra;
    extra.feedstock = feedstock;
    extra.label = label;
    more.entries.push_back(std::move(extra));
    const auto with_extra = prepare(std::move(more));
    if (!with_extra) return std::nullopt;
    const std::size_t entries = with_extra->entry_count();
    std::vector<double> extra_then_all(2 * entries, 1.0);
    std::fill_n(extra_then_all.begin(), entries - 1, 0.0);
    solver::Workspace workspace(entries, with_extra->row_count());
    auto result = solver::lexicographic(with_extra->within(), extra_then_all, workspace);
    OwnLimits limits;
    if (with_extra->room_row &&
        (result.status != solver::Status::solved || !pours(*with_extra, result.x))) {
        limits.copy(with_extra->within());
        pour_nothing(*with_extra, limits);
        result =
            solver::lexicographic(limits.with_rows(with_extra->rows), extra_then_all, workspace);
    }
    if (result.status != solver::Status::solved || !(result.x.back() > 0.0)) return std::nullopt;
    Mend mend{std::move(feedstock), label, wet_kilograms(result.x.back()), {}};
    for (std::size_t i = 0; i + 1 < entries; ++i)
        mend.with.push_back({prepared.problem.entries[i].feedstock, wet_kilograms(result.x[i])});
    return mend;
}

inline void take_if_less(std::optional<Mend>& best, std::optional<Mend> other) {
    if (!other || (best && !(other->add < best->add))) return;
    best = std::move(other);
}

/// The least addition among feedstocks of the table.
inline std::optional<Mend> least_of(const PreparedBalance& prepared,
                                    std::span<const std::string_view> ids) {
    std::optional<Mend> best;
    for (const auto id : ids) {
        const auto index = find_id(id);
        if (!index) continue;
        const auto feedstock = std::make_shared<const Feedstock>(feedstock_at(*index));
        if (barred_in(*feedstock, prepared.problem.place)) continue;
        take_if_less(best, least_addition(prepared, feedstock, feedstock->name));
    }
    return best;
}

}  // namespace detail

/// The smallest single addition that lets all targets be met: the one of least wet mass among the
/// feedstocks the keeper listed (more of one than was allowed, scraps included); only if none of
/// them does, among the common beddings and water, then among common scraps; for a heap among its
/// browns, then among its greens. Ties go to the one
/// named first. Nothing if no single addition does. One linear problem for each candidate. Threads:
/// pure.
inline std::optional<Mend> find_mend(const PreparedBalance& prepared) {
    std::optional<Mend> best;
    for (const auto& entry : prepared.problem.entries) {
        if (!entry.most || barred_in(*entry.feedstock, prepared.problem.place)) continue;
        detail::take_if_less(best, detail::least_addition(prepared, entry.feedstock, entry.label));
    }
    const bool heap = prepared.problem.place == Place::heap;
    using Ids = std::span<const std::string_view>;
    if (!best) best = detail::least_of(prepared, heap ? Ids(heap_browns) : Ids(common_beddings));
    if (!best) best = detail::least_of(prepared, heap ? Ids(heap_greens) : Ids(common_scraps));
    return best;
}

}  // namespace feed
