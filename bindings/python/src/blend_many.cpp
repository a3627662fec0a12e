#include <pybind11/numpy.h>

#include <algorithm>
#include <limits>
#include <thread>

#include "blend.hpp"
#include "feed/blend/blend.hpp"
#include "feed/blend/blend_rows.hpp"
#include "threads.hpp"

namespace feed::python {
namespace {

constexpr std::size_t slab_rows = 1024;
constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

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
    std::array<std::optional<ManyEstimates>, row_quantity_count> quantities;
};

// One source, compiled for wider registers too; the machine picks when the library is loaded. The
// bits are the same: no instruction of either fuses a multiplication with an addition.
#if defined(__x86_64__) && defined(__gnu_linux__)
#define FEED_FOR_WIDER_REGISTERS __attribute__((target_clones("default", "avx2"), flatten))
#else
#define FEED_FOR_WIDER_REGISTERS
#endif

FEED_FOR_WIDER_REGISTERS void blend_side_by_side(const BlendRows& prepared, const double* wet_kg,
                                                 std::size_t first, std::size_t last,
                                                 const RowOutput& to) {
    prepared(wet_kg, first, last, to);
}

void write(const RowArrays& to, std::size_t row, const Estimate<double>& estimate) {
    const bool has = estimate.has_value();
    to.value[row] = has ? estimate.value : not_known;
    to.low[row] = has ? estimate.low : not_known;
    to.high[row] = has ? estimate.high : not_known;
    to.known[row] = estimate.is_known();
}

/// For columns that share a feedstock.
void blend_one_by_one(const std::vector<std::shared_ptr<const Feedstock>>& feedstocks,
                      const double* wet_kg, std::size_t first, std::size_t last,
                      const RowOutput& to) {
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
        for (std::size_t k = 0; k < row_quantity_count; ++k) {
            if (to[k].value != nullptr)
                write(to[k], row, estimate_of(properties, static_cast<RowQuantity>(k)));
        }
    }
}

/// Whether every mass may be blended. Without a branch: nearly always all may.
bool all_in_range(const double* wet_kg, std::size_t count) {
    bool all = true;
    for (std::size_t i = 0; i < count; ++i)
        all &= (wet_kg[i] >= mass_range.lowest) & (wet_kg[i] <= mass_range.highest);
    return all;
}

/// Raises the first mass that may not be blended.
void check_masses(const double* wet_kg, std::size_t rows, std::size_t width) {
    for (std::size_t i = 0; i < rows * width; ++i) {
        if (all_in_range(wet_kg + i, 1)) continue;
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
    RowOutput to;
    for (std::size_t k = 0; k < row_quantity_count; ++k) {
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
            quantity_of_key(key);
    }
    const double* masses = wet_kg.data();
    {
        const py::gil_scoped_release released;
        const std::size_t width = feedstocks.size();
        const auto prepared = BlendRows::of(feedstocks);
        in_threads(rows, workers, [&](std::size_t first, std::size_t last) {
            // In slabs, so that masses are still in the cache when they were looked at.
            for (; first < last; first += slab_rows) {
                const std::size_t end = std::min(first + slab_rows, last);
                if (!all_in_range(masses + first * width, (end - first) * width))
                    check_masses(masses, rows, width);
                if (prepared)
                    blend_side_by_side(*prepared, masses, first, end, to);
                else
                    blend_one_by_one(feedstocks, masses, first, end, to);
            }
        });
    }
    return many;
}

}  // namespace

void bind_blend_many(py::module_& module) {
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
                const auto& found = many.quantities[static_cast<std::size_t>(quantity_of_key(key))];
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
                for (std::size_t k = 0; k < row_quantity_count; ++k) {
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

}  // namespace feed::python
