#include "feed/io/feed_file.hpp"

#include <pybind11/stl/filesystem.h>

#include "balance.hpp"
#include "bed.hpp"
#include "date.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/file_kind.hpp"

namespace feed::python {
namespace {

/// The file, where it is not of a heap: what is about worms does not answer one.
const io::FeedFile& of_a_bin(const io::FeedFile& file, std::string_view verb) {
    if (auto refused = io::wrong_kind(file, verb)) throw Raised(std::move(*refused));
    return file;
}

}  // namespace

void bind_feed_file(py::module_& module) {
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
        .def(
            "ration",
            [](const FeedFile& file, const std::string& units) {
                const auto system = units_of(units);
                const py::gil_scoped_release released;
                return io::ration_of(of_a_bin(file, "ration"), system);
            },
            py::kw_only(), py::arg("units") = "metric",
            "What to do today, as `feed ration` says it, with alarms, looks and own rates.")
        .def(
            "check",
            [](const FeedFile& file, const std::string& units) {
                const auto system = units_of(units);
                const py::gil_scoped_release released;
                return io::check_of(of_a_bin(file, "check"), system);
            },
            py::kw_only(), py::arg("units") = "metric",
            "What is planned today, judged as `feed check` judges it, and the ration.")
        .def("__repr__", [](const FeedFile& file) { return "<FeedFile " + file.name + ">"; });
    module.def(
        "read_feed_file",
        [](const std::filesystem::path& path) {
            const py::gil_scoped_release released;
            return unwrap(io::read_feed_file(path.string()));
        },
        py::arg("path"), R"doc(
Reads a feed file (YAML or JSON).

Parameters
----------
path : str or os.PathLike
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
verb : {"blend", "balance", "ration", "check", "forecast", "trial plan",
    "trial read"}
    What is asked.
file : FeedFile
    A feed file.

Returns
-------
str
    What ``feed VERB --json FILE`` prints.)doc");
}

}  // namespace feed::python
