#pragma once
// A bed and a feeding as Python gives them.
#include <array>
#include <string_view>

#include "convert.hpp"
#include "feed/bed/bed.hpp"

namespace feed::python {

inline constexpr std::array<std::string_view, 6> squeeze_keys{"crumbly",    "damp",    "drops",
                                                              "many drops", "streams", "pooling"};

inline constexpr std::array<std::string_view, 4> species_names{
    "eisenia fetida", "eisenia hortensis", "perionyx excavatus", "eudrilus eugeniae"};

using FeedingsGiven = std::vector<Feeding>;

}  // namespace feed::python
