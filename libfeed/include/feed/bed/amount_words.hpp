#pragma once
#include <string>

#include "feed/quantity/number_print.hpp"

// Amounts in the sentences of the bed layer: two significant digits, metric.
namespace feed::words {

inline std::string kilograms_or_grams(double kg) {
    const double size = kg < 0.0 ? -kg : kg;
    if (size >= 0.9995) return significant(kg, 2) + " kg";
    return significant(1000.0 * kg, 2) + " g";
}
inline std::string litres_or_millilitres(double litres) {
    if (litres >= 0.9995 || litres <= -0.9995) return significant(litres, 2) + " L";
    return significant(1000.0 * litres, 2) + " ml";
}
inline std::string percent(double share) {
    return significant(100.0 * share, 2) + " %";
}
inline std::string number(double x) {
    return significant(x, 2);
}
/// A number beside its limit: a third figure where two would make them look the same.
inline std::string number_beside(double x, double limit) {
    const bool same = x != limit && significant(x, 2) == significant(limit, 2);
    return significant(x, same ? 3 : 2);
}
inline std::string day_count(double days) {
    const std::string text = significant(days, 2);
    return text + (text == "1" ? " day" : " days");
}

}  // namespace feed::words
