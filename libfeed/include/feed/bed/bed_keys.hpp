#pragma once
#include <array>
#include <string_view>

#include "feed/bed/bed.hpp"

// The words of a bed in files, JSON and Python, in the order of their enumerators. What else a
// keeper may write for them stands with the reader of files.
namespace feed {

inline constexpr std::array<std::string_view, 7> container_keys{
    "tray", "tote", "bucket", "bath", "flow-through", "windrow", "box"};
inline constexpr std::array<std::string_view, 3> drainage_keys{"open", "tap", "none"};
inline constexpr std::array<std::string_view, 3> lid_keys{"none", "loose", "tight"};
inline constexpr std::array<std::string_view, 3> ventilation_keys{"open top", "holes", "closed"};
inline constexpr std::array<std::string_view, 4> species_keys{
    "eisenia fetida", "eisenia hortensis", "perionyx excavatus", "eudrilus eugeniae"};
inline constexpr std::array<std::string_view, 3> worms_known_keys{"weighed", "counted",
                                                                  "as bought"};
inline constexpr std::array<std::string_view, 6> squeeze_keys{"crumbly",    "damp",    "drops",
                                                              "many drops", "streams", "pooling"};

/// The word of a squeeze test. Threads: pure.
constexpr std::string_view text(Squeeze squeeze) noexcept {
    return squeeze_keys[static_cast<std::size_t>(squeeze)];
}

}  // namespace feed
