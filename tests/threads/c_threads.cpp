// Eight threads run every story of the C interface at once: ThreadSanitizer finds no race, and each
// thread sees what one thread alone sees.
#include <string>
#include <thread>
#include <vector>

#include "c_scenarios.hpp"
#include "catch2.hpp"

namespace {

std::string everything() {
    std::string digest;
    for (const auto& scenario : feed_test::scenarios) {
        digest += std::to_string(scenario.run(nullptr, digest));
    }
    return digest;
}

}  // namespace

TEST_CASE("eight threads see what one sees") {
    const std::string alone = everything();
    std::vector<std::string> seen(8);
    std::vector<std::thread> threads;
    for (auto& digest : seen) {
        threads.emplace_back([&digest] {
            for (int round = 0; round < 3; ++round)
                digest = everything();
        });
    }
    for (auto& thread : threads)
        thread.join();
    for (const auto& digest : seen)
        CHECK(digest == alone);
}

TEST_CASE("threads share a feedstock, a bed and an answer") {
    feed_feedstock* coffee = nullptr;
    REQUIRE(feed_feedstock_look_up("coffee grounds", nullptr, &coffee, nullptr) == FEED_OK);
    std::vector<double> seen(8, 0.0);
    std::vector<std::thread> threads;
    for (auto& number : seen) {
        threads.emplace_back([&number, coffee] {
            feed_blend_properties blend{};
            blend.struct_size = sizeof blend;
            const feed_portion portion{coffee, 1.0};
            if (feed_blend(&portion, 1, &blend, nullptr) == FEED_OK) {
                number = blend.cn_ratio.value;
            }
        });
    }
    for (auto& thread : threads)
        thread.join();
    for (const double number : seen)
        CHECK(number == seen.front());
    CHECK(seen.front() > 0.0);
    feed_feedstock_free(coffee);
}
