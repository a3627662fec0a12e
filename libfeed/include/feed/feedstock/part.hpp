#pragma once
#include <cstdint>

#include "feed/feedstock/feedstock.hpp"

namespace feed {

/// What a feedstock is to a feeding: one answer for every verb.
enum class Part : std::uint8_t { scraps, bedding, amendment, poured_water };

/// The part of a feedstock, its roles first. One role decides alone, whatever the group: an own
/// bedding or lime given only by `roles` is bedding or amendment. A liquid (brewed coffee) is
/// poured. Of several roles the group of the table picks its own, a grown or bought bedding that
/// may also be fed (hay) is bedding; else what may be fed is scraps (manures, bran, husks). Without
/// a role the group decides. Constant time.
constexpr Part part_of(const Feedstock& f) noexcept {
    if (f.has(Role::water)) return Part::poured_water;
    const bool scraps = f.has(Role::scraps);
    const bool bedding = f.has(Role::bedding);
    const bool amendment = f.has(Role::amendment);
    const bool no_role = !scraps && !bedding && !amendment;
    if (no_role && f.group == Group::water) return Part::poured_water;
    if ((bedding || no_role) && f.group == Group::beddings) return Part::bedding;
    if ((amendment || no_role) && !scraps && f.group == Group::amendments) return Part::amendment;
    if (scraps || no_role) return Part::scraps;
    return bedding ? Part::bedding : Part::amendment;
}

/// Water as such: poured, and nothing that is fed or wanted used up (brewed coffee is). Constant
/// time.
constexpr bool is_plain_water(const Feedstock& f) noexcept {
    return part_of(f) == Part::poured_water && !f.has(Role::scraps) && !f.has(Role::amendment);
}

}  // namespace feed
