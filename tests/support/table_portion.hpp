#pragma once
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string_view>

#include "feed/blend/portion.hpp"
#include "feed/feedstock/table.hpp"

namespace feed_test {

/// A feedstock of the table by its id. An id that the table has lost ends the program by name: no
/// test may go on without it.
inline std::shared_ptr<const feed::Feedstock> from_table(std::string_view id) {
    const auto index = feed::find_id(id);
    if (!index) {
        std::fprintf(stderr, "no feedstock %.*s in the table\n", static_cast<int>(id.size()),
                     id.data());
        std::abort();
    }
    return std::make_shared<const feed::Feedstock>(feed::feedstock_at(*index));
}

inline feed::Portion portion(std::string_view id, double wet_kg) {
    return {from_table(id), feed::wet_kilograms(wet_kg)};
}

}  // namespace feed_test
