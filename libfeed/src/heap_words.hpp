#pragma once
#include <string>
#include <string_view>

#include "feed/ration/heap_log.hpp"

// Words that the first screen of a heap and what is behind it share.
namespace feed::io {

/// Where it was measured: "in the middle", "at 15 cm deep", "at the edge", after a blank.
inline std::string place_text(const std::string& place) {
    if (place.empty()) return "";
    if (place.find("deep") != std::string::npos) return " at " + place;
    const bool inside = is_inside_heap(place);
    return (inside ? " in the " : " at the ") + place;
}

inline constexpr std::string_view turning_care =
    "Take care: steam and dust carry mould and germs. Keep it damp, stand upwind, wash your hands.";
inline constexpr std::string_view who_turns =
    "With asthma or a weak immune system let somebody else turn it.";

}  // namespace feed::io
