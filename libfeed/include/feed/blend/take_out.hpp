#pragma once
#include <span>
#include <string>
#include <vector>

#include "feed/blend/portion.hpp"
#include "feed/feedstock/place.hpp"
#include "feed/feedstock/plain_name.hpp"

namespace feed {

/// Something that is never fed here.
struct TakeOut {
    std::string feedstock;  ///< id
    std::string label;      ///< the keeper's own words, or the name
    std::string why;        ///< a few words
    std::string instead;    ///< where with it
};

/// Why and where with it. @param label  the keeper's own words; the name where empty.
inline TakeOut take_out(const Feedstock& f, const std::string& label) {
    return {f.id, plain_name(label, f), std::string(why_barred(f)), std::string(instead_of(f))};
}

/// What of some portions must not go into a place, each feedstock once, in their order. Portions of
/// nothing do not count. Threads: pure.
inline std::vector<TakeOut> taken_out(std::span<const Portion> portions, Place place) {
    std::vector<TakeOut> out;
    for (const auto& portion : portions) {
        const Feedstock& f = *portion.feedstock;
        if (!(portion.wet_mass.in_kilograms() > 0.0) || !barred_in(f, place)) continue;
        bool known = false;
        for (const auto& one : out)
            known = known || one.feedstock == f.id;
        if (!known) out.push_back(take_out(f, ""));
    }
    return out;
}

}  // namespace feed
