#pragma once
#include <optional>
#include <string>

#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/io/human_text.hpp"

namespace feed::io {

/// A wet mass in a keeper's measure: "2 handfuls", "1 1/2 pieces", "3.2 L"; a weight where the
/// feedstock has no density and no measure that fits.
/// as_given: the amount the keeper wrote, whose unit is kept; without it pieces are counted where
/// the feedstock comes in pieces and there are few, and a volume is used for other loose and liquid
/// things. Rounded as a person would: halves and quarters for what is counted, two figures for the
/// rest. Threads: pure.
std::string measure_text(WetMass wet_mass, const Feedstock& feedstock,
                         const std::optional<Amount>& as_given, UnitSystem units);

/// The measure with the weight beside it: "2 handfuls, about 170 g"; only the weight where the
/// measure is one; "a pinch" of what nobody weighs, and no weight that no kitchen scale shows.
std::string measure_and_weight_text(WetMass wet_mass, const Feedstock& feedstock,
                                    const std::optional<Amount>& as_given, UnitSystem units);

}  // namespace feed::io
