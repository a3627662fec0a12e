#pragma once
#include <cstddef>

#include "feed/diary/calibration.hpp"

namespace feed::python {

/// A bin's own rates as Python holds them.
struct SharedCalibration {
    Calibration content;
    std::size_t unused = 0;  ///< looks at leftovers that no feeding explains
};

}  // namespace feed::python
