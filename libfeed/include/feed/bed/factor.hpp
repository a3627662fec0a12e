#pragma once
#include <string_view>

#include "feed/quantity/factor.hpp"
#include "feed/quantity/grade.hpp"

namespace feed {

/// A published or judged limit: `watch` is where a hazard begins, `act` where it is certain.
struct Limit {
    double watch;
    double act;
    bool higher_is_worse;
    std::string_view unit;
    Grade grade;
    std::string_view source;
};

}  // namespace feed
