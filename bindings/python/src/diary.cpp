#include "feed/diary/diary.hpp"

#include <pybind11/stl/filesystem.h>

#include "calibration.hpp"
#include "date.hpp"
#include "feed/diary/evidence.hpp"
#include "feed/io/diary_append.hpp"
#include "feed/io/diary_news.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {
namespace {

/// What a diary teaches, and the looks that neither calibration could use.
struct SharedNews {
    io::DiaryNews content;
    std::size_t unused_before = 0;
    std::size_t unused = 0;
};

SharedCalibration calibrate_diary(const Diary& diary) {
    const auto evidence = evidence_of(diary);
    return {calibrate(evidence.looks), evidence.unused.size()};
}

Diary with_one_more(const Diary& diary, const Observation& observation) {
    Diary more = diary;
    more.observations.push_back(observation);
    return more;
}

Bed bed_on_day(const Diary& diary, const DateGiven& date) {
    return bed_on(diary, date_given("date", date));
}

SharedNews news_of_diary(const Diary& diary, bool newest_is_new, std::string added) {
    SharedNews news{io::news_of(diary, newest_is_new && !diary.observations.empty()), 0, 0};
    news.content.added = std::move(added);
    news.unused = evidence_of(diary).unused.size();
    news.unused_before = news.unused;
    if (newest_is_new && !diary.observations.empty()) {
        Diary earlier = diary;
        earlier.observations.pop_back();
        news.unused_before = evidence_of(earlier).unused.size();
    }
    return news;
}

SharedNews append_to_file(const std::filesystem::path& path, const Observation& observation,
                          int wait_seconds) {
    checked("wait_seconds", static_cast<double>(wait_seconds), {"s", 0, 600});
    const py::gil_scoped_release released;
    const auto appended = unwrap(io::append_observation(path.string(), observation, wait_seconds));
    return news_of_diary(appended.file.diary, true, appended.entry);
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

void bind_news(py::module_& module) {
    py::class_<SharedNews>(module, "DiaryNews", "What a diary teaches, its newest look included.")
        .def_property_readonly(
            "added", [](const SharedNews& n) { return n.content.added; },
            "The lines that were added to the file, or empty.")
        .def_property_readonly(
            "observations", [](const SharedNews& n) { return n.content.observations; },
            "Number of observations now.")
        .def_property_readonly(
            "look_back", [](const SharedNews& n) { return n.content.look_back; },
            "How the newest look compares with what was expected, or empty.")
        .def_property_readonly(
            "before",
            [](const SharedNews& n) {
                return SharedCalibration{n.content.before, n.unused_before};
            },
            "The bin's rates without the newest observation.")
        .def_property_readonly(
            "calibration",
            [](const SharedNews& n) {
                return SharedCalibration{n.content.calibration, n.unused};
            },
            "The bin's rates with everything.")
        .def_property_readonly(
            "misfits", [](const SharedNews& n) { return n.content.misfits; },
            "Looks that do not fit or could not be used, a sentence each.")
        .def_property_readonly(
            "slips", [](const SharedNews& n) { return n.content.slips; },
            "What does not add up, a sentence each.")
        .def(
            "to_json", [](const SharedNews& n) { return io::to_json(n.content); },
            "The answer as JSON text, with the keys of `feed observe`.")
        .def(
            "to_dict", [](const SharedNews& n) { return from_json(io::to_json(n.content)); },
            "The answer as plain Python objects, with the keys of `feed observe`.")
        .def("__repr__", [](const SharedNews& n) {
            return "<DiaryNews of " + std::to_string(n.content.observations) + " observations>";
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
        .def("with_observation", &with_one_more, py::arg("observation"), R"doc(
The same diary with one more observation at its end. Files are left alone.

Parameters
----------
observation : Observation
    What was seen.

Returns
-------
Diary

Examples
--------
>>> diary = libfeed.read_feed_text("libfeed: 1\nbed: {container: 60 L tote}\n").diary
>>> len(diary.with_observation(libfeed.Observation("2026-03-20", gone=True)).observations)
1)doc")
        .def("bed_on", &bed_on_day, py::arg("date"), R"doc(
The bed on a day: earlier feedings counted in, what the last looks saw taken over.

Parameters
----------
date : datetime.date or str
    Day 0 of the bed.

Returns
-------
Bed)doc")
        .def(
            "news",
            [](const Diary& diary, bool newest_is_new) {
                return news_of_diary(diary, newest_is_new, "");
            },
            py::kw_only(), py::arg("newest_is_new") = false, R"doc(
What the diary teaches, as ``feed observe`` says it.

Parameters
----------
newest_is_new : bool
    The last observation was just added: ``before`` is then what the diary said without it.

Returns
-------
DiaryNews)doc")
        .def("__repr__", [](const Diary& diary) {
            return "<Diary of " + std::to_string(diary.feedings.size()) + " feedings, " +
                   std::to_string(diary.observations.size()) + " observations>";
        });
}

void bind_append(py::module_& module) {
    module.def("append_observation", &append_to_file, py::arg("path"), py::arg("observation"),
               py::kw_only(), py::arg("wait_seconds") = 10, R"doc(
Adds an observation to a diary file and says what it teaches, as ``feed observe`` does.

Comments, order and blank lines of the file stay. Two that add at once wait for each other; a crash
leaves the file with the entry or without it, never half.

Parameters
----------
path : str or os.PathLike
    An existing feed file.
observation : Observation
    What was seen.
wait_seconds : int
    How long to wait for others, s, 0 to 600.

Returns
-------
DiaryNews

Raises
------
FeedFileError
    The file cannot be read or written.
FeedError
    The file has errors; it is then left as it is.

Examples
--------
>>> import pathlib, tempfile
>>> path = pathlib.Path(tempfile.mkdtemp(), "tote.yaml")
>>> _ = path.write_text("libfeed: 1\nbed: {container: 60 L tote}\n")
>>> libfeed.append_observation(path, libfeed.Observation("2026-03-20", smell="earthy")).added
'  - date: 2026-03-20\n    smell: earthy\n')doc");
    module.def(
        "with_observation",
        [](const std::string& text, const Observation& observation, const std::string& name) {
            const py::gil_scoped_release released;
            return unwrap(io::with_observation(text, observation, name));
        },
        py::arg("text"), py::arg("observation"), py::kw_only(), py::arg("name") = "text", R"doc(
The text of a feed file with one more observation; all else stays as its keeper wrote it.

Parameters
----------
text : str
    A feed file as YAML.
observation : Observation
    What was seen.
name : str
    What errors call the text.

Returns
-------
str

Raises
------
FeedError
    The text has errors, or its observations are not a list in lines.

Examples
--------
>>> print(libfeed.with_observation("libfeed: 1\n", libfeed.Observation("2026-03-20", gone=True)))
libfeed: 1
<BLANKLINE>
observations:
  - date: 2026-03-20
    gone: true
<BLANKLINE>)doc");
}

}  // namespace

void bind_diary(py::module_& module) {
    bind_calibration(module);
    bind_news(module);
    bind_diary_class(module);
    bind_append(module);
}

}  // namespace feed::python
