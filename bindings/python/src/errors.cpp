#include "errors.hpp"

#include <cmath>

#include "feed/quantity/number_print.hpp"
#include "feed/quantity/plain_text.hpp"
#include "feed/quantity/printable.hpp"

namespace feed::python {

Error unknown_key(std::string_view field, std::string_view key, std::string allowed) {
    std::string message = "there is no ";
    message += field;
    message += " \"";
    message += key;
    message += '"';
    return make_error(ErrorCode::unknown_property, std::string(field), std::string(key),
                      std::move(allowed), std::move(message));
}

double checked(std::string_view field, double number, const Border& border) {
    if (border.holds(number)) return number;
    const std::string allowed = border.allowed();
    if (!std::isfinite(number)) {
        throw Raised(make_error(ErrorCode::not_a_number, std::string(field),
                                std::isnan(number) ? "not a number" : "infinity", allowed,
                                std::string(field) + " must be a finite number"));
    }
    const std::string value = border.with_unit(number);
    if (border.looks_like_percent(number)) {
        throw Raised(make_error(ErrorCode::percent_slip, std::string(field), value, allowed,
                                std::string(field) + " is " + value +
                                    ", which looks like per cent; write " +
                                    significant(number / 100.0, 4)));
    }
    throw Raised(make_error(ErrorCode::out_of_range, std::string(field), value, allowed,
                            std::string(field) + " is " + value + ", allowed is " + allowed));
}

std::optional<double> checked(std::string_view field, std::optional<double> number,
                              const Border& border) {
    if (number) checked(field, *number, border);
    return number;
}

std::size_t place_of_word(std::string_view field, std::string_view word,
                          const std::string_view* words, std::size_t count) {
    const std::string plain = plain_text(word);
    std::string allowed;
    for (std::size_t i = 0; i < count; ++i) {
        if (plain == plain_text(words[i])) return i;
        if (i > 0) allowed += ", ";
        allowed += words[i];
    }
    throw Raised(
        make_error(ErrorCode::out_of_range, std::string(field), std::string(word), allowed,
                   std::string(field) + " \"" + std::string(word) + "\" is not one of " + allowed));
}

namespace {

/// Hands the problems to libfeed._errors, which picks the class.
void set_python_error(const Errors& errors) {
    py::list problems;
    for (const auto& error : errors) {
        problems.append(py::make_tuple(static_cast<int>(error.code), printable(error.field),
                                       printable(error.value), printable(error.allowed),
                                       printable(error.message), printable(error.file), error.line,
                                       error.column));
    }
    const py::object exception =
        py::module_::import("libfeed._errors").attr("exception_of")(problems);
    PyErr_SetObject(reinterpret_cast<PyObject*>(Py_TYPE(exception.ptr())), exception.ptr());
}

}  // namespace

void bind_errors(py::module_&) {
    py::register_local_exception_translator([](std::exception_ptr raised) {
        try {
            if (raised) std::rethrow_exception(raised);
        } catch (const Raised& problem) {
            set_python_error(problem.errors());
        }
    });
}

}  // namespace feed::python
