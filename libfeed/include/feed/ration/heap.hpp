#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "feed/balance/target_sets.hpp"
#include "feed/blend/contribution.hpp"
#include "feed/blend/portion.hpp"
#include "feed/feedstock/part.hpp"

// A small hot heap: how the amounts of its balance are laid up. The amounts are those of the
// balance and no others; the layers only say in which order they go on.
namespace feed {

/// What a material is to the layers of a heap.
enum class HeapRole : std::uint8_t {
    chunky,    ///< keeps gaps open: wood chips, straw, stalks
    brown,     ///< other bedding: leaves, paper
    green,     ///< what heats: grass, scraps, manure
    sprinkle,  ///< lime, ash and the like: a dusting with the greens
    water,
};
inline constexpr std::array<std::string_view, 5> heap_role_words{"chunky", "brown", "green",
                                                                 "sprinkle", "water"};
constexpr std::string_view text(HeapRole role) noexcept {
    return heap_role_words[static_cast<std::size_t>(role)];
}

/// Materials of the table that stay stiff when wet and so keep gaps open (common practice; crushed
/// shells are left out, they lie too dense to add air); what a file makes of them is called by
/// their id.
inline constexpr std::array<std::string_view, 13> chunky_materials{"bamboo-sticks",
                                                                   "bark-hardwood",
                                                                   "bark-softwood",
                                                                   "corn-stalks-dry",
                                                                   "shrub-trimmings",
                                                                   "straw-oat",
                                                                   "straw-rice",
                                                                   "straw-wheat",
                                                                   "wood-chips-dry",
                                                                   "wood-chips-green",
                                                                   "wood-shavings-hardwood",
                                                                   "wood-shavings-pine",
                                                                   "wooden-sticks"};

/// The role of a feedstock in the layers. Constant time.
constexpr HeapRole heap_role(const Feedstock& f) noexcept {
    for (const std::string_view id : chunky_materials)
        if (f.id == id) return HeapRole::chunky;
    switch (part_of(f)) {
        case Part::scraps:
            return HeapRole::green;
        case Part::bedding:
            return HeapRole::brown;
        case Part::amendment:
            return HeapRole::sprinkle;
        case Part::poured_water:
            break;
    }
    return HeapRole::water;
}

/// Whether a heap of a size gets hot.
enum class HeapSize : std::uint8_t { too_small, heats, too_large };
inline constexpr std::array<std::string_view, 3> heap_size_words{"too_small", "heats", "too_large"};
constexpr std::string_view text(HeapSize size) noexcept {
    return heap_size_words[static_cast<std::size_t>(size)];
}

namespace heap_limits {

/// Higher than 5 ft a heap presses its own air out (Oregon county extension page): 5 ft each way.
inline constexpr double most_m3 = 3.54;
/// A layer of greens, m: 4 to 6 in are laid (county page, Washington); grass and what else mats at
/// most 2 in (city page, Missouri). The thin ends.
inline constexpr double green_layer_m = 0.10;
inline constexpr double matting_layer_m = 0.05;
/// Coarse stuff at the bottom, m (several inches; common practice), and the most of it that goes
/// there: the rest keeps gaps open within (judgement).
inline constexpr double bottom_layer_m = 0.10;
inline constexpr double most_at_the_bottom = 0.5;
/// Nobody lays more rounds than this (judgement).
inline constexpr int most_rounds = 12;

}  // namespace heap_limits

/// The layers of a heap, from the bottom up: what lies at the bottom, then `rounds` times the same,
/// greens first and what covers them on top. Shares are of the recipe and by index of its portions:
/// bottom_share + rounds * round_share is 1 for each that goes in.
struct HeapLayers {
    int rounds = 1;
    std::vector<double> bottom_share;
    std::vector<double> round_share;
    double volume_m3 = 0.0;  ///< loose, as the blend of the recipe has it
    double side_m = 0.0;     ///< of a cube of that volume
    HeapSize size = HeapSize::too_small;
};

/// The size of a heap of a volume, m3. Constant time.
constexpr HeapSize heap_size(double volume_m3) noexcept {
    if (volume_m3 < least_hot_heap_m3) return HeapSize::too_small;
    return volume_m3 > heap_limits::most_m3 ? HeapSize::too_large : HeapSize::heats;
}

namespace detail {

/// Loose volume of the portions of one role, m3; of those that mat alone where that is asked.
inline double loose_m3_of(std::span<const Portion> recipe, HeapRole role, bool matting_only) {
    double sum = 0.0;
    for (const Portion& one : recipe) {
        const Feedstock& f = *one.feedstock;
        if (heap_role(f) != role || (matting_only && !f.has(Caution::matting))) continue;
        sum += one.wet_mass.in_kilograms() * contribution_of(f)[Addend::loose_m3].value;
    }
    return sum;
}

}  // namespace detail

/// Lays a recipe up: so many rounds that no layer of greens is thicker than layers are laid; coarse
/// stuff at the bottom, or without it a share of the browns. Water and lime go on with each round.
/// @param recipe     what goes in; nothing barred, as a balance leaves it.
/// @param volume_m3  of all of it, loose, 0 or more. Threads: pure. Time: the portions.
inline HeapLayers heap_layers(std::span<const Portion> recipe, double volume_m3) {
    HeapLayers heap;
    heap.volume_m3 = volume_m3;
    heap.side_m = std::cbrt(volume_m3);
    heap.size = heap_size(volume_m3);
    const double area_m2 = std::max(heap.side_m * heap.side_m, 1e-9);
    const double greens = detail::loose_m3_of(recipe, HeapRole::green, false) / area_m2;
    const double matting = detail::loose_m3_of(recipe, HeapRole::green, true) / area_m2;
    const double rounds =
        std::max(greens / heap_limits::green_layer_m, matting / heap_limits::matting_layer_m);
    heap.rounds = static_cast<int>(
        std::clamp(std::ceil(rounds), 1.0, static_cast<double>(heap_limits::most_rounds)));
    const double chunky_m3 = detail::loose_m3_of(recipe, HeapRole::chunky, false);
    const HeapRole below = chunky_m3 > 0.0 ? HeapRole::chunky : HeapRole::brown;
    const double below_share = chunky_m3 > 0.0
                                   ? std::min(heap_limits::most_at_the_bottom,
                                              heap_limits::bottom_layer_m * area_m2 / chunky_m3)
                                   : 1.0 / (heap.rounds + 1.0);
    for (const Portion& one : recipe) {
        const double bottom = heap_role(*one.feedstock) == below ? below_share : 0.0;
        heap.bottom_share.push_back(bottom);
        heap.round_share.push_back((1.0 - bottom) / heap.rounds);
    }
    return heap;
}

}  // namespace feed
