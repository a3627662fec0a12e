#pragma once
// Chance from a printed seed: the same seed gives the same draws on every machine.
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>

namespace feed {

/// A stream of random 64-bit numbers that a seed fixes, whole numbers only, so that no compiler or
/// processor changes a draw. Threads: one stream a thread.
/// Source: Steele, Lea & Flood 2014, "Fast splittable pseudorandom number generators" (the
/// finaliser "mix64variant13" on a counter with the golden step).
class SeededStream {
public:
    explicit constexpr SeededStream(std::uint64_t seed) noexcept : state_(seed) {}

    constexpr std::uint64_t next() noexcept {
        state_ += 0x9E3779B97F4A7C15ULL;
        std::uint64_t mixed = state_;
        mixed = (mixed ^ (mixed >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        mixed = (mixed ^ (mixed >> 27U)) * 0x94D049BB133111EBULL;
        return mixed ^ (mixed >> 31U);
    }

    /// A whole number below `bound`, each equally likely: the upper half of 32 random bits times
    /// `bound`; draws that would favour some numbers are thrown away.
    /// @param bound  1 to 2^31. Source: Lemire 2019 (ACM Trans. Model. Comput. Simul. 29:3).
    constexpr std::uint32_t below(std::uint32_t bound) noexcept {
        std::uint64_t product = (next() >> 32U) * bound;
        if (static_cast<std::uint32_t>(product) < bound) {
            const std::uint32_t unfair = (0U - bound) % bound;
            while (static_cast<std::uint32_t>(product) < unfair)
                product = (next() >> 32U) * bound;
        }
        return static_cast<std::uint32_t>(product >> 32U);
    }

    /// A number between 0 and 1, neither of them, in steps of 2^-53.
    constexpr double fraction() noexcept {
        return (static_cast<double>(next() >> 11U) + 0.5) * 0x1p-53;
    }

private:
    std::uint64_t state_;
};

/// Shuffles in place, every order equally likely: from the last entry down, each is swapped with
/// one drawn from it and those before it (Fisher & Yates, as in Durstenfeld 1964).
template <class T>
constexpr void shuffle(std::span<T> entries, SeededStream& stream) noexcept {
    for (std::size_t i = entries.size(); i > 1; --i) {
        const std::size_t j = stream.below(static_cast<std::uint32_t>(i));
        std::swap(entries[i - 1], entries[j]);
    }
}

}  // namespace feed
