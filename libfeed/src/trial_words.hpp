#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "feed/trial/design.hpp"

// Words that the plan of a trial and its reading share.
namespace feed::io {

/// "12 in 100", "4 in 1000".
std::string in_hundred(double chance);
/// "luck alone would do this 12 times in 100".
std::string luck_text(double p);
/// "1.5", of how many times as long.
std::string fold_text(double ratio);

/// More words than this are no first screen.
inline constexpr std::size_t most_screen_words = 110;
std::size_t words_in(std::string_view text);
std::size_t words_in(const std::vector<std::string>& lines);

constexpr std::string_view past(TrialQuestion question) {
    return question == TrialQuestion::gone ? "gone" : "found";
}

}  // namespace feed::io
