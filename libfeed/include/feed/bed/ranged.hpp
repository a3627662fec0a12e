#pragma once
#include "feed/bed/factor.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/quantity/range.hpp"

namespace feed {

/// The name of Range in the bed layer.
using Ranged = Range;

}  // namespace feed
