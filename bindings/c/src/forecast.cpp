#include "feed/forecast/forecast.hpp"

#include <optional>

#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"

namespace {

using namespace feed::c;

constexpr feed_forecast_summary no_summary{
    sizeof(feed_forecast_summary), FEED_GRADE_D, 0, not_a_number, not_a_number, "", ""};

double day_or_nan(const std::optional<int>& day) {
    return day ? *day : not_a_number;
}

const feed::ForecastSeries* pick(const feed::Forecast& forecast, int32_t series) {
    switch (series) {
        case FEED_SERIES_MOISTURE_WET:
            return &forecast.moisture;
        case FEED_SERIES_FREE_WATER_KG:
            return &forecast.free_water_kg;
        case FEED_SERIES_FOOD_LEFT_WET_KG:
            return &forecast.food_left_wet_kg;
        case FEED_SERIES_ACID_G_CITRIC:
            return &forecast.acid_g_citric;
        case FEED_SERIES_FREE_AMMONIA_G_N_PER_WET_KG:
            return &forecast.free_ammonia_g_n_per_wet_kg;
        case FEED_SERIES_TEMPERATURE_C:
            return &forecast.temperature_c;
        case FEED_SERIES_TEMPERATURE_RISE_C:
            return &forecast.temperature_rise_c;
        case FEED_SERIES_POCKET_TEMPERATURE_C:
            return &forecast.pocket_temperature_c;
        case FEED_SERIES_VOLUME_L:
            return &forecast.volume_l;
        case FEED_SERIES_DEPTH_M:
            return &forecast.depth_m;
        case FEED_SERIES_CN_RATIO:
            return &forecast.cn_ratio;
        case FEED_SERIES_CASTINGS_DRY_KG:
            return &forecast.castings_dry_kg;
        default:
            return nullptr;
    }
}

}  // namespace

extern "C" {

feed_code feed_forecast_bed(const feed_bed* bed, size_t days, const feed_allocator* allocator,
                            feed_forecast** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (bed == nullptr) return null_argument(error, "bed");
    if (!is_valid(allocator)) return bad_allocator(error);
    if (days < 1 || days > 366) {
        return fail(error, FEED_OUT_OF_RANGE, "days", "", "1 to 366 days",
                    "a forecast reaches from one day to a year");
    }
    return guarded(error, [&] {
        feed::ForecastOptions options;
        options.days = days;
        *out = make_handle<feed_forecast>(allocator,
                                          feed::forecast(bed->content, bed->planned, options));
        return succeed(error);
    });
}

feed_code feed_forecast_describe(const feed_forecast* forecast, feed_forecast_summary* out,
                                 feed_error* error) {
    if (!has_room(out)) return no_room(error, out, "out");
    Filled<feed_forecast_summary> filled(out, no_summary);
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (forecast == nullptr) return null_argument(error, "forecast");
    const feed::Forecast& content = forecast->content;
    filled->grade = static_cast<int32_t>(content.grade);
    filled->day_count = content.days + 1;
    filled->harvest_day = day_or_nan(content.harvest_day);
    filled->new_bedding_day = day_or_nan(content.new_bedding_day);
    filled->harvest_reason = content.harvest_reason.c_str();
    filled->new_bedding_reason = content.new_bedding_reason.c_str();
    return succeed(error);
}

feed_code feed_forecast_series(const feed_forecast* forecast, int32_t series, const double** value,
                               const double** low, const double** high, feed_error* error) {
    if (low != nullptr) *low = nullptr;
    if (high != nullptr) *high = nullptr;
    if (value == nullptr) return null_argument(error, "value");
    *value = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (forecast == nullptr) return null_argument(error, "forecast");
    const feed::ForecastSeries* picked = pick(forecast->content, series);
    if (picked == nullptr) return bad_index(error, "series");
    *value = picked->value.data();
    if (low != nullptr) *low = picked->low.data();
    if (high != nullptr) *high = picked->high.data();
    return succeed(error);
}

void feed_forecast_free(feed_forecast* forecast) {
    free_handle(forecast);
}

}  // extern "C"
