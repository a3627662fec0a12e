#pragma once
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>

#include "feed/diary/diary.hpp"
#include "feed/diary/evidence.hpp"

namespace feed {

/// What should be left of a feeding when it is looked at.
struct LookBack {
    std::optional<int> day;  ///< since it was fed; nothing: nothing was fed
    double share_left = 0.0;
    double share_left_low = 0.0;
    double share_left_high = 0.0;
};

/// How a look compares with what the forecast said should be seen.
enum class LookBackVerdict : std::uint8_t {
    nothing_said,  ///< the look says nothing of the food
    as_forecast,
    slower,
    faster,
};

/// A look-back that is closed.
struct ClosedLookBack {
    LookBackVerdict verdict = LookBackVerdict::nothing_said;
    std::string text;  ///< what the look tells; what goes in is the ration's to say
};

/// Share of the food left by a look, or nothing.
/// @param scraps_fed  wet mass of the scraps that the look-back speaks of.
inline std::optional<double> share_left_of(const Observation& look, WetMass scraps_fed) noexcept {
    if (look.left && scraps_fed.in_kilograms() > 0.0)
        return look.left->in_kilograms() / scraps_fed.in_kilograms();
    if (look.share_gone) return 1.0 - *look.share_gone;
    if (look.gone == FoodGone::yes) return 0.5 * gone_share;
    return std::nullopt;
}

/// While more than this share of the food is left, more is never advised.
inline constexpr double too_much_left_for_more = 0.5;

/// Closes a look-back with what was seen: within the usual error of the way it was judged counts as
/// forecast; nothing counts as faster while over half of what the worms have is left. It says no
/// amount and no day: those are the ration's, so that there is one answer.
/// @param said         what was expected, at this bin's own rates (look_back_on).
/// @param all_left     soft food of all feedings that is left, as a share of what they brought.
inline ClosedLookBack close_look_back(const LookBack& said, const Observation& look,
                                      WetMass scraps_fed, double all_left = 0.0) {
    auto left = share_left_of(look, scraps_fed);
    // "Not gone" is a share above 0.15: news only where less was expected.
    if (!left && look.gone == FoodGone::no) left = std::max(said.share_left, 2.0 * gone_share);
    if (!said.day || !left)
        return {LookBackVerdict::nothing_said,
                "The look says nothing of the food that was left, so the look-back stays open."};
    const LeftoverMethod method = look.left         ? LeftoverMethod::weighed
                                  : look.share_gone ? LeftoverMethod::by_eye
                                                    : LeftoverMethod::gone;
    const double slack = 1.5 * usual_error_of_share(method);
    if (*left > said.share_left + slack)
        return {LookBackVerdict::slower, "More is left than expected."};
    if (*left < said.share_left - slack) {
        if (*left <= too_much_left_for_more && all_left <= too_much_left_for_more)
            return {LookBackVerdict::faster, "Less is left than expected."};
        return {LookBackVerdict::as_forecast, "Less of it is left than expected."};
    }
    return {LookBackVerdict::as_forecast, "As much is left as expected."};
}

}  // namespace feed
