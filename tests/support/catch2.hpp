#pragma once
// One include for Catch2 v2 (Debian 12) and v3 (Ubuntu 24.04).
#if FEED_CATCH2_VERSION == 2
#include <catch2/catch.hpp>
namespace feed_test {
using Catch::Detail::Approx;
}
#else
#include <catch2/catch_all.hpp>
namespace feed_test {
using Catch::Approx;
}
#endif
