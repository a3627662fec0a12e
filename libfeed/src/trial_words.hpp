#pragma once
#include <string>
#include <string_view>

#include "feed/trial/design.hpp"

// Words that the plan of a trial and its reading share.
namespace feed::io {

/// "12 in 100", "4 in 1000".
std::string in_hundred(double chance);
/// "luck alone would do this 12 times in 100".
std::string luck_text(double p);
/// "1.5", of how many times as long.
std::string fold_text(double ratio);

constexpr std::string_view past(TrialQuestion question) {
    return question == TrialQuestion::gone ? "gone" : "found";
}

}  // namespace feed::io
