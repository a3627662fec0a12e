#include "feed/diary/diary.hpp"

#include <pybind11/stl/filesystem.h>

#include "date.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/io/diary_append.hpp"
#include "feed/io/diary_news.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {
namespace {

Calibration calibrate_diary(const Diary& diary) {
    return calibrate(diary);
}

Diary with_one_more(const Diary& diary, const Observation& observation) {
    Diary more = diary;
    more.observations.push_back(observation);
    return more;
}

Bed bed_on_day(const Diary& diary, const DateGiven& date) {
    return bed_on(diary, date_given("date", date));
}

io::DiaryNews news_of_diary(const Diary& diary, bool newest_is_new, std::string added) {
    auto news = io::news_of(diary, newest_is_new && !diary.observations.empty());
    news.added = std::move(added);
    return news;
}

io::DiaryNews append_to_file(const std::filesystem::path& path, const Observation& observation,
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
    py::class_<Calibration>(module, "Calibration",
                            "A bin's own rates, learned from what its keeper saw.")
        .def_property_readonly(
            "rates",
            [](const Calibration& c) {
                return std::vector<RateChange>(c.rates.begin(), c.rates.end());
            },
            "labile, cellulosic and lignin-like.")
        .def_property_readonly(
            "used", [](const Calibration& c) { return c.used; }, "Number of looks that were used.")
        .def_property_readonly(
            "unused", [](const Calibration& c) { return c.unused.size(); },
            "Number of looks at leftovers that no feeding explains.")
        .def_property_readonly(
            "misfits",
            [](const Calibration& c) {
                std::vector<std::string> texts;
                for (const auto& one : c.misfits)
                    texts.push_back(one.text);
                return texts;
            },
            "Looks that do not fit, a sentence each.")
        .def("__repr__", [](const Calibration& c) {
            return "<Calibration from " + std::to_string(c.used) + " looks>";
        });
}

void bind_news(py::module_& module) {
    py::class_<io::DiaryNews>(module, "DiaryNews",
                              "What a diary teaches, its newest look included.")
        .def_property_readonly(
            "added", [](const io::DiaryNews& n) { return n.added; },
            "The lines that were added to the file, or empty.")
        .def_property_readonly(
            "observations", [](const io::DiaryNews& n) { return n.observations; },
            "Number of observations now.")
        .def_property_readonly(
            "look_back", [](const io::DiaryNews& n) { return n.look_back; },
            "How the newest look compares with what was expected, or empty.")
        .def_property_readonly(
            "before", [](const io::DiaryNews& n) { return n.before; },
            "The bin's rates without the newest observation.")
        .def_property_readonly(
            "calibration", [](const io::DiaryNews& n) { return n.calibration; },
            "The bin's rates with everything.")
        .def_property_readonly(
            "misfits", [](const io::DiaryNews& n) { return n.misfits; },
            "Looks that do not fit or could not be used, a sentence each.")
        .def_property_readonly(
            "slips", [](const io::DiaryNews& n) { return n.slips; },
            "What does not add up, a sentence each.")
        .def(
            "to_json", [](const io::DiaryNews& n) { return io::to_json(n); },
            "The answer as JSON text, with the keys of `feed observe`.")
        .def(
            "to_dict", [](const io::DiaryNews& n) { return from_json(io::to_json(n)); },
            "The answer as plain Python objects, with the keys of `feed observe`.")
        .def("__repr__", [](const io::DiaryNews& n) {
            return "<DiaryNews of " + std::to_string(n.observations) + " observations>";
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
    The rates that every verb takes for this bin: learned with its lag, the keeper's own bias and
    the spread between feedings (docs/diary.md).)doc")
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
