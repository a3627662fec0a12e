#include "bed.hpp"

#include "feed/bed/bed_borders.hpp"
#include "feed/bed/bed_keys.hpp"

namespace feed::python {
namespace {

using Number = std::optional<double>;
using Text = std::optional<std::string>;
using Range = std::tuple<double, double>;
using TemperatureGiven = std::optional<std::variant<double, Range, std::vector<double>>>;

BedTemperature read_temperature(const TemperatureGiven& given) {
    constexpr const Border& range = borders::temperature;
    if (!given) return std::monostate();
    if (const auto* one = std::get_if<double>(&*given))
        return celsius(checked("temperature_c", *one, range));
    if (const auto* both = std::get_if<Range>(&*given)) {
        const auto& [low, high] = *both;
        checked("temperature_c", low, range);
        checked("temperature_c", high, range);
        if (low > high) {
            throw Raised(make_error(ErrorCode::low_above_high, "temperature_c",
                                    number_text(low) + " to " + number_text(high) + " deg C",
                                    "the low one first",
                                    "the upper temperature is below the lower one"));
        }
        return TemperatureRange{celsius(low), celsius(high)};
    }
    DailyTemperatures daily;
    for (const double one : std::get<std::vector<double>>(*given))
        daily.push_back(celsius(checked("temperature_c", one, range)));
    return daily;
}

Feeding make_feeding(double day, const PortionsGiven& portions,
                     const ContainerVolumes& containers) {
    return {days(checked("day", day, borders::day)), portions_given(portions, containers)};
}

Bed make_bed(const std::string& container,
             const std::optional<std::tuple<double, double, double>>& inside_m, Number volume_l,
             int stacked, Number depth_of_contents_m, const Text& drainage, const Text& lid,
             const Text& ventilation, const Text& species, Number worms_wet_kg, Number worms_count,
             const Text& worms_known, const TemperatureGiven& temperature_c,
             const PortionsGiven& bedding, const Text& squeeze, Number moisture, Number ph,
             Number lime_kg, const FeedingsGiven& earlier, Number age_days,
             Number own_feeding_rate_per_day) {
    Bed bed;
    bed.container.kind =
        choice_of<ContainerKind>("container", std::string_view(container), container_keys);
    if (inside_m) {
        const auto& [length, width, depth] = *inside_m;
        bed.container.inside =
            InsideSize{metres(checked("inside length", length, borders::inside_length)),
                       metres(checked("inside width", width, borders::inside_width)),
                       metres(checked("inside depth", depth, borders::inside_depth))};
    }
    if (checked("volume_l", volume_l, borders::volume)) bed.container.volume = litres(*volume_l);
    checked("stacked", static_cast<double>(stacked), borders::stacked);
    bed.container.stacked = stacked;
    if (checked("depth_of_contents_m", depth_of_contents_m, borders::depth_of_contents))
        bed.depth_of_contents = metres(*depth_of_contents_m);
    bed.drainage = choice_of<Drainage>("drainage", drainage, drainage_keys);
    bed.lid = choice_of<Lid>("lid", lid, lid_keys);
    bed.ventilation = choice_of<Ventilation>("ventilation", ventilation, ventilation_keys);
    bed.species = choice_of<Species>("species", species, species_keys);
    if (checked("worms_wet_kg", worms_wet_kg, borders::worms_wet_mass))
        bed.worms.wet_mass = wet_kilograms(*worms_wet_kg);
    bed.worms.count = checked("worms_count", worms_count, borders::worms_count);
    bed.worms.known =
        choice_of<WormsKnown>("worms_known", worms_known, worms_known_keys)
            .value_or(!worms_wet_kg && worms_count ? WormsKnown::counted : WormsKnown::weighed);
    bed.temperature = read_temperature(temperature_c);
    bed.bedding = portions_given(bedding);
    bed.squeeze = choice_of<Squeeze>("squeeze", squeeze, squeeze_keys);
    if (checked("moisture", moisture, borders::moisture)) bed.moisture = Moisture(*moisture);
    bed.ph = checked("ph", ph, borders::ph);
    if (checked("lime_kg", lime_kg, borders::lime)) bed.lime = kilograms(*lime_kg);
    bed.earlier = earlier;
    for (const auto& feeding : earlier)
        checked("day of an earlier feeding", in_days(feeding.day), borders::earlier_day);
    if (checked("age_days", age_days, borders::age)) bed.age = days(*age_days);
    if (checked("own_feeding_rate_per_day", own_feeding_rate_per_day, borders::own_feeding_rate))
        bed.own_feeding_rate = per_day(*own_feeding_rate_per_day);
    return bed;
}

void bind_bed_class(py::module_& module) {
    py::class_<Feeding>(module, "Feeding", R"doc(
A blend put into a bed on a day.

Parameters
----------
day : float
    Days from the day for which the bed is described: negative before it.
portions : sequence of Portion or str
    Scraps with their bedding, water and amendments.
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Examples
--------
>>> libfeed.Feeding(-7, ["400 g banana peel", "100 g shredded cardboard"]).day
-7.0)doc")
        .def(py::init(&make_feeding), py::arg("day"), py::arg("portions"), py::kw_only(),
             py::arg("containers") = ContainerVolumes{})
        .def_property_readonly(
            "day", [](const Feeding& f) { return in_days(f.day); }, "Day.")
        .def_property_readonly(
            "portions", [](const Feeding& f) { return shared_portions(f.portions); },
            "What went in.")
        .def("__repr__", [](const Feeding& f) {
            return "<Feeding day " + number_text(in_days(f.day)) + ", " +
                   std::to_string(f.portions.size()) + " portions>";
        });
    py::class_<Bed>(module, "Bed", R"doc(
A worm bed as its keeper describes it. Whatever is left out is assumed, and answers say so.

Parameters
----------
container : str
    tray, tote, bucket, bath, flow-through, windrow or box.
inside_m : (float, float, float), optional
    Inside length, width and depth, m.
volume_l : float, optional
    Nominal volume, L, where no size is given.
stacked : int
    Working trays on top of each other.
depth_of_contents_m : float, optional
    Depth of the contents, m.
drainage, lid, ventilation : str, optional
    open, tap or none; none, loose or tight; open top, holes or closed.
species : str, optional
    eisenia fetida (and andrei), eisenia hortensis, perionyx excavatus, eudrilus eugeniae.
worms_wet_kg, worms_count : float, optional
    Worms by weight, kg, or by number.
worms_known : str, optional
    weighed, counted or as bought.
temperature_c : float, (float, float) or list of float, optional
    Of the bed, deg C: one value, a range, or one a day from day 0.
bedding : sequence of Portion or str, optional
    What the bed is made of, water included, if it was weighed.
squeeze : str, optional
    What a handful does in the fist: crumbly, damp, drops, many drops, streams or pooling.
moisture : float, optional
    Water over wet mass, 0 to 1, measured by drying; wins over the squeeze test.
ph : float, optional
    Only if measured.
lime_kg : float, optional
    Lime or ground shell already in the bed, kg as calcium carbonate.
earlier : sequence of Feeding, optional
    Feedings before day 0.
age_days : float, optional
    Since the worms moved in.
own_feeding_rate_per_day : float, optional
    Wet scraps for each kg of worms and day that this bed has been seen to clear.

Examples
--------
>>> bed = libfeed.Bed(container="tote", volume_l=60, worms_wet_kg=0.5, squeeze="damp"))doc")
        .def(py::init(&make_bed), py::kw_only(), py::arg("container") = "tote",
             py::arg("inside_m") = py::none(), py::arg("volume_l") = py::none(),
             py::arg("stacked") = 1, py::arg("depth_of_contents_m") = py::none(),
             py::arg("drainage") = py::none(), py::arg("lid") = py::none(),
             py::arg("ventilation") = py::none(), py::arg("species") = py::none(),
             py::arg("worms_wet_kg") = py::none(), py::arg("worms_count") = py::none(),
             py::arg("worms_known") = py::none(), py::arg("temperature_c") = py::none(),
             py::arg("bedding") = PortionsGiven{}, py::arg("squeeze") = py::none(),
             py::arg("moisture") = py::none(), py::arg("ph") = py::none(),
             py::arg("lime_kg") = py::none(), py::arg("earlier") = FeedingsGiven{},
             py::arg("age_days") = py::none(), py::arg("own_feeding_rate_per_day") = py::none())
        .def_property_readonly(
            "container", [](const Bed& b) { return word_of(b.container.kind, container_keys); },
            "What the worms live in.")
        .def_property_readonly(
            "worms_wet_kg",
            [](const Bed& b) {
                return b.worms.wet_mass ? Number(b.worms.wet_mass->in_kilograms()) : Number();
            },
            "Worms, wet kg, or None.")
        .def_property_readonly(
            "squeeze",
            [](const Bed& b) {
                return b.squeeze ? Text(word_of(*b.squeeze, squeeze_keys)) : Text();
            },
            "The squeeze test, or None.")
        .def_readonly("ph", &Bed::ph, "pH, or None.")
        .def_readonly("earlier", &Bed::earlier, "Feedings before day 0.")
        .def("__repr__", [](const Bed& b) {
            return "<Bed " + word_of(b.container.kind, container_keys) + ", " +
                   std::to_string(b.earlier.size()) + " earlier feedings>";
        });
}

}  // namespace

void bind_bed(py::module_& module) {
    bind_bed_class(module);
}

}  // namespace feed::python
