#pragma once
#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/bed/factor.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/quantity/estimate.hpp"

namespace feed {

/// One thing that can go wrong in a bed.
enum class Hazard : std::uint8_t {
    sour,
    wet,
    dry,
    hot,
    ammonia,
    salty,
    overfed,
    underfed,
    airless,
    greasy,
};
inline constexpr std::size_t hazard_count = 10;
inline constexpr std::array<std::string_view, hazard_count> hazard_words{
    "sour", "wet", "dry", "hot", "ammonia", "salty", "overfed", "underfed", "airless", "greasy"};

constexpr std::string_view text(Hazard hazard) noexcept {
    return hazard_words[static_cast<std::size_t>(hazard)];
}

/// How serious a hazard is. `unknown`: a property is missing for more than a tenth of the scraps.
enum class Level : std::uint8_t { none, watch, act, unknown };
inline constexpr std::array<std::string_view, 4> level_words{"none", "watch", "act", "unknown"};

constexpr std::string_view text(Level level) noexcept {
    return level_words[static_cast<std::size_t>(level)];
}

/// What kind of step a remedy is, most reversible first.
enum class RemedyKind : std::uint8_t {
    none,       ///< nothing is needed
    look,       ///< watch the bed; nothing computed would help
    feed_less,  ///< part now, the rest later
    spread,     ///< over a larger surface
    leave_out,  ///< less of one portion
    open_lid,   ///< for some days, so that more evaporates
    feed_more,
    add_bedding,
    add_water,
    add_lime,
    cool,
    cannot,  ///< nothing tried takes the hazard away; the text says what comes nearest
};

inline constexpr std::array<std::string_view, 12> remedy_kind_words{
    "none",      "look",        "feed less", "spread",   "leave out", "open lid",
    "feed more", "add bedding", "add water", "add lime", "cool",      "cannot"};

constexpr std::string_view text(RemedyKind kind) noexcept {
    return remedy_kind_words[static_cast<std::size_t>(kind)];
}

/// A computed step. The amounts that do not belong to the kind are 0.
struct Remedy {
    RemedyKind kind = RemedyKind::none;
    std::string text;      ///< one sentence with amounts
    std::string material;  ///< id of the feedstock to add, or ""
    WetMass add;
    WetMass feed_now;    ///< of the scraps
    WetMass feed_later;  ///< of the scraps
    Duration later = days(0);
    Area spread = square_metres(0);
    /// Re-checked with the amounts as printed: the hazard is gone.
    bool hazard_gone = false;
    /// Hazards that the step would raise, from the same re-check.
    std::vector<Hazard> raises;
};

/// The judgement on one hazard.
struct HazardFinding {
    Hazard hazard = Hazard::sour;
    Level level = Level::none;
    Estimate<double> value;
    double limit = 0.0;  ///< where it begins to matter (`watch`)
    double limit_act = 0.0;
    bool higher_is_worse = true;
    std::string_view unit;    ///< of value and limits
    std::string_view source;  ///< of the limits; text with static storage
    std::string why;          ///< one sentence with the numbers
    Remedy remedy;
    std::vector<Remedy> other_remedies;  ///< further steps that take the hazard away
};

/// A warning that belongs to a feedstock of the feeding.
struct CautionFinding {
    Caution caution = Caution::acidity;
    Level level = Level::none;
    std::string feedstock;  ///< its name, or "" where several share the caution
    std::string text;
    std::string source;
};

/// A material to add with a joint remedy.
struct RemedyAddition {
    std::string material;  ///< id of the feedstock
    WetMass add;
};

/// One set of steps against all hazards at once, found with the solver of the balance and judged
/// again.
struct JointRemedy {
    bool found = false;  ///< no amounts that fit clear them all at once where it is not
    std::string text;
    std::vector<RemedyAddition> additions;
    double share_now = 1.0;          ///< of the feeding, without the portion that is cut down
    WetMass feed_now;                ///< the scraps in that share
    WetMass feed_later;              ///< of the scraps
    Duration later = days(0);        ///< 0: none needed, or no day found
    std::string cut_down;            ///< id of a portion that is cut down, or ""
    WetMass keep;                    ///< what is kept of it
    Area spread = square_metres(0);  ///< over which the feeding is laid
    std::vector<Hazard> clears;
    std::vector<Hazard> stays;  ///< hazards that no step takes away
};

/// The answer of a check. `hazards` holds every hazard in the order of the enumeration.
struct CheckResult {
    std::vector<HazardFinding> hazards;
    std::vector<CautionFinding> cautions;
    /// Where several hazards are raised, or the step against one raises another.
    std::optional<JointRemedy> together;
    std::vector<Assumption> assumed;
    std::string look_back;  ///< what should be seen, and when
    Grade grade = Grade::d;

    const HazardFinding& operator[](Hazard hazard) const {
        return hazards[static_cast<std::size_t>(hazard)];
    }
};

}  // namespace feed
