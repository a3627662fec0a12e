#pragma once
#include <string>
#include <string_view>

#include "feed/quantity/number_print.hpp"

namespace feed {

/// What can be true of a number at all: outside it is a slip of the pen. What is good or harmful is
/// judged elsewhere. Both ends may be met.
struct Border {
    std::string_view unit;  ///< of `lowest` and `highest`; empty for a bare number
    double lowest;
    double highest;
    bool is_share = false;  ///< of one: a number from 1 to 100 was probably meant as per cent

    /// Whether a number keeps within; not a number and infinity do not.
    constexpr bool holds(double number) const noexcept {
        return number >= lowest && number <= highest;
    }
    /// Whether a number outside was probably meant as per cent.
    constexpr bool looks_like_percent(double number) const noexcept {
        return is_share && number > 1.0 && number <= 100.0;
    }
    /// A number with the unit: "55 deg C".
    std::string with_unit(double number) const { return with_unit(significant(number, 6)); }
    /// "-40 to 80 deg C".
    std::string allowed() const {
        return with_unit(significant(lowest, 6) + " to " + significant(highest, 6));
    }

private:
    std::string with_unit(std::string text) const {
        if (unit.empty()) return text;
        text += ' ';
        text += unit;
        return text;
    }
};

}  // namespace feed
