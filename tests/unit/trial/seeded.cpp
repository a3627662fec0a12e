#include "feed/trial/seeded.hpp"

#include <array>

#include "catch2.hpp"

// First outputs of the published generator from seed 1234567, as printed on rosettacode.org,
// "Pseudo-random numbers/Splitmix64" (value from memory).
TEST_CASE("a seed gives the published numbers") {
    feed::SeededStream stream(1234567);
    CHECK(stream.next() == 6457827717110365317ULL);
    CHECK(stream.next() == 3203168211198807973ULL);
    CHECK(stream.next() == 9817491932198370423ULL);
}

TEST_CASE("every order of three is drawn equally often") {
    feed::SeededStream stream(5);
    std::array<int, 27> seen{};
    for (int i = 0; i < 6000; ++i) {
        std::array<std::uint8_t, 3> order{0, 1, 2};
        feed::shuffle(std::span<std::uint8_t>(order), stream);
        ++seen[static_cast<std::size_t>(order[0] * 9 + order[1] * 3 + order[2])];
    }
    int orders = 0;
    for (const int count : seen) {
        if (count == 0) continue;
        ++orders;
        // 1000 expected, standard deviation 29.
        CHECK(count > 870);
        CHECK(count < 1130);
    }
    CHECK(orders == 6);
}

TEST_CASE("a fraction is between 0 and 1 and its mean is one half") {
    feed::SeededStream stream(9);
    double sum = 0.0;
    for (int i = 0; i < 10000; ++i) {
        const double one = stream.fraction();
        REQUIRE(one > 0.0);
        REQUIRE(one < 1.0);
        sum += one;
    }
    CHECK(sum / 10000 == feed_test::Approx(0.5).margin(0.012).epsilon(0));
}
