#include "feed/bed/bed.hpp"

#include <algorithm>
#include <cmath>

#include "feed/bed/bed_borders.hpp"
#include "feed/quantity/number_print.hpp"
#include "guard.hpp"
#include "handles.hpp"
#include "memory.hpp"
#include "portions.hpp"

namespace {

using namespace feed::c;

constexpr feed_bed_description nothing_said = FEED_BED_DESCRIPTION_INIT;

/// A number of the description that may be left out, and what can be true of it.
struct NumberField {
    const char* name;
    double feed_bed_description::*member;
    feed::Border border;
};

namespace borders = feed::borders;
constexpr feed::Border lime_in_grams{"g", borders::lime.lowest * 1000.0,
                                     borders::lime.highest * 1000.0};

constexpr NumberField number_fields[] = {
    {"inside_length_m", &feed_bed_description::inside_length_m, borders::inside_length},
    {"inside_width_m", &feed_bed_description::inside_width_m, borders::inside_width},
    {"inside_depth_m", &feed_bed_description::inside_depth_m, borders::inside_depth},
    {"nominal_volume_l", &feed_bed_description::nominal_volume_l, borders::volume},
    {"depth_of_contents_m", &feed_bed_description::depth_of_contents_m, borders::depth_of_contents},
    {"worms_wet_kg", &feed_bed_description::worms_wet_kg, borders::worms_wet_mass},
    {"worms_count", &feed_bed_description::worms_count, borders::worms_count},
    {"temperature_low_c", &feed_bed_description::temperature_low_c, borders::temperature},
    {"temperature_high_c", &feed_bed_description::temperature_high_c, borders::temperature},
    {"moisture_wet", &feed_bed_description::moisture_wet, borders::moisture},
    {"ph", &feed_bed_description::ph, borders::ph},
    {"lime_g_caco3", &feed_bed_description::lime_g_caco3, lime_in_grams},
    {"age_days", &feed_bed_description::age_days, borders::age},
    {"own_feeding_rate_wet_kg_per_kg_day",
     &feed_bed_description::own_feeding_rate_wet_kg_per_kg_day, borders::own_feeding_rate},
};

/// An enumerator of the description and how many values it has.
struct ChoiceField {
    const char* name;
    int32_t feed_bed_description::*member;
    int32_t last;
};

constexpr ChoiceField choice_fields[] = {
    {"container", &feed_bed_description::container, FEED_CONTAINER_BOX},
    {"drainage", &feed_bed_description::drainage, FEED_DRAINAGE_NONE},
    {"lid", &feed_bed_description::lid, FEED_LID_TIGHT},
    {"ventilation", &feed_bed_description::ventilation, FEED_VENTILATION_CLOSED},
    {"species", &feed_bed_description::species, FEED_SPECIES_EUDRILUS_EUGENIAE},
    {"worms_known", &feed_bed_description::worms_known, FEED_WORMS_AS_BOUGHT},
    {"squeeze", &feed_bed_description::squeeze, FEED_SQUEEZE_POOLING},
};

feed_code check_number(const std::string& name, const feed::Border& border, double number,
                       feed_error* error) {
    if (border.holds(number)) return FEED_OK;
    if (!std::isfinite(number)) {
        return fail(error, FEED_NOT_A_NUMBER, name,
                    std::isnan(number) ? "not a number" : "infinity", border.allowed(),
                    "the number must be finite");
    }
    if (border.looks_like_percent(number)) {
        return fail(error, FEED_PERCENT_SLIP, name, border.with_unit(number), border.allowed(),
                    "this looks like per cent; divide by 100");
    }
    return fail(error, FEED_OUT_OF_RANGE, name, border.with_unit(number), border.allowed(),
                "the number is outside what can be true");
}

feed_code check_description(const feed_bed_description& from, feed_error* error) {
    for (const auto& field : choice_fields) {
        const int32_t choice = from.*field.member;
        if (choice < FEED_NOT_GIVEN || choice > field.last) {
            return fail(error, FEED_OUT_OF_RANGE, field.name, std::to_string(choice),
                        "an enumerator or FEED_NOT_GIVEN", "there is no such choice");
        }
    }
    for (const auto& field : number_fields) {
        const double number = from.*field.member;
        if (std::isnan(number)) continue;
        if (const feed_code code = check_number(field.name, field.border, number, error))
            return code;
    }
    if (from.stacked != FEED_NOT_GIVEN) {
        if (const feed_code code = check_number("stacked", borders::stacked, from.stacked, error))
            return code;
    }
    const int sides = !std::isnan(from.inside_length_m) + !std::isnan(from.inside_width_m) +
                      !std::isnan(from.inside_depth_m);
    if (sides != 0 && sides != 3) {
        return fail(error, FEED_MISSING_VALUE, "inside_length_m, inside_width_m, inside_depth_m",
                    "", "all three or none", "the inside size needs length, width and depth");
    }
    if (std::isnan(from.temperature_low_c) && !std::isnan(from.temperature_high_c)) {
        return fail(error, FEED_MISSING_VALUE, "temperature_low_c", "", "a number",
                    "a range needs its low end; one value goes in temperature_low_c");
    }
    if (from.temperature_low_c > from.temperature_high_c) {
        return fail(error, FEED_LOW_ABOVE_HIGH, "temperature_high_c",
                    feed::significant(from.temperature_high_c, 6) + " deg C",
                    "at least " + feed::significant(from.temperature_low_c, 6) + " deg C",
                    "the upper temperature is below the lower one");
    }
    return FEED_OK;
}

template <class Choice>
void read_choice(int32_t from, std::optional<Choice>& to) {
    if (from != FEED_NOT_GIVEN) to = static_cast<Choice>(from);
}

template <class T, class Make>
void read_number(double from, std::optional<T>& to, Make make) {
    if (!std::isnan(from)) to = make(from);
}

feed::Bed read_description(const feed_bed_description& from) {
    feed::Bed bed;
    if (from.container != FEED_NOT_GIVEN) {
        bed.container.kind = static_cast<feed::ContainerKind>(from.container);
    }
    if (from.stacked != FEED_NOT_GIVEN) bed.container.stacked = from.stacked;
    if (!std::isnan(from.inside_length_m)) {
        bed.container.inside =
            feed::InsideSize{feed::metres(from.inside_length_m), feed::metres(from.inside_width_m),
                             feed::metres(from.inside_depth_m)};
    }
    read_number(from.nominal_volume_l, bed.container.volume, feed::litres);
    read_number(from.depth_of_contents_m, bed.depth_of_contents, feed::metres);
    read_choice(from.drainage, bed.drainage);
    read_choice(from.lid, bed.lid);
    read_choice(from.ventilation, bed.ventilation);
    read_choice(from.species, bed.species);
    read_choice(from.squeeze, bed.squeeze);
    if (from.worms_known != FEED_NOT_GIVEN) {
        bed.worms.known = static_cast<feed::WormsKnown>(from.worms_known);
    }
    read_number(from.worms_wet_kg, bed.worms.wet_mass, feed::wet_kilograms);
    read_number(from.worms_count, bed.worms.count, [](double count) { return count; });
    if (!std::isnan(from.temperature_high_c)) {
        bed.temperature = feed::TemperatureRange{feed::celsius(from.temperature_low_c),
                                                 feed::celsius(from.temperature_high_c)};
    } else if (!std::isnan(from.temperature_low_c)) {
        bed.temperature = feed::celsius(from.temperature_low_c);
    }
    read_number(from.moisture_wet, bed.moisture, [](double part) { return feed::Moisture(part); });
    read_number(from.ph, bed.ph, [](double ph) { return ph; });
    read_number(from.lime_g_caco3, bed.lime, feed::grams);
    read_number(from.age_days, bed.age, feed::days);
    read_number(from.own_feeding_rate_wet_kg_per_kg_day, bed.own_feeding_rate, feed::per_day);
    return bed;
}

}  // namespace

extern "C" {

feed_code feed_bed_description_init(feed_bed_description* description, feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (!has_room(description)) return no_room(error, description, "description");
    give(description, nothing_said);
    return succeed(error);
}

feed_code feed_bed_create(const feed_bed_description* description, const feed_allocator* allocator,
                          feed_bed** out, feed_error* error) {
    if (out == nullptr) return null_argument(error, "out");
    *out = nullptr;
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (!has_room(description)) return no_room(error, description, "description");
    if (!is_valid(allocator)) return bad_allocator(error);
    return guarded(error, [&] {
        const feed_bed_description said = taken(*description, nothing_said);
        if (const feed_code code = check_description(said, error)) return code;
        *out =
            make_handle<feed_bed>(allocator, read_description(said), std::vector<feed::Feeding>{});
        return succeed(error);
    });
}

feed_code feed_bed_set_daily_temperature(feed_bed* bed, const double* temperature_c, size_t count,
                                         feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (bed == nullptr) return null_argument(error, "bed");
    if (temperature_c == nullptr) return null_argument(error, "temperature_c");
    return guarded(error, [&] {
        if (count == 0) {
            return fail(error, FEED_EMPTY, "count", "0", "at least 1", "a series needs a value");
        }
        feed::DailyTemperatures series;
        for (size_t i = 0; i < count; ++i) {
            if (const feed_code code = check_number(member("temperature_c", i, ""),
                                                    borders::temperature, temperature_c[i], error))
                return code;
            series.push_back(feed::celsius(temperature_c[i]));
        }
        bed->content.temperature = std::move(series);
        return succeed(error);
    });
}

feed_code feed_bed_set_bedding(feed_bed* bed, const feed_portion* portions, size_t count,
                               feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (bed == nullptr) return null_argument(error, "bed");
    return guarded(error, [&] {
        std::vector<feed::Portion> parts;
        if (const feed_code code = read_portions(portions, count, "portions", parts, error)) {
            return code;
        }
        bed->content.bedding = std::move(parts);
        return succeed(error);
    });
}

feed_code feed_bed_add_feeding(feed_bed* bed, double day, const feed_portion* portions,
                               size_t count, feed_error* error) {
    if (!can_tell(error)) return FEED_BAD_ARGUMENT;
    if (bed == nullptr) return null_argument(error, "bed");
    return guarded(error, [&] {
        if (const feed_code code = check_number("day", borders::day, day, error)) return code;
        feed::Feeding feeding;
        feeding.day = feed::days(day);
        if (const feed_code code =
                read_portions(portions, count, "portions", feeding.portions, error)) {
            return code;
        }
        if (feeding.portions.empty()) return no_portion(error);
        auto& list = day < 0.0 ? bed->content.earlier : bed->planned;
        const auto later = [day](const feed::Feeding& other) {
            return feed::in_days(other.day) > day;
        };
        list.insert(std::find_if(list.begin(), list.end(), later), std::move(feeding));
        return succeed(error);
    });
}

void feed_bed_free(feed_bed* bed) {
    free_handle(bed);
}

}  // extern "C"
