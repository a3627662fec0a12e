#pragma once
// Reads arrays of feed_portion.
#include <cmath>
#include <string>
#include <vector>

#include "feed/blend/portion.hpp"
#include "feed/quantity/number_print.hpp"
#include "guard.hpp"
#include "handles.hpp"

namespace feed::c {

/// Names one member of an array: "portions[3].wet_kg".
inline std::string member(std::string_view array, std::size_t index, std::string_view field) {
    std::string name(array);
    name += '[';
    name += std::to_string(index);
    name += ']';
    if (!field.empty()) {
        name += '.';
        name += field;
    }
    return name;
}

// Smallest and largest mass of a portion: between them no sum overflows and none is lost to
// rounding towards zero, however many portions there are.
inline constexpr double least_portion_kg = 1e-9;
inline constexpr double most_portion_kg = 1e9;
inline constexpr std::string_view portion_range = "1e-9 kg to 1e9 kg";

inline feed_code no_portion(feed_error* error) {
    return fail(error, FEED_EMPTY, "count", "0", "at least 1", "there is no portion");
}

/// Checks and copies portions; on failure fills `error` and returns its code.
inline feed_code read_portions(const feed_portion* portions, std::size_t count,
                               std::string_view array, std::vector<Portion>& out,
                               feed_error* error) {
    if (portions == nullptr && count > 0) return null_argument(error, array);
    out.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        if (portions[i].feedstock == nullptr) {
            return null_argument(error, member(array, i, "feedstock"));
        }
        const double wet_kg = portions[i].wet_kg;
        if (!std::isfinite(wet_kg)) {
            return fail(error, FEED_NOT_A_NUMBER, member(array, i, "wet_kg"), "not a number",
                        portion_range, "the amount must be a finite number");
        }
        if (wet_kg < least_portion_kg || wet_kg > most_portion_kg) {
            return fail(error, FEED_OUT_OF_RANGE, member(array, i, "wet_kg"),
                        significant(wet_kg, 6) + " kg", portion_range,
                        wet_kg <= 0.0 ? "the amount must be above zero"
                                      : "nobody feeds or weighs such an amount");
        }
        out.push_back({portions[i].feedstock->content, wet_kilograms(wet_kg)});
    }
    return FEED_OK;
}

}  // namespace feed::c
