#pragma once
#include <string_view>

#include "feed/quantity/error.hpp"

namespace feed::io {

/// The stable name of a code ("unit_missing"), as the C interface and JSON give it. Static.
std::string_view error_name(ErrorCode code) noexcept;

}  // namespace feed::io
