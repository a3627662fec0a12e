#pragma once
#include <string_view>

#include "feed/quantity/grade.hpp"

namespace feed {

/// A number that a model leans on: value, range, unit, grade and where it comes from. Factors of
/// grade d are judgements of this project, to be moved by evidence, and are printed where they
/// decide.
struct Factor {
    double value;
    double low;
    double high;
    std::string_view unit;
    Grade grade;
    std::string_view source;
};

}  // namespace feed
