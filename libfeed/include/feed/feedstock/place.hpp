#pragma once
#include <cstdint>
#include <string_view>

#include "feed/feedstock/feedstock.hpp"

// A stance is for a place: what worms must not get, a heap may bear, and the other way round.
namespace feed {

/// Where a feeding goes.
enum class Place : std::uint8_t { worm_bed, heap };

namespace detail {

constexpr std::uint32_t bit(Caution caution) noexcept {
    return static_cast<std::uint32_t>(caution);
}

/// Cautions that say nothing against a feedstock in a heap: it is large, airy and without worms, so
/// sour, sharp-smelling and heating things do it no harm (common practice).
inline constexpr std::uint32_t harmless_in_a_heap =
    bit(Caution::acidity) | bit(Caution::allium) | bit(Caution::citrus_oil) |
    bit(Caution::heating) | bit(Caution::matting) | bit(Caution::dust);

/// Waste of pets or people: marked so, or a guarded material with germs that is neither meat nor
/// dairy (urine).
constexpr bool is_body_waste(const Feedstock& f) noexcept {
    if (f.has(Caution::pet_waste)) return true;
    return f.group == Group::guarded && f.has(Caution::pathogen) && !f.has(Caution::meat_dairy);
}

constexpr Stance stance_of_heap(const Feedstock& f) noexcept {
    if (f.stance == Stance::avoid) {
        // Too rich in nitrogen for worms, and no more than that: a heap takes a little (urea).
        constexpr std::uint32_t rich = bit(Caution::ammonia) | bit(Caution::heating);
        const bool only_rich = f.cautions != 0 && (f.cautions & ~rich) == 0;
        return only_rich ? Stance::feed_little : Stance::avoid;
    }
    const bool touchy_for_worms_only = (f.cautions & ~harmless_in_a_heap) == 0;
    return touchy_for_worms_only ? Stance::feed : f.stance;
}

}  // namespace detail

/// Whether a feedstock may go into a place. In a worm bed: the table's stance, or the keeper's own.
/// In a heap: what the table says, else by its cautions: what the worms must not get stays out of a
/// small heap too (meat, dairy, fat, waste of pets and people, coatings, plastics, salt, caustic
/// lime), except what is only too rich in nitrogen, a little at a time; what is touchy only because
/// of worms (onion, citrus, sour) may be fed. A stance that a file gives holds in both. Rules:
/// common practice, grade D. Constant time.
constexpr Stance stance_in(const Feedstock& f, Place place) noexcept {
    if (place == Place::worm_bed || f.stance_lifted) return f.stance;
    if (f.heap_stance) return *f.heap_stance;
    return detail::stance_of_heap(f);
}

/// Whether a feedstock must not go into a place at all. Constant time.
constexpr bool barred_in(const Feedstock& f, Place place) noexcept {
    return stance_in(f, place) == Stance::avoid;
}

/// Whether no file may lift the bar on a feedstock: waste of pets and people, caustic lime, coated,
/// treated or glued wood and paper, plastics, poisons (weedkiller, medicine, tobacco). Constant
/// time.
constexpr bool bar_stands(const Feedstock& f) noexcept {
    return f.stance == Stance::avoid &&
           (detail::is_body_waste(f) || f.has(Caution::caustic) || f.has(Caution::coated) ||
            f.has(Caution::plastic_film) || f.has(Caution::pesticide));
}

/// Why a feedstock is never fed and where with it instead, each to follow "never: " and "instead:
/// ".
struct BarWords {
    std::string_view why;
    std::string_view instead;
};

/// The words of a bar: those of the table, else from the worst caution of the feedstock; local
/// rules come first where waste is concerned. Static storage. Constant time.
constexpr BarWords bar_words(const Feedstock& f) noexcept {
    if (!f.why_barred.empty()) return {f.why_barred, f.instead};
    if (detail::is_body_waste(f))
        return {"germs and parasites of pets and people live on in a bed",
                "the toilet or the household waste, as local rules say"};
    if (f.has(Caution::caustic))
        return {"it burns worms and skin", "keep it dry and closed; ground limestone serves here"};
    if (f.has(Caution::coated) || f.has(Caution::plastic_film))
        return {"coating, glue or plastic stays in the bed", "recycling or household waste"};
    if (f.has(Caution::meat_dairy))
        return {"it rots, stinks and draws flies and rats",
                "the food waste bin or household waste"};
    if (f.has(Caution::oil))
        return {"fat coats worms and keeps the air out", "used oil collection or household waste"};
    if (f.group == Group::manures)
        return {"it carries germs and parasites, and ammonia", "as the local rules for manure say"};
    if (f.has(Caution::salt)) return {"salt kills worms", "household waste"};
    if (f.has(Caution::ammonia))
        return {"it gives off ammonia, which kills worms", "the garden, a little at a time"};
    if (f.has(Caution::acidity))
        return {"strong acid burns worms", "the drain, with plenty of water"};
    return {"it is marked as never to be fed", "household waste, or as local rules say"};
}

/// Why a feedstock is never fed, in a few plain words. Static storage.
constexpr std::string_view why_barred(const Feedstock& f) noexcept {
    return bar_words(f).why;
}

/// Where to go with a feedstock that is never fed, in a few plain words. Static storage.
constexpr std::string_view instead_of(const Feedstock& f) noexcept {
    return bar_words(f).instead;
}

}  // namespace feed
