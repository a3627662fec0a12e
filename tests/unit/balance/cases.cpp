// Reference cases of the balance layer (tests/cases/balance.json): published closed forms and
// worked examples.
#include <yaml-cpp/yaml.h>

#include <map>
#include <set>
#include <string>

#include "catch2.hpp"
#include "feed/balance/balance.hpp"
#include "materials.hpp"

namespace {

feed::Entry entry_of(const YAML::Node& node) {
    const auto role = node["role"].as<std::string>();
    const auto name = node["name"].as<std::string>();
    const double moisture = 100.0 * node["moisture"].as<double>();
    const double carbon = 100.0 * node["carbon"].as<double>();
    const double nitrogen = 100.0 * node["nitrogen"].as<double>();
    auto feedstock = role == "water"     ? feed_test::water()
                     : role == "bedding" ? feed_test::bedding(name, moisture, carbon, nitrogen)
                                         : feed_test::material(name, moisture, carbon, nitrogen);
    if (node["exactly_kg"]) return feed_test::exactly(feedstock, node["exactly_kg"].as<double>());
    return feed_test::free_amount(feedstock);
}

feed::Target target_of(const YAML::Node& node) {
    feed::Target target;
    const auto key = node["property"].as<std::string>();
    bool known = false;
    for (const auto& facts : feed::target_kinds) {
        if (facts.key != key) continue;
        target.property = facts.property;
        known = true;
    }
    REQUIRE(known);
    if (node["low"]) target.low = node["low"].as<double>();
    if (node["high"]) target.high = node["high"].as<double>();
    if (node["aim"]) target.aim = node["aim"].as<double>();
    return target;
}

const char* status_word(feed::BalanceStatus status) {
    switch (status) {
        case feed::BalanceStatus::solved:
            return "solved";
        case feed::BalanceStatus::infeasible:
            return "infeasible";
        case feed::BalanceStatus::unbounded:
            return "unbounded";
        case feed::BalanceStatus::failed:
            break;
    }
    return "failed";
}

}  // namespace

TEST_CASE("published mixes are found by the balance as their closed forms give them") {
    const std::map<std::string, feed::Objective> objectives{
        {"least_added", feed::Objective::least_added},
        {"closest_to_aims", feed::Objective::closest_to_aims}};
    const auto file = YAML::LoadFile(FEED_SOURCE_DIR "/tests/cases/balance.json");
    std::set<std::string> ids;
    for (const auto& item : file["cases"]) {
        const auto id = item["id"].as<std::string>();
        CAPTURE(id);
        CHECK(ids.insert(id).second);
        CHECK(file["sources"][item["source"]["key"].as<std::string>()]);
        feed::BalanceProblem problem;
        for (const auto& node : item["input"]["entries"])
            problem.entries.push_back(entry_of(node));
        problem.targets.clear();
        for (const auto& node : item["input"]["targets"])
            problem.targets.push_back(target_of(node));
        problem.objective = objectives.at(item["input"]["objective"].as<std::string>());
        const auto answer = feed::balance(problem);
        REQUIRE(answer);
        std::map<std::string, double> ours{{"moisture", answer->properties.moisture.value.value()},
                                           {"cn_ratio", answer->properties.cn_ratio.value}};
        for (std::size_t i = 0; i < answer->portions.size(); ++i)
            ours[problem.entries[i].label + "_kg"] = answer->portions[i].wet_mass.in_kilograms();
        for (const auto& field : item["expected"]) {
            const auto key = field.first.as<std::string>();
            CAPTURE(key);
            if (key == "status") {
                CHECK(field.second.as<std::string>() == status_word(answer->status));
                continue;
            }
            const auto value = field.second["value"].as<double>();
            const double reach = field.second["abs"] ? field.second["abs"].as<double>()
                                                     : field.second["rel"].as<double>() * value;
            CHECK(ours.at(key) == feed_test::Approx(value).margin(reach).epsilon(0.0));
        }
    }
    CHECK(ids.size() == 8);
}
