#pragma once
#include <span>
#include <string>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/balance/target_kind.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed {

namespace detail {

/// What it means that one property lies below or above its wish.
inline std::string remark_on(const Reached& one) {
    const bool high = one.target.wish_high && one.quantity.value > *one.target.wish_high;
    const auto percent = [](double share) { return significant(100.0 * share, 2) + " %"; };
    switch (one.target.property) {
        case TargetProperty::cn_ratio:
            return high
                       ? "C:N is above " + significant(*one.target.wish_high, 2) +
                             ":1: paper carbon is slow, so this takes weeks longer and does no harm."
                       : "C:N is below " + significant(*one.target.wish_low, 2) +
                             ":1: rich in nitrogen. Lay it thin under bedding; if it smells of "
                             "ammonia, stop.";
        case TargetProperty::moisture:
            return high ? "Moisture is above " + percent(*one.target.wish_high) +
                              ": give it to a bed that is not wet, under dry bedding."
                        : "Moisture is below " + percent(*one.target.wish_low) +
                              ": right for a moist bed; a dry one wants a sprinkle of water later.";
        case TargetProperty::salt_wet_fraction:
            return "Salt is above " + percent(*one.target.wish_high) +
                   ": worms grow less. Rinse it, or feed it seldom.";
        default:
            return std::string(kind(one.target.property).name) +
                   " is outside what is good to hold.";
    }
}

}  // namespace detail

/// What it means where a must holds and its wish does not, one sentence a target, in their order.
/// Threads: pure.
inline std::vector<std::string> remarks_on(std::span<const Reached> reached) {
    std::vector<std::string> remarks;
    for (const auto& one : reached) {
        if (one.inside && !one.wished && one.quantity.has_value())
            remarks.push_back(detail::remark_on(one));
    }
    return remarks;
}

}  // namespace feed
