#include "feed/trial/diary.hpp"

#include "balance.hpp"
#include "bed.hpp"
#include "calibration.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/trial/evidence.hpp"

namespace feed::python {
namespace {

using Number = std::optional<double>;
using Text = std::optional<std::string>;

/// A date of Python's own.
PythonDate python_date(Date date) {
    const auto type = py::module_::import("datetime").attr("date");
    return py::reinterpret_steal<PythonDate>(type(date.year, date.month, date.day).release());
}

template <class T>
Number kilograms_or_none(const std::optional<T>& mass) {
    return mass ? Number(mass->in_kilograms()) : Number();
}

SharedCalibration calibrate_diary(const Diary& diary) {
    const auto evidence = evidence_of(diary);
    return {calibrate(evidence.looks), evidence.unused.size()};
}

void bind_observation(py::module_& module) {
    py::class_<Observation>(module, "Observation",
                            "One look at a bin; whatever was not seen is None or empty.")
        .def_property_readonly(
            "date", [](const Observation& o) { return python_date(o.date); }, "datetime.date.")
        .def_readonly("by", &Observation::by, "Who looked.")
        .def_property_readonly(
            "left_wet_kg", [](const Observation& o) { return kilograms_or_none(o.left); },
            "Leftovers weighed, wet kg.")
        .def_readonly("share_gone", &Observation::share_gone, "Gone by eye, 0 to 1.")
        .def_readonly("gone", &Observation::gone, "The feeding was found to be gone.")
        .def_property_readonly(
            "worms",
            [](const Observation& o) {
                return o.worms ? Text(std::string(text(*o.worms))) : Text();
            },
            "gathered, spread, at the lid or leaving.")
        .def_property_readonly(
            "smell",
            [](const Observation& o) {
                return o.smell ? Text(std::string(text(*o.smell))) : Text();
            },
            "earthy, none, sour, rotten, ammonia, vinegar or swampy.")
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
        .def_readonly("ph", &Observation::ph, "Of a strip.")
        .def_property_readonly(
            "temperatures_c",
            [](const Observation& o) {
                std::vector<double> temperatures;
                for (const auto& one : o.temperatures)
                    temperatures.push_back(in_celsius(one.temperature));
                return temperatures;
            },
            "Temperatures taken, deg C.")
        .def_readonly("action", &Observation::action, "What was done.")
        .def_readonly("note", &Observation::note, "Remarks.")
        .def("__repr__", [](const Observation& o) { return "<Observation " + text(o.date) + ">"; });
}

void bind_calibration(py::module_& module) {
    py::class_<RateChange>(module, "RateChange", R"doc(
One rate before and after learning, per day at 25 C, with the interval that holds 90 %.)doc")
        .def_property_readonly(
            "parameter", [](const RateChange& r) { return std::string(kind(r.parameter).key); },
            "Which rate.")
        .def_readonly("before_per_day", &RateChange::before_per_day, "Before.")
        .def_readonly("before_low_per_day", &RateChange::before_low_per_day, "Before, low end.")
        .def_readonly("before_high_per_day", &RateChange::before_high_per_day, "Before, high end.")
        .def_readonly("after_per_day", &RateChange::after_per_day, "After.")
        .def_readonly("after_low_per_day", &RateChange::after_low_per_day, "After, low end.")
        .def_readonly("after_high_per_day", &RateChange::after_high_per_day, "After, high end.")
        .def_readonly("outside_published", &RateChange::outside_published,
                      "The new rate lies outside the published range.")
        .def("__repr__", [](const RateChange& r) {
            return "<RateChange " + std::string(kind(r.parameter).key) + " " +
                   number_text(r.before_per_day) + " to " + number_text(r.after_per_day) + ">";
        });
    py::class_<SharedCalibration>(module, "Calibration",
                                  "A bin's own rates, learned from what its keeper saw.")
        .def_property_readonly(
            "rates",
            [](const SharedCalibration& c) {
                return std::vector<RateChange>(c.content.rates.begin(), c.content.rates.end());
            },
            "labile, cellulosic and lignin-like.")
        .def_property_readonly(
            "used", [](const SharedCalibration& c) { return c.content.used; },
            "Number of looks that were used.")
        .def_property_readonly(
            "unused", [](const SharedCalibration& c) { return c.unused; },
            "Number of looks at leftovers that no feeding explains.")
        .def_property_readonly(
            "misfits",
            [](const SharedCalibration& c) {
                std::vector<std::string> texts;
                for (const auto& one : c.content.misfits)
                    texts.push_back(one.text);
                return texts;
            },
            "Looks that do not fit, a sentence each.")
        .def("__repr__", [](const SharedCalibration& c) {
            return "<Calibration from " + std::to_string(c.content.used) + " looks>";
        });
}

void bind_diary_class(py::module_& module) {
    py::class_<Diary>(module, "Diary", "The record of one bin, read from a feed file.")
        .def_property_readonly(
            "feedings",
            [](const Diary& diary) {
                py::typing::List<py::typing::Tuple<PythonDate, std::vector<SharedPortion>>>
                    feedings;
                for (const auto& one : diary.feedings)
                    feedings.append(
                        py::make_tuple(python_date(one.date), shared_portions(one.portions)));
                return feedings;
            },
            "What went in: (date, portions) for each feeding.")
        .def_readonly("observations", &Diary::observations, "What was seen.")
        .def_property_readonly(
            "slips",
            [](const Diary& diary) {
                std::vector<std::string> texts;
                for (const auto& one : slips_of(diary))
                    texts.push_back(one.text);
                return texts;
            },
            "What does not add up, a sentence each. Pointed out, never refused.")
        .def("calibrate", &calibrate_diary, py::call_guard<py::gil_scoped_release>(), R"doc(
The bin's own rates from the looks at its leftovers.

Returns
-------
Calibration
    A Bayesian update on the logarithms of the rates (Laplace approximation; Gelman et al. 2013).)doc")
        .def("__repr__", [](const Diary& diary) {
            return "<Diary of " + std::to_string(diary.feedings.size()) + " feedings, " +
                   std::to_string(diary.observations.size()) + " observations>";
        });
}

void bind_file(py::module_& module) {
    using io::FeedFile;
    py::class_<FeedFile>(module, "FeedFile", "A feed file; every section is optional.")
        .def_readonly("name", &FeedFile::name, "Name of the file.")
        .def_readonly("title", &FeedFile::title, "Its title, or empty.")
        .def_property_readonly(
            "feedstocks",
            [](const FeedFile& file) {
                std::vector<SharedFeedstock> own;
                for (const auto& one : file.own_feedstocks)
                    own.push_back({one});
                return own;
            },
            "Feedstocks of its own.")
        .def_property_readonly(
            "blend",
            [](const FeedFile& file) -> std::optional<std::vector<SharedPortion>> {
                if (!file.blend) return std::nullopt;
                std::vector<SharedPortion> portions;
                for (const auto& one : *file.blend) {
                    portions.push_back(portion_written(one.portion, one.amount));
                    portions.back().label = one.label;
                }
                return portions;
            },
            "The portions of its blend, or None.")
        .def_property_readonly(
            "problem",
            [](const FeedFile& file) -> std::optional<SharedProblem> {
                if (!file.balance) return std::nullopt;
                return SharedProblem{std::make_shared<const PreparedBalance>(
                    unwrap(prepare(file.balance->problem)))};
            },
            "Its balance, or None.")
        .def_property_readonly(
            "bed",
            [](const FeedFile& file) -> std::optional<Bed> {
                if (!file.has_bed) return std::nullopt;
                return io::bed_on_day_zero(file);
            },
            "Its bed on day 0 with the feedings before that day, or None.")
        .def_property_readonly(
            "planned", [](const FeedFile& file) { return io::planned_feedings(file); },
            "What is fed from day 0 on.")
        .def_readonly("diary", &FeedFile::diary, "Its feedings and observations.")
        .def_property_readonly(
            "day_zero",
            [](const FeedFile& file) -> std::optional<PythonDate> {
                const auto day = io::day_zero(file);
                if (!day) return std::nullopt;
                return python_date(*day);
            },
            "datetime.date of day 0, or None.")
        .def_property_readonly(
            "assumed", [](const FeedFile& file) { return texts_of(file.assumed); },
            "What reading took for granted, a sentence each.")
        .def("__repr__", [](const FeedFile& file) { return "<FeedFile " + file.name + ">"; });
    module.def(
        "read_feed_file",
        [](const std::string& path) {
            const py::gil_scoped_release released;
            return unwrap(io::read_feed_file(path));
        },
        py::arg("path"), R"doc(
Reads a feed file (YAML or JSON).

Parameters
----------
path : str
    File of at most 8 MB.

Returns
-------
FeedFile

Raises
------
FeedFileError
    The file cannot be read.
FeedError
    Every problem of its content at once, each with line and column.)doc");
    module.def(
        "read_feed_text",
        [](const std::string& text, const std::string& name) {
            const py::gil_scoped_release released;
            return unwrap(io::read_feed_text(text, name));
        },
        py::arg("text"), py::kw_only(), py::arg("name") = "text", R"doc(
Reads the text of a feed file (YAML or JSON).

Parameters
----------
text : str
    The text.
name : str
    What errors call it.

Returns
-------
FeedFile

Raises
------
FeedError
    Every problem at once, each with line and column.

Examples
--------
>>> file = libfeed.read_feed_text("libfeed: 1\nblend:\n  - 1.2 kg coffee grounds\n")
>>> file.blend
[<Portion 1.2 kg coffee-grounds, 1.2 kg>])doc");
    module.def(
        "answer_json",
        [](const std::string& verb, const FeedFile& file) {
            const py::gil_scoped_release released;
            return unwrap(io::answer_json(verb, file));
        },
        py::arg("verb"), py::arg("file"), R"doc(
The JSON answer of the command to a feed file.

Parameters
----------
verb : {"blend", "balance", "check", "forecast"}
    What is asked.
file : FeedFile
    A feed file.

Returns
-------
str
    What ``feed VERB --json FILE`` prints.)doc");
}

void bind_source(py::module_& module) {
    py::class_<table::Source>(module, "Source", "One published source of the table.")
        .def_property_readonly(
            "id", [](const table::Source& s) { return std::string(s.id); }, "Its id.")
        .def_property_readonly(
            "citation", [](const table::Source& s) { return std::string(s.citation); },
            "Authors, year, title.")
        .def_property_readonly(
            "covers", [](const table::Source& s) { return std::string(s.covers); },
            "What was taken from it.")
        .def_property_readonly(
            "licence", [](const table::Source& s) { return std::string(s.licence); }, "Its terms.")
        .def("__repr__",
             [](const table::Source& s) { return "<Source " + std::string(s.id) + ">"; });
    module.def(
        "source",
        [](const std::string& id) {
            const auto* found = find_source(std::string_view(id).substr(0, id.find(':')));
            if (found == nullptr) {
                throw Raised(make_error(ErrorCode::unknown_property, "source", id,
                                        "an id from the sources of a value",
                                        "there is no source \"" + id + "\""));
            }
            return *found;
        },
        py::arg("id"), R"doc(
The published source of an id.

Parameters
----------
id : str
    An id, alone or with its place, as in ``Value.sources``.

Returns
-------
Source

Examples
--------
>>> value = libfeed.feedstock("coffee grounds")["moisture"]
>>> libfeed.source(value.sources.split()[0]).id in value.sources
True)doc");
}

}  // namespace

void bind_diary(py::module_& module) {
    bind_observation(module);
    bind_calibration(module);
    bind_diary_class(module);
    bind_file(module);
    bind_source(module);
}

}  // namespace feed::python
