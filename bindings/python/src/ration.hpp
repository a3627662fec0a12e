#pragma once
// A bed and what is at hand as Python gives them.
#include "bed.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/ration/decide.hpp"

namespace feed::python {

/// What a ration is decided from, without what is at hand. Raises out_of_range.
RationInput ration_input_of(const Bed& bed, std::optional<double> spread_m2,
                            const std::optional<Calibration>& calibration);

/// A portion, or an amount in words, as a thing at hand that keeps its measure.
ThingAtHand thing_of_portion(const PortionOrText& given, const ContainerVolumes& containers);

}  // namespace feed::python
