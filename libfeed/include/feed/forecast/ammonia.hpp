#pragma once
// The check needs the same equilibrium, so it lives one layer down.
#include "feed/bed/free_ammonia.hpp"  // IWYU pragma: export
