#pragma once
// The quantities of a blend by their keys, for one blend and for many.
#include <array>
#include <string_view>

#include "convert.hpp"

namespace feed::python {

/// A blend as Python holds it.
struct SharedBlend {
    std::vector<SharedPortion> portions;
    BlendProperties properties;
};

/// One quantity of a blend: its key in answers, what it is, and where it stands.
struct BlendKey {
    const char* key;
    const char* meaning;
    Estimate<double> (*read)(const BlendProperties&);
};

inline constexpr std::size_t blend_key_count = 16;
extern const std::array<BlendKey, blend_key_count> blend_keys;

/// Place of a key among `blend_keys`. Raises unknown_property.
std::size_t place_of_quantity(const std::string& key);

}  // namespace feed::python
