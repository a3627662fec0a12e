#include "feed/forecast/forecast.hpp"

#include <pybind11/numpy.h>

#include "bed.hpp"
#include "date.hpp"
#include "feed/bed/bed_keys.hpp"
#include "feed/bed/limits_list.hpp"
#include "feed/bed/species.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/io/forecast_svg.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {
namespace {

/// A series of a forecast by its name.
struct SeriesKey {
    const char* key;
    const char* meaning;
    ForecastSeries Forecast::*member;
};

constexpr SeriesKey series_keys[] = {
    {"moisture", "Water over wet mass, 0 to 1.", &Forecast::moisture},
    {"free_water_kg", "Water above what the bed can hold, kg.", &Forecast::free_water_kg},
    {"food_left_wet_kg", "Scraps left, as the wet mass fed that they stand for, kg.",
     &Forecast::food_left_wet_kg},
    {"acid_g_citric", "Acid, g as citric acid.", &Forecast::acid_g_citric},
    {"acid_g_per_air_litre", "Acid for each litre of air space, g.",
     &Forecast::acid_g_per_air_litre},
    {"free_ammonia_g_n_per_wet_kg", "Free ammonia nitrogen, g per wet kg.",
     &Forecast::free_ammonia_g_n_per_wet_kg},
    {"temperature_c", "Temperature of the bed, deg C.", &Forecast::temperature_c},
    {"pocket_temperature_c", "Temperature of the food fed from day 0 on, deg C.",
     &Forecast::pocket_temperature_c},
    {"temperature_rise_c", "Above the bed without food, deg C.", &Forecast::temperature_rise_c},
    {"volume_l", "Volume of the contents, L.", &Forecast::volume_l},
    {"depth_m", "Depth of the contents, m.", &Forecast::depth_m},
    {"cn_ratio", "Total carbon over total nitrogen.", &Forecast::cn_ratio},
    {"castings_dry_kg", "Castings formed since day 0, dry kg.", &Forecast::castings_dry_kg},
};

Species species_of(const std::string& word) {
    return choice_of<Species>("species", std::string_view(word), species_keys);
}

py::array_t<double> array_of(const std::vector<double>& numbers) {
    return py::array_t<double>(static_cast<py::ssize_t>(numbers.size()), numbers.data());
}

void bind_forecast_class(py::module_& module) {
    py::class_<ForecastSeries>(module, "Series", R"doc(
One quantity day by day, with the envelope of the runs at the ends of the ranges.

The envelope is what may happen if every constant errs the same way: no confidence interval.)doc")
        .def_property_readonly(
            "value", [](const ForecastSeries& s) { return array_of(s.value); }, "Typical run.")
        .def_property_readonly(
            "low", [](const ForecastSeries& s) { return array_of(s.low); }, "Lowest of the runs.")
        .def_property_readonly(
            "high", [](const ForecastSeries& s) { return array_of(s.high); },
            "Highest of the runs.")
        .def("__len__", [](const ForecastSeries& s) { return s.value.size(); })
        .def("__repr__", [](const ForecastSeries& s) {
            return "<Series of " + std::to_string(s.value.size()) + " days>";
        });
    py::class_<Forecast> bound(module, "Forecast", R"doc(
A bed day by day. Entry d of a series is day d, after what is fed on it.)doc");
    bound.def_property_readonly(
        "days", [](const Forecast& f) { return f.days; }, "Number of days after day 0.");
    for (const auto& one : series_keys)
        bound.def_readonly(one.key, one.member, one.meaning);
    bound
        .def(
            "__getitem__",
            [](const Forecast& f, const std::string& key) {
                const auto key_of = [](const SeriesKey& one) { return std::string_view(one.key); };
                return f.*series_keys[place_of_key("series", key, series_keys, key_of)].member;
            },
            py::arg("key"), "The series of a key such as \"moisture\".")
        .def_property_readonly(
            "series",
            [](const Forecast&) {
                std::vector<std::string> keys;
                for (const auto& one : series_keys)
                    keys.emplace_back(one.key);
                return keys;
            },
            "Keys of the series.")
        .def_property_readonly(
            "acid_class",
            [](const Forecast& f) {
                std::vector<std::string> words;
                for (const auto one : f.acid_class)
                    words.emplace_back(text(one));
                return words;
            },
            "near neutral, turning sour or sour, a word a day. A pH is never computed.")
        .def_property_readonly(
            "feeding_days",
            [](const Forecast& f) {
                std::vector<int> days_fed;
                for (const auto& one : f.portions) {
                    if (days_fed.empty() || days_fed.back() != one.day) days_fed.push_back(one.day);
                }
                return days_fed;
            },
            "Days on which something is fed.")
        .def_readonly("harvest_day", &Forecast::harvest_day, "When to harvest, or None.")
        .def_readonly("harvest_reason", &Forecast::harvest_reason, "Why then.")
        .def_readonly("new_bedding_day", &Forecast::new_bedding_day,
                      "When to give new bedding, or None.")
        .def_readonly("new_bedding_reason", &Forecast::new_bedding_reason, "Why then.")
        .def_property_readonly(
            "assumed", [](const Forecast& f) { return texts_of(f.assumed); },
            "What was taken for granted, a sentence each.")
        .def_readonly("unknown", &Forecast::unknown, "Keys of the series without a meaning.")
        .def_property_readonly(
            "grade", [](const Forecast& f) { return grade_text(f.grade); },
            "The worst grade it leans on, A to D.")
        .def(
            "to_json", [](const Forecast& f) { return io::to_json(f); },
            "The answer as JSON text, with the keys of `feed forecast`.")
        .def(
            "to_dict", [](const Forecast& f) { return from_json(io::to_json(f)); },
            "The answer as plain Python objects, with the keys of `feed forecast`.")
        .def(
            "to_svg",
            [](const Forecast& f, const std::string& title,
               const std::optional<DateGiven>& day_zero, const std::string& species,
               const std::string& units, std::optional<int> next_feeding_day) {
                io::PictureText text;
                text.next_feeding_day = next_feeding_day;
                text.title = title;
                if (day_zero) text.day_zero = date_given("day_zero", *day_zero);
                text.units = units_of(units);
                return io::forecast_svg(f, limits_of(species_of(species)), text);
            },
            py::kw_only(), py::arg("title") = "", py::arg("day_zero") = py::none(),
            py::arg("species") = "eisenia fetida", py::arg("units") = "metric",
            py::arg("next_feeding_day") = py::none(), R"doc(
A picture of moisture, food left and acid with their limits, as ``feed forecast --svg`` draws it.

Parameters
----------
title : str
    Above the picture.
day_zero : datetime.date or str, optional
    Dates below the axis instead of day numbers.
species : str
    Whose limits are drawn.
units : {"metric", "us"}
    Units of the axes.
next_feeding_day : int, optional
    Marked in the picture: that of the ration (``Ration.next_feeding_day``).

Returns
-------
str
    SVG 1.1. For Matplotlib see ``libfeed.plot.forecast``.)doc")
        .def("__repr__",
             [](const Forecast& f) { return "<Forecast of " + std::to_string(f.days) + " days>"; });
}

py::typing::Dict<py::str, py::float_> limits_of_species(const std::string& species) {
    const auto& limits = limits_of(species_of(species));
    py::typing::Dict<py::str, py::float_> found;
    const auto put = [&](const char* key, double number) {
        found[py::str(key)] = py::float_(number);
    };
    put("coldest_c", in_celsius(limits.coldest));
    put("optimum_low_c", in_celsius(limits.optimum_low));
    put("optimum_high_c", in_celsius(limits.optimum_high));
    put("warmest_c", in_celsius(limits.warmest));
    put("deadly_c", in_celsius(limits.deadly));
    put("driest_moisture", limits.driest.value());
    put("moisture_low", limits.moisture_low.value());
    put("moisture_high", limits.moisture_high.value());
    put("wettest_moisture", limits.wettest.value());
    return found;
}

py::typing::Dict<py::str, py::typing::Tuple<py::float_, py::float_, py::str, py::str>>
limits_of_hazards() {
    py::typing::Dict<py::str, py::typing::Tuple<py::float_, py::float_, py::str, py::str>> found;
    for (const auto& named : limits::all_limits)
        found[py::str(std::string(named.name))] =
            py::make_tuple(named.limit->watch, named.limit->act, std::string(named.limit->unit),
                           std::string(named.limit->source));
    return found;
}

}  // namespace

void bind_forecast(py::module_& module) {
    bind_forecast_class(module);
    module.def("species_limits", &limits_of_species, py::arg("species"), R"doc(
What a species likes and what it survives.

Parameters
----------
species : str
    eisenia fetida (and andrei), eisenia hortensis, perionyx excavatus, eudrilus eugeniae.

Returns
-------
dict of str to float
    Temperatures in deg C, moistures 0 to 1. Sources: Edwards, Kaplan et al. 1980, Muyima et al.
    1994, Hallatt et al. 1992, Viljoen and Reinecke; see docs/bed.md.)doc");
    module.def("hazard_limits", &limits_of_hazards, R"doc(
The limits of the check that do not depend on the species.

Returns
-------
dict of str to (float, float, str, str)
    By name: where it begins to matter, where to act, the unit, the source.

Examples
--------
>>> watch, act, unit, source = libfeed.hazard_limits()["salt"]
>>> watch < act
True)doc");
    module.def(
        "forecast",
        [](const Bed& bed, const FeedingsGiven& feedings, int days_ahead, double humidity,
           const std::optional<Calibration>& calibration) {
            ForecastOptions options;
            options.days = static_cast<std::size_t>(
                checked("days", static_cast<double>(days_ahead), {"days", 1, 366}));
            options.humidity = checked("humidity", humidity, {"", 0, 1, true});
            if (calibration) options.ranges = calibrated(options.ranges, *calibration);
            const py::gil_scoped_release released;
            return forecast(bed, feedings, options);
        },
        py::arg("bed"), py::arg("feedings"), py::kw_only(), py::arg("days") = 28,
        py::arg("humidity") = 0.6, py::arg("calibration") = py::none(), R"doc(
The bed day by day, with an envelope.

Parameters
----------
bed : Bed
    The bed on day 0.
feedings : sequence of Feeding
    From day 0 on, in any order; negative days are earlier feedings.
days : int
    How far, 1 to 366 days.
humidity : float
    Of the air around the bed, 0 to 1.
calibration : Calibration, optional
    The bin's own rates.

Returns
-------
Forecast
    Rates: labile 0.22, cellulosic 0.07, lignin-like 0.014 a day at 25 C; see docs/forecast.md.

Examples
--------
>>> bed = libfeed.Bed(container="tote", worms_wet_kg=0.5, temperature_c=20)
>>> ahead = libfeed.forecast(bed, [libfeed.Feeding(0, ["500 g kitchen scraps"])], days=14)
>>> len(ahead.moisture)
15)doc");
}

}  // namespace feed::python
