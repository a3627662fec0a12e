#include "trial_words.hpp"

#include <cmath>

#include "feed/quantity/number_print.hpp"

namespace feed::io {

std::string in_hundred(double chance) {
    if (chance >= 0.0095) return std::to_string(std::lround(100.0 * chance)) + " in 100";
    if (chance >= 0.0005) return std::to_string(std::lround(1000.0 * chance)) + " in 1000";
    return "less than 1 in 1000";
}

std::string luck_text(double p) {
    if (p >= 0.9995) return "luck alone does this every time";
    const std::string share = in_hundred(p);
    const std::size_t in = share.find(" in ");
    if (p < 0.0005) return "luck alone would do this less than once in 1000 times";
    const std::string count = share.substr(0, in);
    return "luck alone would do this " + (count == "1" ? "once" : count + " times") +
           share.substr(in);
}

std::string fold_text(double ratio) {
    return significant(ratio, 2);
}

}  // namespace feed::io
