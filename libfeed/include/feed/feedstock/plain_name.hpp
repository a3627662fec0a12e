#pragma once
#include <algorithm>
#include <cstddef>
#include <string>

#include "feed/feedstock/feedstock.hpp"

namespace feed {

/// A material as it is named in a sentence: the keeper's own words, else the name of the table
/// without its remarks ("corrugated cardboard" of "Corrugated cardboard, torn or shredded").
/// @param label  the keeper's own words; the name, or nothing, where there are none. Threads: pure.
inline std::string plain_name(const std::string& label, const Feedstock& feedstock) {
    if (!label.empty() && label != feedstock.name) return label;
    const std::size_t comma = feedstock.name.find(',');
    const std::size_t bracket = feedstock.name.find(" (");
    // "Hedge clippings (laurel, ivy)": a comma in brackets parts no remark from the name.
    std::string name =
        feedstock.name.substr(0, comma < std::string::npos ? std::min(comma, bracket) : comma);
    const bool is_word = name.size() > 1 && name[1] >= 'a' && name[1] <= 'z';
    if (is_word && name[0] >= 'A' && name[0] <= 'Z')
        name[0] = static_cast<char>(name[0] - 'A' + 'a');
    return name;
}

}  // namespace feed
