#pragma once
#include <algorithm>
#include <cstdint>

namespace feed {

/// How good a number is: the worst grade an answer leans on is the grade of the answer.
///   a  read in its source
///   b  derived from such values by a named formula
///   c  recalled, or derived from a recalled value
///   d  a judgement of this project, such as a decay class or a default range
enum class Grade : std::uint8_t { a, b, c, d };

/// The worse of two grades.
constexpr Grade worst(Grade first, Grade second) noexcept {
    return std::max(first, second);
}

/// "A", "B", "C" or "D".
constexpr const char* text(Grade grade) noexcept {
    switch (grade) {
        case Grade::a:
            return "A";
        case Grade::b:
            return "B";
        case Grade::c:
            return "C";
        case Grade::d:
            return "D";
    }
    return "D";
}

}  // namespace feed
