#pragma once
#include <optional>
#include <string>

#include "feed/bed/species.hpp"
#include "feed/diary/date.hpp"
#include "feed/forecast/forecast_result.hpp"
#include "feed/io/human_text.hpp"

namespace feed::io {

/// What a picture of a forecast says beside its curves.
struct PictureText {
    std::string title;
    std::optional<Date> day_zero;  ///< dates below the axis; day numbers without it
    UnitSystem units = UnitSystem::metric;
    std::optional<int> next_feeding_day;  ///< of the ration that the forecast follows
};

/// A forecast drawn as SVG 1.1: moisture, food left and acid, one above the other, each with its
/// envelope, its limits and the days of feeding. Told apart by place and words, not by colour
/// alone; readable in print. limits: of the species in the bed. Threads: pure.
std::string forecast_svg(const Forecast& forecast, const SpeciesLimits& limits,
                         const PictureText& text);

}  // namespace feed::io
