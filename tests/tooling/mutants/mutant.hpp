#pragma once
#include <algorithm>
#include <array>
#include <concepts>
#include <cstdio>
#include <cstdlib>
#include <initializer_list>
#include <type_traits>

// What tests/tooling/instrument.py writes into a copy of the core: every place that can be changed
// asks here whether it is. One build holds all mutants; $FEED_MUTANT names the one that is on.
// In a constant expression no mutant is on.
namespace feed_mutant {

#ifndef FEED_MUTANT_COUNT
#define FEED_MUTANT_COUNT 65536
#endif

/// The places that were reached since the start, or since they were forgotten.
inline unsigned char reached[FEED_MUTANT_COUNT];

inline int selected() {
    static const int number = [] {
        const char* text = std::getenv("FEED_MUTANT");
        return text == nullptr ? -1 : std::atoi(text);
    }();
    return number;
}

/// Writes the places that were reached, one number a line, where $FEED_MUTANT_REACHED says.
struct WriteReached {
    ~WriteReached() {
        const char* path = std::getenv("FEED_MUTANT_REACHED");
        if (path == nullptr) return;
        if (std::FILE* file = std::fopen(path, "a")) {
            for (int i = 0; i < FEED_MUTANT_COUNT; ++i)
                if (reached[i] != 0) std::fprintf(file, "%d\n", i);
            std::fclose(file);
        }
    }
};
inline const WriteReached write_reached;

constexpr bool on(int number) {
    if (std::is_constant_evaluated()) return false;
    reached[number] = 1;
    return selected() == number;
}

template <class T>
concept Scalar = std::is_scalar_v<T>;

// Two forms of each operation: scalars by value, since a constant of a lambda's surroundings may
// be read there but not referred to; anything else by reference.
#define FEED_MUTANT_BINARY(name, body)                                                       \
    template <class A, class B>                                                              \
    requires(Scalar<A> && Scalar<B>) constexpr auto name(int id, A l, B r) {                 \
        body                                                                                 \
    }                                                                                        \
    template <class A, class B>                                                              \
    requires(!Scalar<A> || !Scalar<B>) constexpr auto name(int id, const A& l, const B& r) { \
        body                                                                                 \
    }

#define FEED_MUTANT_ARITHMETIC(name, op, other)                                                   \
    FEED_MUTANT_BINARY(                                                                           \
        name, using R = std::decay_t<decltype(l op r)>; if constexpr (requires {                  \
                                                                          {                       \
                                                                              l other r           \
                                                                              }                   \
                                                                              -> std::same_as<R>; \
                                                                      }) {                        \
            if (on(id)) return R(l other r);                                                      \
        } if constexpr (std::same_as<A, R>) {                                                     \
            if (on(id + 1)) return R(l);                                                          \
        } return R(l op r);)

FEED_MUTANT_ARITHMETIC(add, +, -)
FEED_MUTANT_ARITHMETIC(subtract, -, +)
FEED_MUTANT_ARITHMETIC(times, *, /)
FEED_MUTANT_ARITHMETIC(over, /, *)

#define FEED_MUTANT_COMPARISON(name, op, other)              \
    FEED_MUTANT_BINARY(                                      \
        name, if constexpr (requires { bool(l other r); }) { \
            if (on(id)) return bool(l other r);              \
        } return bool(l op r);)

FEED_MUTANT_COMPARISON(less, <, <=)
FEED_MUTANT_COMPARISON(less_equal, <=, <)
FEED_MUTANT_COMPARISON(greater, >, >=)
FEED_MUTANT_COMPARISON(greater_equal, >=, >)
FEED_MUTANT_COMPARISON(equal, ==, !=)
FEED_MUTANT_COMPARISON(unequal, !=, ==)

template <class T>
constexpr T number(int id, T c) {
    if constexpr (std::is_floating_point_v<T>) {
        if (on(id)) return c == 0 ? T(1) : T(c * T(1.1));
    } else {
        if (on(id)) return T(c + 1);
    }
    return c;
}

constexpr bool flip(int id, bool condition) {
    return on(id) ? !condition : condition;
}

template <class T>
constexpr T other(int id, T one, T two) {
    return on(id) ? two : one;
}

// A class of its own where a comparison of a mixed pair would be one of the library's.
template <class A, class B>
constexpr auto least(int id, const A& l, const B& r) {
    static_assert(std::same_as<A, B>);
    return on(id) ? std::max(l, r) : std::min(l, r);
}
template <class A, class B>
constexpr auto most(int id, const A& l, const B& r) {
    static_assert(std::same_as<A, B>);
    return on(id) ? std::min(l, r) : std::max(l, r);
}
template <class T>
constexpr T least(int id, std::initializer_list<T> all) {
    return on(id) ? std::max(all) : std::min(all);
}
template <class T>
constexpr T most(int id, std::initializer_list<T> all) {
    return on(id) ? std::min(all) : std::max(all);
}
template <class T>
constexpr T within(int id, const T& value, const std::type_identity_t<T>& low,
                   const std::type_identity_t<T>& high) {
    return on(id) ? value : std::clamp(value, low, high);
}

#define FEED_MUTANT_ASSIGNMENT(name, op, other)   \
    template <class A, class B>                   \
    constexpr A& name(int id, A& l, const B& r) { \
        if constexpr (requires { l other r; }) {  \
            if (on(id)) {                         \
                l other r;                        \
                return l;                         \
            }                                     \
        }                                         \
        if (!on(id + 1)) l op r;                  \
        return l;                                 \
    }
FEED_MUTANT_ASSIGNMENT(add_to, +=, -=)
FEED_MUTANT_ASSIGNMENT(take_from, -=, +=)
FEED_MUTANT_ASSIGNMENT(times_by, *=, /=)
FEED_MUTANT_ASSIGNMENT(over_by, /=, *=)

/// A constant, filled in when the program starts: no constant expression, and so open to change.
template <class T>
T at_start(T value) {
    return value;
}

/// A table with two neighbouring rows the wrong way round: `id` swaps the first pair.
template <class T, std::size_t count>
std::array<T, count> rows(int id, std::array<T, count> table) {
    for (std::size_t i = 0; i + 1 < count; ++i)
        if (on(id + static_cast<int>(i))) std::swap(table[i], table[i + 1]);
    return table;
}

}  // namespace feed_mutant
