#pragma once
// The Python faces of the library's values, and what several files of the binding need of them.
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "errors.hpp"
#include "feed/bed/bed.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/portion.hpp"
#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/io/human_text.hpp"
#include "feed/quantity/estimate.hpp"

namespace feed::python {

/// A feedstock as Python holds it: shared, never changed.
struct SharedFeedstock {
    std::shared_ptr<const Feedstock> content;
};

/// A portion with the keeper's own measure of it.
struct SharedPortion {
    Portion content;
    std::string how;      ///< how a measure became a mass, or empty
    std::string measure;  ///< "2 handfuls"
    std::string label;    ///< the keeper's own words for the feedstock
};

/// A vessel of the keeper's own: its name and its volume in litres.
using ContainerVolumes = std::vector<std::pair<std::string, double>>;

using FeedstockOrWords = std::variant<SharedFeedstock, std::string>;
using PortionOrText = std::variant<SharedPortion, std::string>;
using PortionsGiven = std::vector<PortionOrText>;

/// The feedstock itself, or the one of the table that the words mean.
SharedFeedstock feedstock_given(const FeedstockOrWords& given);
/// The wet mass of an amount in words of one feedstock.
WetMass mass_given(const std::string& amount, const Feedstock& feedstock,
                   const ContainerVolumes& containers = {});
/// A portion itself, or the one a text such as "1.2 kg coffee grounds" means.
SharedPortion portion_given(const PortionOrText& given, const ContainerVolumes& containers = {});
/// All portions; raises the problems of all of them at once.
std::vector<Portion> portions_given(const PortionsGiven& given,
                                    const ContainerVolumes& containers = {});

/// A portion in the measure of the amount it was written with, where there is one.
SharedPortion portion_written(const Portion& portion, const std::optional<Amount>& amount);
std::vector<Container> containers_of(const ContainerVolumes& volumes);
std::vector<SharedPortion> shared_portions(const std::vector<Portion>& portions);
std::vector<std::string> texts_of(const std::vector<Assumption>& assumed);
std::vector<std::string> caution_words_of(std::uint32_t cautions);
std::string grade_text(Grade grade);
/// "metric" or "us". Raises out_of_range.
io::UnitSystem units_of(const std::string& word);
/// "0.78", with as many digits as people read.
std::string number_text(double number);

/// Parses a JSON text of the library into Python objects.
py::object from_json(const std::string& text);

inline constexpr Border mass_range{"kg", 0.0, 1e9};

void bind_feedstock(py::module_& module);
void bind_own_feedstock(py::module_& module);
void bind_portion(py::module_& module);
void bind_blend(py::module_& module);
void bind_blend_many(py::module_& module);
void bind_entry(py::module_& module);
void bind_target(py::module_& module);
void bind_balance(py::module_& module);
void bind_balance_many(py::module_& module);
void bind_bed(py::module_& module);
void bind_findings(py::module_& module);
void bind_ration(py::module_& module);
void bind_check(py::module_& module);
void bind_signs(py::module_& module);
void bind_forecast(py::module_& module);
void bind_observation(py::module_& module);
void bind_diary(py::module_& module);
void bind_door(py::module_& module);
void bind_feed_file(py::module_& module);
void bind_source(py::module_& module);
void bind_trial(py::module_& module);
void bind_bin_sheet(py::module_& module);

}  // namespace feed::python
