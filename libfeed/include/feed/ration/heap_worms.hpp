#pragma once
#include <algorithm>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "feed/feedstock/place.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/ration/caps.hpp"

// What of a heap may go on to the worms: the heap as pre-composting.
namespace feed {

/// What of a heap's recipe may go on to a worm bed once it was hot and has cooled. All of it lies
/// mixed, so what is barred even then keeps the whole heap off the worms, and the tightest cap of a
/// material, or of a kind of material, caps all.
struct HeapForWorms {
    std::vector<std::size_t> barred;  ///< indices of the recipe: worms must not get them even then
    std::vector<std::size_t> capped;  ///< indices: only so much in a week
    /// Of the mixed heap, kg in a week for each kg of worms; infinite where nothing of it is
    /// capped.
    double week_kg_per_kg_worms = solver::infinity;
};

/// Judges a recipe for the worms as pre-composted, by the rows and the caps of the bed. Shares of
/// the mixture are those that went on the heap (judgement: all of it shrinks alike).
/// Threads: pure. Time: the portions.
inline HeapForWorms heap_for_worms(std::span<const Portion> recipe) {
    HeapForWorms answer;
    Feeding whole;
    double whole_kg = 0.0;
    double most_used = 0.0;  // the largest share of a cap that the whole would take
    for (std::size_t i = 0; i < recipe.size(); ++i) {
        const double kg = recipe[i].wet_mass.in_kilograms();
        whole_kg += kg;
        if (!(kg > 0.0)) continue;
        auto after = std::make_shared<const Feedstock>(
            prepared(*recipe[i].feedstock, Preparation::pre_composted));
        if (barred_in(*after, Place::worm_bed)) answer.barred.push_back(i);
        const double cap_kg = detail::week_cap_kg(*after, 1.0);
        if (cap_kg < solver::infinity && cap_kg > 0.0) {
            answer.capped.push_back(i);
            most_used = std::max(most_used, kg / cap_kg);
        }
        whole.portions.push_back({std::move(after), recipe[i].wet_mass});
    }
    for (const double used : given_of_kinds({&whole, 1}, 1.0))
        most_used = std::max(most_used, used);
    if (most_used > 0.0) answer.week_kg_per_kg_worms = whole_kg / most_used;
    return answer;
}

}  // namespace feed
