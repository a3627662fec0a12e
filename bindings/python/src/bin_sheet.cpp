#include "feed/io/bin_sheet.hpp"

#include "convert.hpp"

namespace feed::python {
namespace {

io::BinSheet make_sheet(const std::string& name, const Ration& ration, const std::string& units,
                        bool lime, int rows) {
    checked("rows", static_cast<double>(rows), {"rows", 0, 20});
    io::BinSheet sheet = io::bin_sheet_of(name, ration, units_of(units));
    sheet.lime = sheet.lime || lime;
    sheet.rows = rows;
    return sheet;
}

}  // namespace

void bind_bin_sheet(py::module_& module) {
    using io::BinSheet;
    py::class_<BinSheet>(module, "BinSheet", "A page to hang beside a bin.")
        .def_readonly("bin", &BinSheet::bin, "Name of the bin.")
        .def_readonly("today", &BinSheet::today, "What to do, a line each.")
        .def_readonly("lime", &BinSheet::lime, "Lime is kept beside the bin.")
        .def_readonly("rows", &BinSheet::rows, "Empty rows of the record.")
        .def(
            "to_text", [](const BinSheet& s) { return io::bin_sheet_text(s); },
            "The page as plain text, at most 80 columns wide.")
        .def(
            "to_html", [](const BinSheet& s) { return io::bin_sheet_html(s); },
            "The page as HTML for one side of paper, with nothing to fetch.")
        .def("__repr__", [](const BinSheet& s) { return "<BinSheet of " + s.bin + ">"; });
    module.def("bin_sheet", &make_sheet, py::arg("name"), py::arg("ration"), py::kw_only(),
               py::arg("units") = "metric", py::arg("lime") = false, py::arg("rows") = 20, R"doc(
A page to hang beside a bin, in words that a ten-year-old reads: what the ration says, look, feed,
never, stay clean.

Parameters
----------
name : str
    Of the bin.
ration : Ration
    What to do, from ``ration`` or ``FeedFile.ration``.
units : {"metric", "us"}
    Units of the amounts; us also means letter paper.
lime : bool
    Lime is kept beside the bin: the page says who may use it.
rows : int
    Most empty rows of the record, 0 to 20; no more than fit the page.

Returns
-------
BinSheet

Examples
--------
>>> bed = libfeed.Bed(squeeze="damp")
>>> today = libfeed.ration(bed, ["500 g kitchen scraps", "shredded cardboard"], date="2026-03-20")
>>> sheet = libfeed.bin_sheet("Green tote", today)
>>> "Green tote" in sheet.to_text()
True)doc");
}

}  // namespace feed::python
