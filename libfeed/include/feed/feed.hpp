#pragma once
// Everything public in the core. Start here.
#include "feed/version.hpp"
