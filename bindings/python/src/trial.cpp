#include <pybind11/numpy.h>

#include <utility>

#include "convert.hpp"
#include "feed/diary/first_order_fit.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/trial_answer.hpp"
#include "feed/io/trial_pictures.hpp"

namespace feed::python {
namespace {

using Days = py::array_t<double, py::array::c_style | py::array::forcecast>;

std::vector<double> numbers_of(std::string_view field, const Days& given) {
    if (given.ndim() != 1) {
        throw Raised(make_error(ErrorCode::wrong_type, std::string(field),
                                std::to_string(given.ndim()) + " dimensions", "a list of numbers",
                                "a list of numbers is due here"));
    }
    return {given.data(), given.data() + given.size()};
}

/// A plan with what its file says beside the trial.
struct SharedPlan {
    io::TrialPlan content;
    std::string title;
    Result<std::string> yaml;
};

/// A reading with the trial it is of.
struct SharedReading {
    Trial trial;
    TrialReading content;
    std::string title;
};

io::Paper paper_given(const std::string& paper) {
    if (paper == "a4") return io::Paper::a4;
    if (paper == "letter") return io::Paper::letter;
    throw Raised(make_error(ErrorCode::out_of_range, "paper", paper, "a4 or letter",
                            "paper is a4 or letter"));
}

void bind_plan(py::module_& module) {
    py::class_<SharedPlan>(module, "TrialPlan",
                           "A plan of a trial: places, portions, days, and what it can tell.")
        .def_property_readonly(
            "text",
            [](const SharedPlan& p) {
                return io::trial_plan_text(p.content, UnitSystem::metric, false);
            },
            "The plan in at most twelve lines.")
        .def_property_readonly(
            "why",
            [](const SharedPlan& p) {
                return io::trial_plan_text(p.content, UnitSystem::metric, true);
            },
            "The plan with all that lies behind it.")
        .def_property_readonly(
            "seed", [](const SharedPlan& p) { return p.content.layout.seed; },
            "What the places were drawn from.")
        .def_property_readonly(
            "look_days", [](const SharedPlan& p) { return p.content.look_days; },
            "Days after laying on which to look.")
        .def_property_readonly(
            "smallest_p", [](const SharedPlan& p) { return p.content.smallest.overall; },
            "The smallest chance by luck that it can reach, 0 to 1.")
        .def(
            "to_dict", [](const SharedPlan& p) { return from_json(io::to_json(p.content)); },
            "What ``feed trial plan --json`` prints, as a dict.")
        .def(
            "to_yaml", [](const SharedPlan& p) { return unwrap(p.yaml); },
            "The whole file with seed, days and key: to be laid, noted in and read.")
        .def(
            "sheet_html",
            [](const SharedPlan& p, const std::string& paper) {
                const auto size = paper_given(paper);
                return io::trial_sheet_html(io::trial_sheet(p.content, p.title, size), p.title,
                                            size);
            },
            py::kw_only(), py::arg("paper") = "a4", R"doc(
The sheet to hang up: map, boxes to tick, and the key on a page of its own.

Parameters
----------
paper : {"a4", "letter"}
    Size of the pages.

Returns
-------
str
    HTML.)doc")
        .def("__repr__", [](const SharedPlan& p) {
            return "<TrialPlan of " + std::to_string(p.content.layout.plots.size()) +
                   " plots, seed " + std::to_string(p.content.layout.seed) + ">";
        });
}

void bind_plan_trial(py::module_& module) {
    module.def(
        "plan_trial",
        [](const io::FeedFile& file) {
            const py::gil_scoped_release released;
            io::TrialPlan plan = unwrap(io::trial_plan_of(file));
            auto yaml = io::trial_plan_yaml(file, plan);
            return SharedPlan{std::move(plan), file.title, std::move(yaml)};
        },
        py::arg("file"), R"doc(
Plans the trial of a feed file: places from a seed, equal portions, days to look, power.

Parameters
----------
file : FeedFile
    With a section ``trial``.

Returns
-------
TrialPlan

Raises
------
FeedError
    No trial in the file, or one that cannot be.

Examples
--------
>>> text = "libfeed: 1\ntrial: {feeds: [watermelon rind, pumpkin], bins: 6, seed: 7}\n"
>>> libfeed.plan_trial(libfeed.read_feed_text(text))
<TrialPlan of 12 plots, seed 7>)doc");
}

void bind_reading(py::module_& module) {
    py::class_<SharedReading>(
        module, "TrialReading",
        "What the looks at a trial say: counts, the chance by luck, ratios, and one word a pair.")
        .def_property_readonly(
            "text",
            [](const SharedReading& r) {
                return io::trial_reading_text(r.trial, r.content, false);
            },
            "The answer in at most twelve lines.")
        .def_property_readonly(
            "why",
            [](const SharedReading& r) { return io::trial_reading_text(r.trial, r.content, true); },
            "The answer with all pairs and how it was worked out.")
        .def_property_readonly(
            "p", [](const SharedReading& r) { return r.content.overall.p; },
            "Chance by luck of feeds as far apart, 0 to 1, by the exact test.")
        .def_property_readonly(
            "ended", [](const SharedReading& r) { return r.content.ended; },
            "The planned end is reached; before it nothing is called clear.")
        .def_property_readonly(
            "feeds",
            [](const SharedReading& r) {
                std::vector<std::string> labels;
                for (const auto& feed : r.trial.feeds)
                    labels.push_back(feed.label);
                return labels;
            },
            "The feeds in the order of the file.")
        .def(
            "to_dict",
            [](const SharedReading& r) { return from_json(io::to_json(r.trial, r.content)); },
            "What ``feed trial read --json`` prints, as a dict.")
        .def(
            "to_svg",
            [](const SharedReading& r) { return io::trial_svg(r.trial, r.content, r.title); },
            "The picture of ``feed trial read --svg``.")
        .def("__repr__", [](const SharedReading& r) {
            return "<TrialReading of " + std::to_string(r.trial.feeds.size()) + " feeds, p " +
                   number_text(r.content.overall.p) + ">";
        });
    module.def(
        "read_trial",
        [](const io::FeedFile& file) {
            const py::gil_scoped_release released;
            auto reading = unwrap(io::trial_reading_of(file));
            return SharedReading{*file.trial, std::move(reading), file.title};
        },
        py::arg("file"), R"doc(
Reads the trial of a feed file from the looks in its observations.

Parameters
----------
file : FeedFile
    With a section ``trial`` that has seed, start and last day.

Returns
-------
TrialReading

Raises
------
FeedError
    No trial in the file, or seed, start or last day are missing.)doc");
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
    bind_plan(module);
    bind_plan_trial(module);
    bind_reading(module);
    bind_fit(module);
}

}  // namespace feed::python
