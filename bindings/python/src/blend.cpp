#include "blend.hpp"

#include <pybind11/numpy.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <thread>

#include "feed/blend/blend.hpp"
#include "feed/io/to_json.hpp"
#include "threads.hpp"

namespace feed::python {
namespace {

constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

template <auto member>
Estimate<double> kilograms_of(const BlendProperties& blend) {
    return plain_estimate(blend.*member, [](Mass mass) { return in_kilograms(mass); });
}
template <auto member>
Estimate<double> grams_of(const BlendProperties& blend) {
    return plain_estimate(blend.*member, [](Mass mass) { return in_grams(mass); });
}
template <auto member>
Estimate<double> number_of(const BlendProperties& blend) {
    return blend.*member;
}

}  // namespace

const std::array<BlendKey, blend_key_count> blend_keys{{
    {"dry_mass_kg", "Dry mass, kg.", kilograms_of<&BlendProperties::dry_mass>},
    {"water_kg", "Water, kg.", kilograms_of<&BlendProperties::water>},
    {"moisture", "Water over wet mass, 0 to 1.",
     [](const BlendProperties& blend) {
         return plain_estimate(blend.moisture, [](Moisture m) { return m.value(); });
     }},
    {"cn_ratio", "Total carbon over total nitrogen, by mass.",
     number_of<&BlendProperties::cn_ratio>},
    {"available_cn_ratio", "Degradable (lignin-limited) carbon over nitrogen, by mass.",
     number_of<&BlendProperties::available_cn_ratio>},
    {"carbon_kg", "Organic carbon, kg.", kilograms_of<&BlendProperties::carbon>},
    {"nitrogen_kg", "Total nitrogen, kg.", kilograms_of<&BlendProperties::nitrogen>},
    {"volume_l", "Loose volume, L.",
     [](const BlendProperties& blend) {
         return plain_estimate(blend.volume, [](Volume v) { return in_litres(v); });
     }},
    {"bulk_density_kg_m3", "Wet mass over loose volume, kg/m3.",
     [](const BlendProperties& blend) {
         return plain_estimate(blend.bulk_density,
                               [](Density d) { return in_kilograms_per_cubic_metre(d); });
     }},
    {"free_air_space", "Share of the settled volume that is air, 0 to 1.",
     number_of<&BlendProperties::free_air_space>},
    {"acid_g_citric", "Titratable acid as citric acid, g.", grams_of<&BlendProperties::acid>},
    {"salt_g", "Sodium as NaCl, g.", grams_of<&BlendProperties::salt>},
    {"potassium_g", "Potassium, g.", grams_of<&BlendProperties::potassium>},
    {"fat_kg", "Fat, kg.", kilograms_of<&BlendProperties::fat>},
    {"volatile_solids_kg", "Volatile solids, kg.", kilograms_of<&BlendProperties::volatile_solids>},
    {"neutralising_g_caco3", "Acid that it neutralises, g as calcium carbonate.",
     grams_of<&BlendProperties::neutralising>},
}};

namespace {

using Array = py::array_t<double, py::array::c_style>;
using Given = py::array_t<double, py::array::c_style | py::array::forcecast>;
using Flags = py::array_t<bool, py::array::c_style>;

/// One quantity of many blends.
struct ManyEstimates {
    Array value, low, high;
    Flags known;
};

/// Many blends of the same feedstocks.
struct ManyBlends {
    std::size_t count = 0;
    std::array<std::optional<ManyEstimates>, blend_key_count> quantities;
};

std::size_t place_of_quantity(const std::string& key) {
    return place_of_key("quantity", key, blend_keys,
                        [](const BlendKey& one) { return std::string_view(one.key); });
}

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
    for (const auto& one : blend_keys) {
        const auto read = one.read;
        bound.def_property_readonly(
            one.key, [read](const SharedBlend& b) { return read(b.properties); }, one.meaning);
    }
    bound
        .def(
            "__getitem__",
            [](const SharedBlend& b, const std::string& key) {
                return blend_keys[place_of_quantity(key)].read(b.properties);
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

/// The arrays that one thread writes to.
struct ManyPointers {
    double* value = nullptr;
    double* low = nullptr;
    double* high = nullptr;
    bool* known = nullptr;
};

void write(const ManyPointers& to, std::size_t row, const Estimate<double>& estimate) {
    const bool has = estimate.has_value();
    to.value[row] = has ? estimate.value : not_known;
    to.low[row] = has ? estimate.low : not_known;
    to.high[row] = has ? estimate.high : not_known;
    to.known[row] = estimate.is_known();
}

void blend_rows(const std::vector<std::shared_ptr<const Feedstock>>& feedstocks,
                const double* wet_kg, const std::array<ManyPointers, blend_key_count>& to,
                std::size_t first, std::size_t last) {
    const std::size_t width = feedstocks.size();
    std::vector<Portion> portions;
    // Feedstocks of its own: threads that share none do not wait for each other. One that stands in
    // two columns stays one.
    for (std::size_t i = 0; i < width; ++i) {
        const auto at = static_cast<std::size_t>(
            std::find(feedstocks.begin(), feedstocks.end(), feedstocks[i]) - feedstocks.begin());
        portions.push_back(
            {at < i ? portions[at].feedstock : std::make_shared<const Feedstock>(*feedstocks[i]),
             WetMass()});
    }
    for (std::size_t row = first; row < last; ++row) {
        for (std::size_t i = 0; i < width; ++i)
            portions[i].wet_mass = wet_kilograms(wet_kg[row * width + i]);
        const BlendProperties properties = blend_numbers(portions);
        for (std::size_t k = 0; k < blend_key_count; ++k) {
            if (to[k].value != nullptr) write(to[k], row, blend_keys[k].read(properties));
        }
    }
}

void check_masses(const double* wet_kg, std::size_t rows, std::size_t width) {
    for (std::size_t i = 0; i < rows * width; ++i) {
        if (wet_kg[i] >= mass_range.lowest && wet_kg[i] <= mass_range.highest) continue;
        checked("wet_kg[" + std::to_string(i / width) + ", " + std::to_string(i % width) + "]",
                wet_kg[i], mass_range);
    }
}

std::size_t threads_or_all(std::optional<int> threads) {
    if (threads) {
        checked("threads", static_cast<double>(*threads), {"", 1, 1024});
        return static_cast<std::size_t>(*threads);
    }
    const unsigned cores = std::thread::hardware_concurrency();
    return cores == 0 ? 1 : cores;
}

ManyBlends blend_many(const std::vector<FeedstockOrWords>& given, const Given& wet_kg,
                      const std::optional<std::vector<std::string>>& quantities,
                      std::optional<int> threads) {
    std::vector<std::shared_ptr<const Feedstock>> feedstocks;
    for (const auto& one : given)
        feedstocks.push_back(feedstock_given(one).content);
    if (wet_kg.ndim() != 2 || static_cast<std::size_t>(wet_kg.shape(1)) != feedstocks.size() ||
        feedstocks.empty()) {
        throw Raised(make_error(
            ErrorCode::wrong_type, "wet_kg", std::to_string(wet_kg.ndim()) + " dimensions",
            "an array of shape (blends, " + std::to_string(feedstocks.size()) + ")",
            "wet_kg has to be an array with a row a blend and a column a feedstock"));
    }
    const auto rows = static_cast<std::size_t>(wet_kg.shape(0));
    const std::size_t workers = threads_or_all(threads);
    ManyBlends many;
    many.count = rows;
    std::array<ManyPointers, blend_key_count> to;
    for (std::size_t k = 0; k < blend_key_count; ++k) {
        if (quantities && std::find(quantities->begin(), quantities->end(), blend_keys[k].key) ==
                              quantities->end())
            continue;
        const auto length = static_cast<py::ssize_t>(rows);
        many.quantities[k] =
            ManyEstimates{Array(length), Array(length), Array(length), Flags(length)};
        auto& arrays = *many.quantities[k];
        to[k] = {arrays.value.mutable_data(), arrays.low.mutable_data(), arrays.high.mutable_data(),
                 arrays.known.mutable_data()};
    }
    if (quantities) {
        for (const auto& key : *quantities)
            place_of_quantity(key);
    }
    const double* masses = wet_kg.data();
    {
        const py::gil_scoped_release released;
        check_masses(masses, rows, feedstocks.size());
        in_threads(rows, workers, [&](std::size_t first, std::size_t last) {
            blend_rows(feedstocks, masses, to, first, last);
        });
    }
    return many;
}

void bind_many(py::module_& module) {
    py::class_<ManyEstimates>(module, "Estimates", R"doc(
One quantity of many blends, an array each.

Where a quantity is only known in part, ``known`` is False and ``value`` is a lower bound; where it
is unknown all three numbers are NaN.)doc")
        .def_readonly("value", &ManyEstimates::value, "Typical values.")
        .def_readonly("low", &ManyEstimates::low, "Low ends of the ranges.")
        .def_readonly("high", &ManyEstimates::high, "High ends of the ranges.")
        .def_readonly("known", &ManyEstimates::known, "Whether value, low and high hold.")
        .def("__len__", [](const ManyEstimates& m) { return m.value.size(); })
        .def("__repr__", [](const ManyEstimates& m) {
            return "<Estimates of " + std::to_string(m.value.size()) + " blends>";
        });
    py::class_<ManyBlends>(module, "Blends", "Many blends of the same feedstocks.")
        .def(
            "__getitem__",
            [](const ManyBlends& many, const std::string& key) {
                const auto& found = many.quantities[place_of_quantity(key)];
                if (!found) {
                    throw Raised(make_error(ErrorCode::unknown_property, "quantity", key,
                                            "a quantity that was asked for",
                                            key + " was not asked for"));
                }
                return *found;
            },
            py::arg("key"), "The arrays of a quantity such as \"moisture\".")
        .def_property_readonly(
            "quantities",
            [](const ManyBlends& many) {
                std::vector<std::string> keys;
                for (std::size_t k = 0; k < blend_key_count; ++k) {
                    if (many.quantities[k]) keys.emplace_back(blend_keys[k].key);
                }
                return keys;
            },
            "Keys of the quantities.")
        .def("__len__", [](const ManyBlends& many) { return many.count; })
        .def("__repr__", [](const ManyBlends& many) {
            return "<Blends of " + std::to_string(many.count) + " blends>";
        });
    module.def("blend_many", &blend_many, py::arg("feedstocks"), py::arg("wet_kg"), py::kw_only(),
               py::arg("quantities") = py::none(), py::arg("threads") = py::none(), R"doc(
Many blends of the same feedstocks in one call, the same bits as ``blend`` one by one.

The GIL is released and the rows are shared out among threads.

Parameters
----------
feedstocks : sequence of Feedstock or str
    One for each column.
wet_kg : array of shape (blends, feedstocks)
    Wet masses, kg, at least 0.
quantities : list of str, optional
    Keys of the quantities wanted; all where it is left out.
threads : int, optional
    Number of threads; all cores where it is left out.

Returns
-------
Blends

Raises
------
FeedValueError
    The shape does not fit, or a mass is negative or not finite (``field`` says which).

Examples
--------
>>> import numpy as np
>>> many = libfeed.blend_many(
...     ["coffee grounds", "cardboard"], np.array([[1.0, 0.2], [1.0, 0.4]]))
>>> bool(many["cn_ratio"].value[0] < many["cn_ratio"].value[1])
True)doc");
}

}  // namespace

void bind_blend(py::module_& module) {
    bind_estimate(module);
    bind_blend_class(module);
    bind_many(module);
}

}  // namespace feed::python
