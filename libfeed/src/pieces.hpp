#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace feed::io {

/// A text parted at commas, semicolons, "and" and "&". A comma between digits parts nothing.
std::vector<std::string_view> pieces_of(std::string_view text);

/// The words of a command line as sentences: words typed without quotation marks belong together.
std::vector<std::string> sentences_of_words(const std::vector<std::string>& words);

/// The same as pieces: what commas and "and" part is parted.
std::vector<std::string> pieces_of_words(const std::vector<std::string>& words);

}  // namespace feed::io
