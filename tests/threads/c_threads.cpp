// Eight threads run every story of the C interface at once: ThreadSanitizer finds no race, and each
// thread sees what one thread alone sees.
#include <array>
#include <cmath>
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

TEST_CASE("threads share a feedstock, a problem, its answer and a bed") {
    feed_feedstock* coffee = nullptr;
    feed_problem* problem = nullptr;
    feed_answer* shared = nullptr;
    feed_bed* bed = nullptr;
    REQUIRE(feed_feedstock_look_up("coffee grounds", nullptr, &coffee, nullptr) == FEED_OK);
    REQUIRE(feed_problem_create(nullptr, &problem, nullptr) == FEED_OK);
    REQUIRE(feed_problem_use_target_set(problem, FEED_TARGETS_WORM_BED, nullptr) == FEED_OK);
    const double none = std::nan("");
    const feed_entry entry{sizeof entry, 0, coffee, nullptr, 1.0, none, none, none};
    REQUIRE(feed_problem_add_entry(problem, &entry, nullptr) == FEED_OK);
    REQUIRE(feed_balance(problem, nullptr, &shared, nullptr) == FEED_OK);
    feed_bed_description description{};
    description.struct_size = sizeof description;
    REQUIRE(feed_bed_description_init(&description, nullptr) == FEED_OK);
    REQUIRE(feed_bed_create(&description, nullptr, &bed, nullptr) == FEED_OK);

    using Seen = std::array<double, 4>;
    const auto look = [&] {
        Seen seen{};
        feed_blend_properties blend{};
        blend.struct_size = sizeof blend;
        const feed_portion portion{coffee, 1.0};
        if (feed_blend(&portion, 1, &blend, nullptr) == FEED_OK) seen[0] = blend.cn_ratio.value;
        feed_answer* own = nullptr;
        if (feed_balance(problem, nullptr, &own, nullptr) == FEED_OK)
            feed_answer_portion(own, 0, &seen[1], nullptr, nullptr);
        feed_answer_free(own);
        feed_answer_portion(shared, 0, &seen[2], nullptr, nullptr);
        feed_check_result* result = nullptr;
        feed_hazard_finding finding{};
        finding.struct_size = sizeof finding;
        if (feed_check(bed, &portion, 1, nullptr, &result, nullptr) == FEED_OK &&
            feed_check_hazard(result, FEED_HAZARD_SOUR, &finding, nullptr) == FEED_OK)
            seen[3] = 1.0 + finding.level;
        feed_check_result_free(result);
        return seen;
    };
    const Seen alone = look();
    CHECK(alone[0] > 0.0);
    CHECK(alone[1] == alone[2]);
    CHECK(alone[2] > 0.0);
    CHECK(alone[3] > 0.0);
    std::vector<Seen> seen(8);
    std::vector<std::thread> threads;
    for (auto& of_thread : seen)
        threads.emplace_back([&] { of_thread = look(); });
    for (auto& thread : threads)
        thread.join();
    for (const auto& of_thread : seen)
        CHECK(of_thread == alone);
    feed_answer_free(shared);
    feed_problem_free(problem);
    feed_bed_free(bed);
    feed_feedstock_free(coffee);
}
