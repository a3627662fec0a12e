#include "date.hpp"

namespace feed::python {

PythonDate python_date(Date date) {
    const auto type = py::module_::import("datetime").attr("date");
    return py::reinterpret_steal<PythonDate>(type(date.year, date.month, date.day).release());
}

Date date_given(std::string_view field, const DateGiven& given) {
    if (const auto* date = std::get_if<PythonDate>(&given)) {
        return {py::cast<int>(date->attr("year")), py::cast<int>(date->attr("month")),
                py::cast<int>(date->attr("day"))};
    }
    const auto& words = std::get<std::string>(given);
    const auto date = parse_date(words);
    if (!date) {
        throw Raised(make_error(ErrorCode::out_of_range, std::string(field), words,
                                "a datetime.date, or a day such as 2026-03-14 (year-month-day)",
                                "this is not a day of the calendar written as year-month-day"));
    }
    return *date;
}

}  // namespace feed::python
