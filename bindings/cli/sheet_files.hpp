#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "feed/io/output_files.hpp"

namespace feed_command {

/// The files of a sheet that --sheet names: a file a page where the name ends in .svg, the pages
/// after the first with their number in the name; else one HTML page.
/// @param last  what the name of the last of several pages has in place of its number; may be
/// empty.
template <class Html>
std::vector<feed::io::OutputFile> sheet_files(const std::string& path,
                                              const std::vector<std::string>& pages,
                                              std::string_view last, Html&& html) {
    constexpr std::string_view ending = ".svg";
    const bool svg = path.size() >= ending.size() &&
                     std::string_view(path).substr(path.size() - ending.size()) == ending;
    if (!svg) return {{"--sheet", path, html()}};
    std::vector<feed::io::OutputFile> outputs{{"--sheet", path, pages.front()}};
    const std::string stem = path.substr(0, path.size() - ending.size());
    for (std::size_t i = 1; i < pages.size(); ++i) {
        const bool named = i + 1 == pages.size() && !last.empty();
        outputs.push_back(
            {"--sheet",
             stem + (named ? std::string(last) : "-" + std::to_string(i + 1)) + std::string(ending),
             pages[i]});
    }
    return outputs;
}

}  // namespace feed_command
