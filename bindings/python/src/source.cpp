#include "convert.hpp"
#include "feed/feedstock/table.hpp"

namespace feed::python {

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

}  // namespace feed::python
