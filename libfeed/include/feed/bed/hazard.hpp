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
    cold,
};
inline constexpr std::size_t hazard_count = 11;
inline constexpr std::array<std::string_view, hazard_count> hazard_words{
    "sour",    "wet",      "dry",     "hot",    "ammonia", "salty",
    "overfed", "underfed", "airless", "greasy", "cold"};

constexpr std::string_view text(Hazard hazard) noexcept {
    return hazard_words[static_cast<std::size_t>(hazard)];
}

/// How serious a hazard is. `unknown`: a property is missing for more than a tenth of the scraps.
enum class Level : std::uint8_t { none, watch, act, unknown };
inline constexpr std::array<std::string_view, 4> level_words{"none", "watch", "act", "unknown"};

constexpr std::string_view text(Level level) noexcept {
    return level_words[static_cast<std::size_t>(level)];
}

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
};

/// A warning that belongs to a feedstock of the feeding.
struct CautionFinding {
    Caution caution = Caution::acidity;
    Level level = Level::none;
    std::string feedstock;  ///< its name, or "" where several share the caution
    std::string text;
    std::string source;
    bool dig_out = false;  ///< it went in and is never fed: it comes out before anything else
};

}  // namespace feed
