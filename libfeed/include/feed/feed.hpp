#pragma once
// Everything public in the core. Start here.
#include "feed/version.hpp"
#include "feed/bed/bed.hpp"
#include "feed/bed/species.hpp"
