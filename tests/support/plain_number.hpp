#pragma once

namespace feed_test {

/// The number of a quantity or of a plain number, in the unit that it is kept in.
template <class T>
double number(const T& quantity) {
    return quantity.value();
}
inline double number(double plain) {
    return plain;
}

}  // namespace feed_test
