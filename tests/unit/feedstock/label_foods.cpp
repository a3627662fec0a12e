// Foods of another national food table (tests/cases/ifct_foods.json, Indian Food Composition Tables
// 2017) through the nutrition-label path, held against the embedded table. Foods that differ by
// more than the stated tolerance are recorded in ifct_disagreements.json with their size.
#include <yaml-cpp/yaml.h>

#include <cmath>
#include <string>
#include <vector>

#include "catch2.hpp"
#include "feed/feedstock/nutrition_label.hpp"
#include "feed/feedstock/table.hpp"

namespace {

using feed::Property;

const std::string cases = FEED_SOURCE_DIR "/tests/cases/";
constexpr double moisture_tolerance = 0.05;
constexpr double handbook_tolerance = 0.25;

feed::NutritionLabel label_of(const YAML::Node& food) {
    const auto share = [&](const char* key) { return food[key].as<double>() / 100.0; };
    feed::NutritionLabel label;
    label.protein = share("protein");
    label.fat = share("fat");
    label.carbohydrate = share("available_carbohydrate");
    label.carbohydrate_has_fibre = false;
    label.fibre = share("fibre");
    label.ash = share("ash");
    // The source leaves the carbohydrate of eggs out, but not their sugars.
    if (share("sugars") <= label.carbohydrate + *label.fibre) label.sugars = share("sugars");
    label.protein_factor = food["protein_factor"].as<double>();
    return label;
}

double value_of(const std::vector<feed::OwnValue>& values, Property property) {
    for (const auto& value : values) {
        if (value.property == property) return value.value;
    }
    FAIL("the label gives no " << feed::kind(property).key);
    return 0.0;
}

struct Compared {
    const char* key;
    double deviation;  ///< ratio, or difference for moisture
    bool close;
};

}  // namespace

TEST_CASE("foods of another food table, by their labels, agree with ours or differ as recorded") {
    const auto foods = YAML::LoadFile(cases + "ifct_foods.json")["foods"];
    const auto record = YAML::LoadFile(cases + "ifct_disagreements.json")["foods"];
    REQUIRE(foods.size() >= 40);
    int close_moisture = 0;
    int close_nitrogen = 0;
    int close_ratio = 0;
    for (const auto& food : foods) {
        const auto id = food["feedstock"].as<std::string>();
        CAPTURE(id);
        const auto at = feed::find_id(id);
        REQUIRE(at);
        const auto ours = feed::feedstock_at(*at);
        std::vector<std::string> said;
        const auto values = feed::label_values(id, label_of(food), said);
        REQUIRE(values);

        const double moisture = value_of(*values, Property::moisture_wet);
        const double nitrogen = value_of(*values, Property::nitrogen_dry);
        const double ratio = value_of(*values, Property::carbon_dry) / nitrogen;
        // What a label leaves is water: the source measured it too.
        const bool complete = food["available_carbohydrate"].as<double>() > 0.0;
        CHECK(std::abs(moisture - food["water"].as<double>() / 100.0) < (complete ? 0.0005 : 0.02));

        const double moisture_off = moisture - ours[Property::moisture_wet]->value;
        const double nitrogen_off = nitrogen / ours[Property::nitrogen_dry]->value;
        const double ratio_off = ratio / ours[Property::cn_ratio]->value;
        const Compared all[] = {
            {"moisture", moisture_off, std::abs(moisture_off) <= moisture_tolerance},
            {"nitrogen", nitrogen_off, std::abs(nitrogen_off - 1.0) <= handbook_tolerance},
            {"cn_ratio", ratio_off, std::abs(ratio_off - 1.0) <= handbook_tolerance}};
        close_moisture += all[0].close ? 1 : 0;
        close_nitrogen += all[1].close ? 1 : 0;
        close_ratio += all[2].close ? 1 : 0;
        for (const auto& [key, deviation, close] : all) {
            CAPTURE(key, deviation);
            const auto known = record[id] ? record[id][key] : YAML::Node();
            if (known && known.IsScalar()) {
                CHECK_FALSE(close);
                CHECK(std::abs(deviation - known.as<double>()) < 0.006);
            } else {
                CHECK(close);
            }
        }
        // The range of C:N was made over both tables.
        CHECK(ratio > 0.95 * ours[Property::cn_ratio]->low);
        CHECK(ratio < 1.05 * ours[Property::cn_ratio]->high);
    }
    CHECK(close_moisture >= 40);
    CHECK(close_nitrogen >= 40);
    CHECK(close_ratio >= 40);
}
