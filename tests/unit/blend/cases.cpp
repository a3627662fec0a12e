// Reference cases of the blend layer (tests/cases/blend.json): worked mixes published by others.
#include <yaml-cpp/yaml.h>

#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "catch2.hpp"
#include "feed/blend/blend.hpp"
#include "feed/feedstock/laboratory_report.hpp"
#include "feed/feedstock/table.hpp"

namespace {

std::optional<double> number(const YAML::Node& node, const char* key) {
    return node[key] ? std::optional<double>(node[key].as<double>()) : std::nullopt;
}

/// A portion of a table row, or of a material described as a laboratory would.
feed::Portion portion(const YAML::Node& node) {
    const auto wet_mass = feed::wet_kilograms(node["wet_mass_kg"].as<double>());
    if (node["feedstock"]) {
        const auto at = feed::find_id(node["feedstock"].as<std::string>());
        REQUIRE(at);
        return {std::make_shared<const feed::Feedstock>(feed::feedstock_at(*at)), wet_mass};
    }
    feed::OwnFeedstock own;
    own.name = node["name"].as<std::string>();
    if (const auto density = number(node, "bulk_density"))
        own.values.push_back({feed::Property::bulk_density_loose, *density, {}, {}});
    feed::LaboratoryReport report;
    if (node["basis"] && node["basis"].as<std::string>() == "as_received")
        report.basis = feed::ReportBasis::as_received;
    report.moisture = number(node, "moisture");
    report.carbon = number(node, "carbon");
    report.nitrogen = number(node, "nitrogen");
    report.cn_ratio = number(node, "cn_ratio");
    auto made = feed::feedstock_from_report(own, report);
    REQUIRE(made);
    return {std::make_shared<const feed::Feedstock>(made->feedstock), wet_mass};
}

double blend_field(const feed::BlendProperties& blend, const std::string& key) {
    if (key == "wet_mass_kg") return blend.wet_mass.in_kilograms();
    if (key == "dry_mass_kg") return blend.dry_mass.value.value();
    if (key == "moisture") return blend.moisture.value.value();
    if (key == "cn_ratio") return blend.cn_ratio.value;
    if (key == "carbon_kg") return blend.carbon.value.value();
    if (key == "nitrogen_kg") return blend.nitrogen.value.value();
    if (key == "volume_l") return feed::in_litres(blend.volume.value);
    if (key == "bulk_density_kg_m3") return blend.bulk_density.value.value();
    FAIL("no field " << key);
    return 0.0;
}

double answer(const YAML::Node& item, const std::string& key) {
    const auto input = item["input"];
    if (item["call"].as<std::string>() == "compact_density")
        return feed::compact_density(feed::Moisture(input["moisture"].as<double>()),
                                     feed::DryFraction(input["ash"].as<double>()))
            .value();
    std::vector<feed::Portion> portions;
    for (const auto& node : input["portions"])
        portions.push_back(portion(node));
    return blend_field(feed::blend(portions), key);
}

}  // namespace

TEST_CASE("published mixes come out as published; averaged ratios do not") {
    const auto file = YAML::LoadFile(FEED_SOURCE_DIR "/tests/cases/blend.json");
    std::set<std::string> ids;
    int differ = 0;
    for (const auto& item : file["cases"]) {
        const auto id = item["id"].as<std::string>();
        CAPTURE(id);
        CHECK(ids.insert(id).second);
        CHECK(file["sources"][item["source"]["key"].as<std::string>()]);
        const auto known = item["known_disagreement"];
        for (const auto& field : item["expected"]) {
            const auto key = field.first.as<std::string>();
            const double expected = field.second["value"].as<double>();
            const double reach = number(field.second, "abs").value_or(0.0) +
                                 number(field.second, "rel").value_or(0.0) * expected;
            const double ours = answer(item, key);
            CAPTURE(key, ours, expected, reach);
            if (!known) {
                CHECK(std::abs(ours - expected) <= reach);
                continue;
            }
            ++differ;
            CHECK(ours == feed_test::Approx(known["ours"].as<double>()).epsilon(1e-3));
            const bool above = known["direction"].as<std::string>() == "above";
            CHECK((above ? ours > expected + reach : ours < expected - reach));
        }
    }
    CHECK(ids.size() == 12);
    CHECK(differ == 4);
}
