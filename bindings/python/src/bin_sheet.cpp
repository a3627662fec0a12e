#include "feed/io/bin_sheet.hpp"

#include "date.hpp"
#include "feed/forecast/forecast_result.hpp"

namespace feed::python {
namespace {

std::optional<PythonDate> date_or_none(const std::optional<Date>& date) {
    return date ? std::optional<PythonDate>(python_date(*date)) : std::nullopt;
}

io::BinSheet make_sheet(const std::string& name, const PortionsGiven& portions,
                        const Forecast& forecast, const DateGiven& day_zero,
                        const std::string& units, double share, bool lime, int rows) {
    checked("share", share, {"", 0, 1, true});
    checked("rows", static_cast<double>(rows), {"rows", 0, 20});
    io::BinSheet sheet = io::bin_sheet_of(name, portions_given(portions), forecast,
                                          date_given("day_zero", day_zero), units_of(units), share);
    sheet.lime = sheet.lime || lime;
    sheet.rows = rows;
    return sheet;
}

}  // namespace

void bind_bin_sheet(py::module_& module) {
    using io::BinSheet;
    py::class_<BinSheet>(module, "BinSheet", "A page to hang beside a bin.")
        .def_readonly("bin", &BinSheet::bin, "Name of the bin.")
        .def_property_readonly(
            "look_on", [](const BinSheet& s) { return date_or_none(s.look_on); },
            "datetime.date on which to look, or None.")
        .def_readonly("look_for", &BinSheet::look_for, "What should be seen then.")
        .def_property_readonly(
            "feed_on", [](const BinSheet& s) { return date_or_none(s.feed_on); },
            "datetime.date on which to feed again if all is well, or None.")
        .def_readonly("feed", &BinSheet::feed, "What to feed then, a line each.")
        .def_readonly("less", &BinSheet::less,
                      "Less than was planned, because the worms eat no more.")
        .def_readonly("lime", &BinSheet::lime, "Lime is kept beside the bin.")
        .def_readonly("rows", &BinSheet::rows, "Empty rows of the record.")
        .def(
            "to_text", [](const BinSheet& s) { return io::bin_sheet_text(s); },
            "The page as plain text, at most 80 columns wide.")
        .def(
            "to_html", [](const BinSheet& s) { return io::bin_sheet_html(s); },
            "The page as HTML for one side of paper, with nothing to fetch.")
        .def("__repr__", [](const BinSheet& s) { return "<BinSheet of " + s.bin + ">"; });
    module.def("bin_sheet", &make_sheet, py::arg("name"), py::arg("portions"), py::arg("forecast"),
               py::kw_only(), py::arg("day_zero"), py::arg("units") = "metric",
               py::arg("share") = 1.0, py::arg("lime") = false, py::arg("rows") = 10, R"doc(
A page to hang beside a bin, in words that a ten-year-old reads: look, feed, never, stay clean.

Parameters
----------
name : str
    Of the bin.
portions : sequence of Portion or str
    The feeding to repeat; may be empty.
forecast : Forecast
    Of the bed from ``day_zero`` on.
day_zero : datetime.date or str
    Day 0 of the forecast.
units : {"metric", "us"}
    Units of the amounts.
share : float
    Share of the feeding that the bed eats until the next one, 0 to 1; the page then asks for no
    more (``FeedFile.share_to_repeat``).
lime : bool
    Lime is kept beside the bin: the page says who may use it.
rows : int
    Empty rows of the record, 0 to 20.

Returns
-------
BinSheet

Examples
--------
>>> feeding = ["500 g kitchen scraps", "80 g shredded cardboard"]
>>> ahead = libfeed.forecast(libfeed.Bed(squeeze="damp"), [libfeed.Feeding(0, feeding)])
>>> sheet = libfeed.bin_sheet("Green tote", feeding, ahead, day_zero="2026-03-20")
>>> "Green tote" in sheet.to_text()
True)doc");
}

}  // namespace feed::python
