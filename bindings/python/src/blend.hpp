#pragma once
// The quantities of a blend by their keys, for one blend and for many.
#include <array>
#include <string>

#include "convert.hpp"
#include "feed/blend/row_quantity.hpp"

namespace feed::python {

/// A blend as Python holds it.
struct SharedBlend {
    std::vector<SharedPortion> portions;
    BlendProperties properties;
};

/// A quantity of a blend: its key in answers and what it is.
struct BlendKey {
    const char* key;
    const char* meaning;
};

/// In the order of RowQuantity.
extern const std::array<BlendKey, row_quantity_count> blend_keys;

/// The quantity of a key. Raises unknown_property.
RowQuantity quantity_of_key(const std::string& key);

}  // namespace feed::python
