#include "blend.hpp"

#include "feed/blend/blend.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {

const std::array<BlendKey, row_quantity_count> blend_keys{{
    {"dry_mass_kg", "Dry mass, kg."},
    {"water_kg", "Water, kg."},
    {"moisture", "Water over wet mass, 0 to 1."},
    {"cn_ratio", "Total carbon over total nitrogen, by mass."},
    {"available_cn_ratio", "Degradable (lignin-limited) carbon over nitrogen, by mass."},
    {"carbon_kg", "Organic carbon, kg."},
    {"nitrogen_kg", "Total nitrogen, kg."},
    {"volume_l", "Loose volume, L."},
    {"bulk_density_kg_m3", "Wet mass over loose volume, kg/m3."},
    {"free_air_space", "Share of the settled volume that is air, 0 to 1."},
    {"acid_g_citric", "Titratable acid as citric acid, g."},
    {"salt_g", "Sodium as NaCl, g."},
    {"potassium_g", "Potassium, g."},
    {"fat_kg", "Fat, kg."},
    {"volatile_solids_kg", "Volatile solids, kg."},
    {"neutralising_g_caco3", "Acid that it neutralises, g as calcium carbonate."},
}};

RowQuantity quantity_of_key(const std::string& key) {
    return static_cast<RowQuantity>(
        place_of_key("quantity", key, blend_keys,
                     [](const BlendKey& one) { return std::string_view(one.key); }));
}

namespace {

std::string estimate_repr(const Estimate<double>& estimate) {
    if (!estimate.has_value()) return "<Estimate unknown>";
    if (!estimate.is_known())
        return "<Estimate at least " + number_text(estimate.value) + ", grade " +
               grade_text(estimate.grade) + ">";
    return "<Estimate " + number_text(estimate.value) + ", " + number_text(estimate.low) + " to " +
           number_text(estimate.high) + ", grade " + grade_text(estimate.grade) + ">";
}

void bind_estimate(py::module_& module) {
    using Number = std::optional<double>;
    py::class_<Estimate<double>>(module, "Estimate", R"doc(
A computed quantity: value, range, how much of it is known, and the worst grade it leans on.

``value``, ``low`` and ``high`` are None where the quantity is not known in full; then ``at_least``
may give its known part. Unknown never means zero.)doc")
        .def_property_readonly(
            "value",
            [](const Estimate<double>& e) { return e.is_known() ? Number(e.value) : Number(); },
            "Typical value, or None.")
        .def_property_readonly(
            "low",
            [](const Estimate<double>& e) { return e.is_known() ? Number(e.low) : Number(); },
            "Low end of the range, or None.")
        .def_property_readonly(
            "high",
            [](const Estimate<double>& e) { return e.is_known() ? Number(e.high) : Number(); },
            "High end of the range, or None.")
        .def_property_readonly(
            "at_least",
            [](const Estimate<double>& e) {
                return e.has_value() && !e.is_known() ? Number(e.value) : Number();
            },
            "Lower bound where a property is missing for a small share of the mass, or None.")
        .def_property_readonly(
            "covered", [](const Estimate<double>& e) { return e.covered; },
            "Share of the mass concerned whose property is known, 0 to 1.")
        .def_property_readonly(
            "grade", [](const Estimate<double>& e) { return grade_text(e.grade); },
            "Worst grade it leans on, A to D.")
        .def_property_readonly(
            "is_known", [](const Estimate<double>& e) { return e.is_known(); },
            "Whether value, low and high hold.")
        .def("__float__",
             [](const Estimate<double>& e) {
                 if (e.is_known()) return e.value;
                 throw Raised(make_error(ErrorCode::missing_value, "estimate", "unknown",
                                         "a quantity that is known",
                                         "the quantity is not known in full; see at_least"));
             })
        .def("__repr__", &estimate_repr);
}

std::string blend_repr(const SharedBlend& self) {
    std::string repr = "<Blend " + number_text(self.properties.wet_mass.in_kilograms()) + " kg";
    if (self.properties.moisture.is_known())
        repr += ", moisture " + number_text(self.properties.moisture.value.value());
    if (self.properties.cn_ratio.is_known())
        repr += ", C:N " + number_text(self.properties.cn_ratio.value);
    return repr + ">";
}

std::string blend_json(const SharedBlend& self) {
    std::vector<Portion> portions;
    std::vector<std::string> measures;
    for (const auto& portion : self.portions) {
        portions.push_back(portion.content);
        measures.push_back(portion.measure);
    }
    return io::to_json(self.properties, portions, measures);
}

SharedBlend make_blend(const PortionsGiven& given, const ContainerVolumes& containers) {
    SharedBlend made;
    const auto portions = portions_given(given, containers);
    if (portions.empty()) {
        throw Raised(make_error(ErrorCode::empty, "portions", "none", "at least one portion",
                                "a blend needs at least one portion"));
    }
    for (const auto& one : given)
        made.portions.push_back(portion_given(one, containers));
    made.properties = blend(portions);
    return made;
}

void bind_blend_class(py::module_& module) {
    py::class_<SharedBlend> bound(module, "Blend", R"doc(
Portions together: each property with its range, its grade and how much of it is known.)doc");
    bound.def_readonly("portions", &SharedBlend::portions, "The portions.")
        .def_property_readonly(
            "wet_mass_kg",
            [](const SharedBlend& b) { return b.properties.wet_mass.in_kilograms(); },
            "Wet mass, kg.");
    for (std::size_t k = 0; k < row_quantity_count; ++k) {
        const auto quantity = static_cast<RowQuantity>(k);
        bound.def_property_readonly(
            blend_keys[k].key,
            [quantity](const SharedBlend& b) { return estimate_of(b.properties, quantity); },
            blend_keys[k].meaning);
    }
    bound
        .def(
            "__getitem__",
            [](const SharedBlend& b, const std::string& key) {
                return estimate_of(b.properties, quantity_of_key(key));
            },
            py::arg("key"), "The quantity of a key such as \"moisture\".")
        .def_property_readonly(
            "cautions",
            [](const SharedBlend& b) { return caution_words_of(b.properties.cautions); },
            "Warnings that belong to the feedstocks.")
        .def_property_readonly(
            "assumed", [](const SharedBlend& b) { return texts_of(b.properties.assumed); },
            "What was taken for granted, a sentence each.")
        .def_property_readonly(
            "unknown", [](const SharedBlend& b) { return b.properties.unknown; },
            "Keys of the quantities without a number.")
        .def("to_json", &blend_json, "The answer as JSON text, with the keys of `feed blend`.")
        .def(
            "to_dict", [](const SharedBlend& b) { return from_json(blend_json(b)); },
            "The answer as plain Python objects, with the keys of `feed blend`.")
        .def("__repr__", &blend_repr);
    module.def("blend", &make_blend, py::arg("portions"), py::kw_only(),
               py::arg("containers") = ContainerVolumes{}, R"doc(
The properties of portions together.

C:N is total carbon over total nitrogen, never a mean of ratios; its range and that of moisture are
exact for the ranges of the feedstocks (Dinkelbach 1967). Salt is sodium x 2.54 as NaCl.

Parameters
----------
portions : sequence of Portion or str
    Portions, or texts such as "1.2 kg coffee grounds".
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Returns
-------
Blend

Raises
------
FeedError
    With the problems of all portions at once.

Examples
--------
>>> made = libfeed.blend(["1.2 kg coffee grounds", "300 g shredded cardboard"])
>>> round(made.wet_mass_kg, 3)
1.5
>>> made.cn_ratio.low < made.cn_ratio.value < made.cn_ratio.high
True)doc");
}

}  // namespace

void bind_blend(py::module_& module) {
    bind_estimate(module);
    bind_blend_class(module);
}

}  // namespace feed::python
