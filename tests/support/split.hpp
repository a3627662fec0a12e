#pragma once
#include <string>
#include <vector>

namespace feed_test {

/// The parts of a text between marks; the whole where there is no mark.
inline std::vector<std::string> split(const std::string& text, const std::string& mark) {
    std::vector<std::string> parts;
    std::size_t start = 0;
    for (std::size_t at; (at = text.find(mark, start)) != std::string::npos;
         start = at + mark.size())
        parts.push_back(text.substr(start, at - start));
    parts.push_back(text.substr(start));
    return parts;
}

}  // namespace feed_test
