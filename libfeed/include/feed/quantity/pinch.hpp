#pragma once

// "A pinch": what people take between two or three fingers, and too little to weigh (common
// practice). Whoever writes a pinch has `usual_kg` or somewhat more or less; "a pinch" in an answer
// is anything up to `most_kg`, a level teaspoon of lime.
namespace feed::pinch {

inline constexpr double least_kg = 0.0002;
inline constexpr double usual_kg = 0.0005;
inline constexpr double most_kg = 0.005;

/// Whether a mass is a pinch: what a kitchen scale, which goes by grams, shows as `most_kg` or
/// less.
constexpr bool holds(double kg) noexcept {
    constexpr double scale_step_kg = 0.001;
    return kg < most_kg + scale_step_kg;
}

}  // namespace feed::pinch
