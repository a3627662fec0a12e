#pragma once
// A bed and a feeding as Python gives them.
#include "convert.hpp"
#include "feed/bed/bed.hpp"

namespace feed::python {

using FeedingsGiven = std::vector<Feeding>;

}  // namespace feed::python
