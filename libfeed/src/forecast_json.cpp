#include <algorithm>

#include "feed/io/to_json.hpp"

namespace feed::io {
namespace {

void write_numbers(JsonWriter& json, const std::string& key, const std::vector<double>& numbers,
                   bool is_known) {
    json.key(key);
    if (!is_known) return json.null();
    json.begin_array(true);
    for (const double number : numbers)
        json.value(number);
    json.end_array();
}

void write_optional(JsonWriter& json, std::string_view key, const std::optional<int>& day) {
    json.key(key);
    if (day) {
        json.value(*day);
    } else {
        json.null();
    }
}

/// What is left of each portion that was fed, by pool: shares of its dry matter by day.
void write_portions(JsonWriter& json, const Forecast& forecast) {
    constexpr const char* pools[] = {"labile_left", "cellulosic_left", "lignin_like_left"};
    json.key("portions");
    json.begin_array();
    for (const ForecastPortion& portion : forecast.portions) {
        json.begin_object();
        json.member("feedstock", portion.feedstock);
        json.member("day", portion.day);
        json.member("wet_mass_kg", portion.wet_kg);
        json.key("share_left");
        json.begin_array(true);
        for (std::size_t day = 0; day <= forecast.days; ++day)
            json.value(forecast.share_left(portion, day));
        json.end_array();
        for (std::size_t pool = 0; pool < 3; ++pool) {
            json.key(pools[pool]);
            json.begin_array(true);
            for (std::size_t day = 0; day <= forecast.days; ++day)
                json.value(forecast.left_in_pool(portion, pool, day));
            json.end_array();
        }
        json.end_object();
    }
    json.end_array();
}

}  // namespace

std::string to_json(const Forecast& forecast, const Ration* ration) {
    const auto known = [&](std::string_view key) {
        return std::find(forecast.unknown.begin(), forecast.unknown.end(), key) ==
               forecast.unknown.end();
    };
    JsonWriter json;
    json.begin_object();
    json.member("days", static_cast<std::int64_t>(forecast.days + 1));
    const auto series = [&](const std::string& key, const ForecastSeries& numbers) {
        write_numbers(json, key, numbers.value, known(key));
        write_numbers(json, key + "_low", numbers.low, known(key));
        write_numbers(json, key + "_high", numbers.high, known(key));
    };
    series("moisture", forecast.moisture);
    series("food_left_kg", forecast.food_left_wet_kg);
    series("acid_g_citric", forecast.acid_g_citric);
    series("temperature_c", forecast.temperature_c);
    series("pocket_temperature_c", forecast.pocket_temperature_c);
    series("volume_l", forecast.volume_l);
    series("cn_ratio", forecast.cn_ratio);
    series("castings_kg", forecast.castings_dry_kg);
    series("free_water_kg", forecast.free_water_kg);
    series("depth_m", forecast.depth_m);
    series("free_ammonia_g_n_per_kg", forecast.free_ammonia_g_n_per_wet_kg);
    json.key("acid_class");
    json.begin_array(true);
    for (const auto acid_class : forecast.acid_class)
        json.value(text(acid_class));
    json.end_array();
    if (ration != nullptr) {
        write_next_feeding(json, *ration);
        json.key("ration");
        write_ration(json, *ration);
    }
    write_optional(json, "harvest_day", forecast.harvest_day);
    json.member("harvest_reason", forecast.harvest_reason);
    write_optional(json, "new_bedding_day", forecast.new_bedding_day);
    json.member("new_bedding_reason", forecast.new_bedding_reason);
    write_portions(json, forecast);
    json.key("assumed");
    write_assumed(json, forecast.assumed);
    write_texts(json, "unknown", forecast.unknown);
    json.member("grade", text(forecast.grade));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
