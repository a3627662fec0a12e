#pragma once
// Dates of Python's own.
#include <string>
#include <variant>

#include "convert.hpp"
#include "feed/diary/date.hpp"

namespace feed::python {

/// A datetime.date, so that the stubs say so.
class PythonDate : public py::object {
public:
    using py::object::object;
    static bool check_(py::handle given) {
        return py::isinstance(given, py::module_::import("datetime").attr("date"));
    }
};

/// A datetime.date or "2026-03-14".
using DateGiven = std::variant<PythonDate, std::string>;

PythonDate python_date(Date date);
/// Raises bad_date.
Date date_given(std::string_view field, const DateGiven& given);

}  // namespace feed::python

template <>
struct pybind11::detail::handle_type_name<feed::python::PythonDate> {
    static constexpr auto name = const_name("datetime.date");
};
