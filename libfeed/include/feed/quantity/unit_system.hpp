#pragma once
#include <cstdint>

namespace feed {

/// Which units a person reads. Numbers are metric everywhere; only sentences have a choice.
enum class UnitSystem : std::uint8_t { metric, us };

}  // namespace feed
