#pragma once
#include <string>

#include "feed/io/human_text.hpp"

namespace feed::io {

/// "1.2 kg", "2.6 lb".
inline std::string kg_text(double kg, UnitSystem units) {
    return mass_text(kilograms(kg), units);
}

}  // namespace feed::io
