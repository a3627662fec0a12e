#pragma once
#include <cmath>
#include <string>

namespace feed {

/// Prints a number with at most `digits` significant digits (1 to 9), a decimal point in every
/// locale, no exponent and no trailing zeros: significant(0.04567, 2) is "0.046". Numbers of more
/// digits than asked are rounded ("1234" with 2 digits is "1200"). Threads: pure.
inline std::string significant(double number, int digits) {
    if (!std::isfinite(number)) return "unknown";
    const bool negative = number < 0.0;
    double size = negative ? -number : number;
    if (size == 0.0) return "0";
    int exponent = 0;
    double power = 1.0;
    while (size >= power * 10.0 && exponent < 300) {
        power *= 10.0;
        ++exponent;
    }
    while (size < power && exponent > -300) {
        power /= 10.0;
        --exponent;
    }
    double limit = 1.0;
    for (int i = 0; i < digits; ++i)
        limit *= 10.0;
    const double step = power / (limit / 10.0);
    double scaled = std::floor(size / step + 0.5);
    if (scaled >= limit) {
        scaled /= 10.0;
        ++exponent;
    }
    std::string figures(static_cast<std::size_t>(digits), '0');
    auto rest = static_cast<unsigned long long>(scaled);
    for (std::size_t i = figures.size(); i-- > 0;) {
        figures[i] = static_cast<char>('0' + rest % 10);
        rest /= 10;
    }
    std::string text = negative ? "-" : "";
    if (exponent < 0) {
        text += "0.";
        text.append(static_cast<std::size_t>(-exponent - 1), '0');
        text += figures;
    } else {
        const auto whole = static_cast<std::size_t>(exponent) + 1;
        if (figures.size() <= whole) {
            text += figures;
            text.append(whole - figures.size(), '0');
            return text;
        }
        text += figures.substr(0, whole) + "." + figures.substr(whole);
    }
    while (text.back() == '0')
        text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

}  // namespace feed
