#include "feed/diary/observation.hpp"

#include <map>

#include "bed.hpp"
#include "date.hpp"
#include "feed/bed/bed_borders.hpp"
#include "feed/bed/bed_keys.hpp"
#include "feed/io/observation_text.hpp"

namespace feed::python {
namespace {

using Number = std::optional<double>;
using Text = std::optional<std::string>;
using PlacesAndNumbers = std::map<std::string, double>;
using TemperaturesGiven = std::optional<std::variant<double, PlacesAndNumbers>>;

std::optional<WetMass> mass_seen(std::string_view field, Number wet_kg) {
    if (!checked(field, wet_kg, mass_range)) return std::nullopt;
    return wet_kilograms(*wet_kg);
}

std::optional<Temperature> temperature_seen(std::string_view field, Number degrees_c) {
    if (!checked(field, degrees_c, borders::temperature)) return std::nullopt;
    return celsius(*degrees_c);
}

Observation make_observation(const DateGiven& date, const std::string& by,
                             const std::optional<DateGiven>& of_feeding, Number left_wet_kg,
                             Number share_gone, std::optional<bool> gone, const Text& worms,
                             const Text& vigour, const Text& squeeze, Number moisture,
                             std::optional<bool> pooling, const Text& smell, Number ph,
                             const TemperaturesGiven& temperature_c, Number air_low_c,
                             Number air_high_c, Number weight_in_wet_kg,
                             Number running_total_wet_kg, Number worm_weight_wet_kg,
                             const std::string& bedding, const std::string& pests,
                             const std::string& action, const std::string& note) {
    Observation seen;
    seen.date = date_given("date", date);
    seen.by = by;
    if (of_feeding) seen.of_feeding = date_given("of_feeding", *of_feeding);
    seen.left = mass_seen("left_wet_kg", left_wet_kg);
    seen.share_gone = checked("share_gone", share_gone, borders::share_gone);
    if (gone) seen.gone = *gone ? FoodGone::yes : FoodGone::no;
    seen.worms = choice_of<WormPlace>("worms", worms, worm_place_words);
    seen.vigour = choice_of<WormVigour>("vigour", vigour, worm_vigour_words);
    seen.squeeze = choice_of<Squeeze>("squeeze", squeeze, squeeze_keys);
    if (checked("moisture", moisture, borders::moisture)) seen.moisture = Moisture(*moisture);
    seen.pooling = pooling;
    seen.smell = choice_of<Smell>("smell", smell, smell_words);
    seen.ph = checked("ph", ph, borders::ph);
    if (temperature_c) {
        if (const auto* one = std::get_if<double>(&*temperature_c)) {
            seen.temperatures.push_back({"", *temperature_seen("temperature_c", *one)});
        } else {
            for (const auto& [place, degrees_c] : std::get<PlacesAndNumbers>(*temperature_c))
                seen.temperatures.push_back({place, *temperature_seen("temperature_c", degrees_c)});
        }
    }
    seen.air_low = temperature_seen("air_low_c", air_low_c);
    seen.air_high = temperature_seen("air_high_c", air_high_c);
    if (air_low_c && air_high_c && *air_low_c > *air_high_c) {
        throw Raised(make_error(ErrorCode::low_above_high, "air_low_c",
                                number_text(*air_low_c) + " deg C", "at most air_high_c",
                                "the low of the air is above its high; are they swapped?"));
    }
    seen.weight_in = mass_seen("weight_in_wet_kg", weight_in_wet_kg);
    seen.running_total = mass_seen("running_total_wet_kg", running_total_wet_kg);
    seen.worm_weight = mass_seen("worm_weight_wet_kg", worm_weight_wet_kg);
    seen.bedding = bedding;
    seen.pests = pests;
    seen.action = action;
    seen.note = note;
    return seen;
}

Number kilograms_or_none(const std::optional<WetMass>& mass) {
    return mass ? Number(mass->in_kilograms()) : Number();
}

Number degrees_or_none(const std::optional<Temperature>& temperature) {
    return temperature ? Number(in_celsius(*temperature)) : Number();
}

template <class Choice>
Text word_or_none(const std::optional<Choice>& choice) {
    return choice ? Text(std::string(text(*choice))) : Text();
}

std::string observation_repr(const Observation& seen) {
    std::string words = "<Observation " + text(seen.date);
    if (seen.left) words += ", " + number_text(seen.left->in_kilograms()) + " kg left";
    if (seen.share_gone) words += ", " + number_text(*seen.share_gone) + " gone";
    if (seen.gone == FoodGone::yes) words += ", gone";
    if (seen.gone == FoodGone::no) words += ", not gone";
    if (seen.worms) words += ", worms " + std::string(text(*seen.worms));
    if (seen.smell) words += ", smell " + std::string(text(*seen.smell));
    if (seen.squeeze) words += ", " + word_of(*seen.squeeze, squeeze_keys);
    return words + ">";
}

void bind_readers(py::class_<Observation>& bound) {
    bound
        .def_property_readonly(
            "date", [](const Observation& o) { return python_date(o.date); }, "datetime.date.")
        .def_readonly("by", &Observation::by, "Who looked.")
        .def_property_readonly(
            "of_feeding",
            [](const Observation& o) {
                return o.of_feeding ? std::optional<PythonDate>(python_date(*o.of_feeding))
                                    : std::nullopt;
            },
            "datetime.date of the feeding that was looked at, or None for the last one.")
        .def_property_readonly(
            "left_wet_kg", [](const Observation& o) { return kilograms_or_none(o.left); },
            "Leftovers weighed, wet kg.")
        .def_readonly("share_gone", &Observation::share_gone, "Gone by eye, 0 to 1.")
        .def_property_readonly(
            "gone",
            [](const Observation& o) {
                return o.gone == FoodGone::unsaid ? std::optional<bool>()
                                                  : std::optional<bool>(o.gone == FoodGone::yes);
            },
            "The feeding was found to be gone, or not.")
        .def_property_readonly(
            "worms", [](const Observation& o) { return word_or_none(o.worms); },
            "gathered, spread, at the lid or leaving.")
        .def_property_readonly(
            "vigour", [](const Observation& o) { return word_or_none(o.vigour); },
            "active, sluggish or dying.")
        .def_property_readonly(
            "squeeze",
            [](const Observation& o) {
                return o.squeeze ? Text(word_of(*o.squeeze, squeeze_keys)) : Text();
            },
            "The squeeze test.")
        .def_property_readonly(
            "moisture",
            [](const Observation& o) {
                return o.moisture ? Number(o.moisture->value()) : Number();
            },
            "Measured by drying, 0 to 1.")
        .def_readonly("pooling", &Observation::pooling, "Water stands in the tray or bed.")
        .def_property_readonly(
            "smell", [](const Observation& o) { return word_or_none(o.smell); },
            "earthy, none, sour, rotten, ammonia, vinegar or swampy.")
        .def_readonly("ph", &Observation::ph, "Of a strip.")
        .def_property_readonly(
            "temperature_c",
            [](const Observation& o) {
                PlacesAndNumbers temperatures;
                for (const auto& one : o.temperatures)
                    temperatures[one.place] = in_celsius(one.temperature);
                return temperatures;
            },
            "Temperatures taken, deg C, by place; \"\" is the whole bin.")
        .def_property_readonly(
            "air_low_c", [](const Observation& o) { return degrees_or_none(o.air_low); },
            "Lowest of the air in the last 24 hours, deg C.")
        .def_property_readonly(
            "air_high_c", [](const Observation& o) { return degrees_or_none(o.air_high); },
            "Highest of the air in the last 24 hours, deg C.")
        .def_property_readonly(
            "weight_in_wet_kg", [](const Observation& o) { return kilograms_or_none(o.weight_in); },
            "Put in that day, wet kg.")
        .def_property_readonly(
            "running_total_wet_kg",
            [](const Observation& o) { return kilograms_or_none(o.running_total); },
            "Put in so far, wet kg, as the site counts it.")
        .def_property_readonly(
            "worm_weight_wet_kg",
            [](const Observation& o) { return kilograms_or_none(o.worm_weight); },
            "All worms of the bin, weighed, wet kg.")
        .def_readonly("bedding", &Observation::bedding, "Bedding added, in the site's own measure.")
        .def_readonly("pests", &Observation::pests, "Pests seen.")
        .def_readonly("action", &Observation::action, "What was done.")
        .def_readonly("note", &Observation::note, "Remarks.");
}

}  // namespace

void bind_observation(py::module_& module) {
    py::class_<Observation> bound(module, "Observation", R"doc(
One look at a bin: whatever was seen, weighed or done that day. Only the date must be said.

Parameters
----------
date : datetime.date or str
    The day, as a date or as "2026-03-14".
by : str
    Who looked.
of_feeding : datetime.date or str, optional
    Day of the feeding looked at; the last one before ``date`` where it is left out.
left_wet_kg : float, optional
    Leftovers of that feeding, weighed, wet kg.
share_gone : float, optional
    Gone by eye, 0 to 1.
gone : bool, optional
    Found to be gone, or not.
worms, vigour : str, optional
    gathered, spread, at the lid or leaving; active, sluggish or dying.
squeeze : str, optional
    crumbly, damp, drops, many drops, streams or pooling.
moisture : float, optional
    Water over wet mass, 0 to 1, measured by drying.
pooling : bool, optional
    Water stands in the tray or bed.
smell : str, optional
    earthy, none, sour, rotten, ammonia, vinegar or swampy.
ph : float, optional
    Of a strip.
temperature_c : float or dict of str to float, optional
    Of the bed, deg C: one, or by place ("back", "middle", "front").
air_low_c, air_high_c : float, optional
    Of the air in the last 24 hours, deg C.
weight_in_wet_kg, running_total_wet_kg : float, optional
    Put in that day and so far, wet kg, as a site counts it.
worm_weight_wet_kg : float, optional
    All worms of the bin, weighed, wet kg; later answers count with it.
bedding, pests, action, note : str
    In the keeper's own words.

Raises
------
FeedValueError
    A number or word that cannot be; ``field`` says which.

Examples
--------
>>> libfeed.Observation("2026-03-20", share_gone=0.75, worms="spread", squeeze="drops")
<Observation 2026-03-20, 0.75 gone, worms spread, drops>)doc");
    bound.def(py::init(&make_observation), py::arg("date"), py::kw_only(), py::arg("by") = "",
              py::arg("of_feeding") = py::none(), py::arg("left_wet_kg") = py::none(),
              py::arg("share_gone") = py::none(), py::arg("gone") = py::none(),
              py::arg("worms") = py::none(), py::arg("vigour") = py::none(),
              py::arg("squeeze") = py::none(), py::arg("moisture") = py::none(),
              py::arg("pooling") = py::none(), py::arg("smell") = py::none(),
              py::arg("ph") = py::none(), py::arg("temperature_c") = py::none(),
              py::arg("air_low_c") = py::none(), py::arg("air_high_c") = py::none(),
              py::arg("weight_in_wet_kg") = py::none(),
              py::arg("running_total_wet_kg") = py::none(),
              py::arg("worm_weight_wet_kg") = py::none(), py::arg("bedding") = "",
              py::arg("pests") = "", py::arg("action") = "", py::arg("note") = "");
    bind_readers(bound);
    bound
        .def(
            "to_yaml", [](const Observation& o) { return io::observation_yaml(o); },
            "The entry of ``observations`` in a feed file that says this.")
        .def("__repr__", &observation_repr);
}

}  // namespace feed::python
