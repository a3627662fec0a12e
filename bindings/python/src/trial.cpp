#include <pybind11/numpy.h>

#include <algorithm>
#include <map>

#include "convert.hpp"
#include "feed/diary/first_order_fit.hpp"
#include "feed/trial/comparison.hpp"

namespace feed::python {
namespace {

using Days = py::array_t<double, py::array::c_style | py::array::forcecast>;
using Flags = std::optional<std::vector<bool>>;

/// A comparison with the labels of its sides.
struct SharedComparison {
    std::vector<std::string> labels;
    TrialComparison content;
};

std::vector<double> numbers_of(std::string_view field, const Days& given) {
    if (given.ndim() != 1) {
        throw Raised(make_error(ErrorCode::wrong_type, field,
                                std::to_string(given.ndim()) + " dimensions", "a list of numbers",
                                "a list of numbers is due here"));
    }
    return {given.data(), given.data() + given.size()};
}

TrialArm make_arm(const std::string& label, const Days& watched_days, const Flags& gone) {
    const auto watched = numbers_of("watched_days", watched_days);
    if (gone && gone->size() != watched.size()) {
        throw Raised(make_error(ErrorCode::wrong_type, "gone", std::to_string(gone->size()),
                                std::to_string(watched.size()) + ", one for each time",
                                "there has to be a yes or no for each time"));
    }
    TrialArm arm{label, {}};
    for (std::size_t i = 0; i < watched.size(); ++i)
        arm.times.push_back(
            {checked("watched_days", watched[i], {"days", 0, 1e6}), !gone || (*gone)[i]});
    return arm;
}

SharedComparison compare(const std::vector<TrialArm>& arms) {
    SharedComparison comparison;
    for (const auto& arm : arms) {
        if (std::find(comparison.labels.begin(), comparison.labels.end(), arm.label) !=
            comparison.labels.end()) {
            throw Raised(make_error(ErrorCode::duplicate_entry, "label", arm.label,
                                    "a label of its own for each side",
                                    "two sides are called \"" + arm.label + "\""));
        }
        comparison.labels.push_back(arm.label);
    }
    comparison.content = unwrap(compare_arms(arms));
    return comparison;
}

/// What each side has, by its label.
template <class T>
std::map<std::string, T> by_label(const SharedComparison& comparison, const std::vector<T>& of) {
    std::map<std::string, T> labelled;
    for (std::size_t i = 0; i < of.size(); ++i)
        labelled.emplace(comparison.labels[i], of[i]);
    return labelled;
}

void bind_arm(py::module_& module) {
    py::class_<TrialArm>(module, "TrialArm", R"doc(
One feed of a trial and how long each of its portions was watched.

Parameters
----------
label : str
    What it is called.
watched_days : array of float
    Days until a portion was found gone, or until the last look at it.
gone : sequence of bool, optional
    Whether it was gone then; all were where it is left out.

Examples
--------
>>> libfeed.TrialArm("chopped", [5, 6, 9], gone=[True, True, False])
<TrialArm chopped, 3 portions, 2 gone>)doc")
        .def(py::init(&make_arm), py::arg("label"), py::arg("watched_days"), py::kw_only(),
             py::arg("gone") = py::none())
        .def_readonly("label", &TrialArm::label, "What it is called.")
        .def_property_readonly(
            "watched_days",
            [](const TrialArm& arm) {
                std::vector<double> watched;
                for (const auto& one : arm.times)
                    watched.push_back(one.days);
                return watched;
            },
            "Days until gone, or until the last look.")
        .def_property_readonly(
            "gone",
            [](const TrialArm& arm) {
                std::vector<bool> gone;
                for (const auto& one : arm.times)
                    gone.push_back(one.gone);
                return gone;
            },
            "Whether each portion was gone then.")
        .def("__repr__", [](const TrialArm& arm) {
            const auto gone = std::count_if(arm.times.begin(), arm.times.end(),
                                            [](const TimeToGone& one) { return one.gone; });
            return "<TrialArm " + arm.label + ", " + std::to_string(arm.times.size()) +
                   " portions, " + std::to_string(gone) + " gone>";
        });
}

void bind_comparison(py::module_& module) {
    py::class_<SurvivalStep>(module, "SurvivalStep", "A day on which portions were found gone.")
        .def_readonly("day", &SurvivalStep::days, "Days after the feeding.")
        .def_readonly("watched", &SurvivalStep::watched, "Still there and watched just before.")
        .def_readonly("gone", &SurvivalStep::gone, "Gone on that day.")
        .def_readonly("share_left", &SurvivalStep::share_left,
                      "Share of the portions still there after it, 0 to 1.")
        .def_readonly("standard_error", &SurvivalStep::standard_error,
                      "Of the share (Greenwood 1926), or None once nothing is left.")
        .def_readonly("cumulative_hazard", &SurvivalStep::cumulative_hazard, "Nelson-Aalen.")
        .def("__repr__", [](const SurvivalStep& step) {
            return "<SurvivalStep day " + number_text(step.days) + ", " +
                   number_text(step.share_left) + " left>";
        });
    py::class_<SharedComparison>(module, "TrialComparison", R"doc(
Feeds compared side by side: which is gone sooner, and whether that can be told from luck.)doc")
        .def_readonly("labels", &SharedComparison::labels, "The sides, in the order given.")
        .def_property_readonly(
            "curves", [](const SharedComparison& c) { return by_label(c, c.content.curves); },
            "Steps of the Kaplan-Meier curve of each side (Kaplan and Meier 1958).")
        .def_property_readonly(
            "median_days",
            [](const SharedComparison& c) { return by_label(c, c.content.median_days); },
            "First day with at most half left, by side; None where more is left.")
        .def_property_readonly(
            "gone", [](const SharedComparison& c) { return by_label(c, c.content.test.observed); },
            "Portions seen gone, by side.")
        .def_property_readonly(
            "gone_if_alike",
            [](const SharedComparison& c) { return by_label(c, c.content.test.expected); },
            "Portions that would be gone by then if all sides were alike.")
        .def_property_readonly(
            "chi_square", [](const SharedComparison& c) { return c.content.test.chi_square; },
            "Of the log-rank test with the hypergeometric variance (Mantel 1966).")
        .def_property_readonly(
            "degrees", [](const SharedComparison& c) { return c.content.test.degrees; },
            "Its degrees of freedom; 0 where nothing can be told.")
        .def_property_readonly(
            "p_value", [](const SharedComparison& c) { return c.content.test.p_value; },
            "Chance of a difference at least as large by luck alone, 0 to 1.")
        .def_property_readonly(
            "text", [](const SharedComparison& c) { return c.content.text; },
            "What it says, and what it cannot say.")
        .def("__repr__", [](const SharedComparison& c) {
            return "<TrialComparison of " + std::to_string(c.labels.size()) + " feeds, p " +
                   number_text(c.content.test.p_value) + ">";
        });
    module.def("compare_arms", &compare, py::arg("arms"), R"doc(
Compares feeds side by side by how long their portions lasted.

Parameters
----------
arms : sequence of TrialArm
    Two or more, with labels of their own.

Returns
-------
TrialComparison

Raises
------
FeedValueError
    Fewer than two sides, or one without a portion.

Notes
-----
Kaplan and Meier 1958 (J. Am. Stat. Assoc. 53:457); log-rank test: Mantel 1966, Peto and Peto 1972
(J. R. Stat. Soc. A 135:185).

Examples
--------
>>> chopped = libfeed.TrialArm("chopped", [5, 6, 6, 7, 8])
>>> whole = libfeed.TrialArm("whole", [9, 11, 12, 12, 14], gone=[True, True, True, True, False])
>>> libfeed.compare_arms([chopped, whole]).median_days
{'chopped': 6.0, 'whole': 12.0})doc");
}

void bind_fit(py::module_& module) {
    py::class_<FirstOrderFit>(module, "FirstOrderFit", R"doc(
The curve plateau (1 - exp(-rate day)) through what was lost by each day.)doc")
        .def_readonly("plateau", &FirstOrderFit::plateau, "In the unit of what was lost.")
        .def_readonly("rate_per_day", &FirstOrderFit::rate_per_day, "Per day.")
        .def_readonly("plateau_standard_error", &FirstOrderFit::plateau_standard_error,
                      "In the unit of what was lost.")
        .def_readonly("rate_standard_error_per_day", &FirstOrderFit::rate_standard_error,
                      "Per day.")
        .def_readonly("residual_sum_of_squares", &FirstOrderFit::residual_sum_of_squares,
                      "Of the points.")
        .def_readonly("residual_standard_deviation", &FirstOrderFit::residual_standard_deviation,
                      "With two degrees of freedom less than points.")
        .def("__repr__", [](const FirstOrderFit& fit) {
            return "<FirstOrderFit " + number_text(fit.rate_per_day) + " per day, plateau " +
                   number_text(fit.plateau) + ">";
        });
    module.def(
        "fit_first_order",
        [](const Days& elapsed_days, const Days& lost) {
            return unwrap(fit_first_order(numbers_of("elapsed_days", elapsed_days),
                                          numbers_of("lost", lost)));
        },
        py::arg("elapsed_days"), py::arg("lost"), R"doc(
Fits first-order loss, or gas release, by unweighted least squares.

Parameters
----------
elapsed_days : array of float
    Days since the start, above 0.
lost : array of float
    What has gone by then, in any one unit.

Returns
-------
FirstOrderFit

Raises
------
FeedValueError
    Fewer than three points, or points that do not flatten out.

Notes
-----
The form is that of biochemical oxygen demand (Bates and Watts 1988, appendix A4.1).

Examples
--------
>>> days, oxygen = [1, 2, 3, 4, 5, 7], [8.3, 10.3, 19.0, 16.0, 15.6, 19.8]
>>> libfeed.fit_first_order(days, oxygen)
<FirstOrderFit 0.531 per day, plateau 19.1>)doc");
}

}  // namespace

void bind_trial(py::module_& module) {
    bind_arm(module);
    bind_comparison(module);
    bind_fit(module);
}

}  // namespace feed::python
