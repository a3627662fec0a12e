#include <pybind11/numpy.h>

#include <cmath>
#include <limits>
#include <thread>

#include "balance.hpp"
#include "feed/balance/balance.hpp"
#include "threads.hpp"

namespace feed::python {
namespace {

constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

using Array = py::array_t<double, py::array::c_style>;
using Given = std::optional<py::array_t<double, py::array::c_style | py::array::forcecast>>;
using Codes = py::array_t<std::uint8_t, py::array::c_style>;
using Flags = py::array_t<bool, py::array::c_style>;

/// The answers of many balances that share their structure.
struct ManyAnswers {
    std::vector<std::string> labels;
    Array wet_kg;
    Array largest_deviation;
    Codes status;
};

/// The amounts of all rows; a null pointer where an amount is as in the problem.
struct ManyAmounts {
    const double* exact = nullptr;
    const double* least = nullptr;
    const double* most = nullptr;
    std::size_t rows = 0;
    std::size_t width = 0;
};

const double* amounts_of(const char* name, const Given& given, std::size_t width,
                         std::optional<std::size_t>& rows) {
    if (!given) return nullptr;
    if (given->ndim() != 2 || static_cast<std::size_t>(given->shape(1)) != width ||
        (rows && *rows != static_cast<std::size_t>(given->shape(0)))) {
        throw Raised(make_error(
            ErrorCode::wrong_type, name, std::to_string(given->ndim()) + " dimensions",
            "an array of shape (balances, " + std::to_string(width) + ")",
            std::string(name) + " has to have a row a balance and a column an entry, as many "
                                "rows as the other amounts"));
    }
    rows = static_cast<std::size_t>(given->shape(0));
    const double* numbers = given->data();
    for (std::size_t i = 0; i < *rows * width; ++i) {
        if (std::isnan(numbers[i])) continue;
        if (numbers[i] >= mass_range.lowest && numbers[i] <= mass_range.highest) continue;
        checked(std::string(name) + "[" + std::to_string(i / width) + ", " +
                    std::to_string(i % width) + "]",
                numbers[i], mass_range);
    }
    return numbers;
}

/// A number of a row, or nothing where it is left as it is.
std::optional<WetMass> amount_at(const double* numbers, std::size_t at) {
    if (numbers == nullptr || std::isnan(numbers[at])) return std::nullopt;
    return wet_kilograms(numbers[at]);
}

void set_row(const ManyAmounts& amounts, const BalanceProblem& original, std::size_t row,
             BalanceProblem& problem) {
    for (std::size_t i = 0; i < amounts.width; ++i) {
        const std::size_t at = row * amounts.width + i;
        Entry& entry = problem.entries[i];
        entry.least = amount_at(amounts.least, at).value_or(original.entries[i].least);
        entry.most = amount_at(amounts.most, at);
        if (!entry.most) entry.most = original.entries[i].most;
        if (const auto exact = amount_at(amounts.exact, at)) entry.least = *(entry.most = exact);
    }
}

struct ManyPointers {
    double* wet_kg;
    double* largest_deviation;
    std::uint8_t* status;
};

void write(const ManyPointers& to, std::size_t row, std::size_t width,
           const BalanceAnswer& answer) {
    to.status[row] = static_cast<std::uint8_t>(answer.status);
    to.largest_deviation[row] =
        answer.status == BalanceStatus::unbounded ? not_known : answer.largest_deviation;
    for (std::size_t i = 0; i < width; ++i)
        to.wet_kg[row * width + i] =
            i < answer.portions.size() ? answer.portions[i].wet_mass.in_kilograms() : not_known;
}

/// The same problem with feedstocks of its own: threads that share none do not wait for each other.
BalanceProblem own_copy(const BalanceProblem& problem) {
    BalanceProblem copy = problem;
    for (auto& entry : copy.entries)
        entry.feedstock = std::make_shared<const Feedstock>(*entry.feedstock);
    return copy;
}

void balance_rows(const BalanceProblem& original, const ManyAmounts& amounts,
                  const ManyPointers& to, std::size_t first, std::size_t last) {
    BalanceProblem problem = own_copy(original);
    for (std::size_t row = first; row < last; ++row) {
        set_row(amounts, original, row, problem);
        auto answer = balance(problem);
        if (!answer) {
            Errors errors = answer.errors();
            for (auto& error : errors)
                error.field = "row " + std::to_string(row) + ": " + error.field;
            throw Raised(std::move(errors));
        }
        write(to, row, amounts.width, *answer);
    }
}

ManyAnswers balance_many(const SharedProblem& shared, const Given& wet_kg,
                         const Given& least_wet_kg, const Given& most_wet_kg,
                         std::optional<int> threads) {
    const BalanceProblem& problem = shared.prepared->problem;
    ManyAmounts amounts;
    amounts.width = problem.entries.size();
    std::optional<std::size_t> rows;
    amounts.exact = amounts_of("wet_kg", wet_kg, amounts.width, rows);
    amounts.least = amounts_of("least_wet_kg", least_wet_kg, amounts.width, rows);
    amounts.most = amounts_of("most_wet_kg", most_wet_kg, amounts.width, rows);
    if (!rows) {
        throw Raised(make_error(ErrorCode::missing_value, "amounts", "none",
                                "wet_kg, least_wet_kg or most_wet_kg",
                                "many balances need an array of amounts"));
    }
    amounts.rows = *rows;
    if (threads) checked("threads", static_cast<double>(*threads), {"", 1, 1024});
    const unsigned cores = std::thread::hardware_concurrency();
    const auto workers = static_cast<std::size_t>(threads ? *threads : static_cast<int>(cores));

    ManyAnswers many;
    for (const auto& entry : problem.entries)
        many.labels.push_back(entry.label);
    const auto length = static_cast<py::ssize_t>(*rows);
    many.wet_kg = Array({length, static_cast<py::ssize_t>(amounts.width)});
    many.largest_deviation = Array(length);
    many.status = Codes(length);
    const ManyPointers to{many.wet_kg.mutable_data(), many.largest_deviation.mutable_data(),
                          many.status.mutable_data()};
    {
        const py::gil_scoped_release released;
        in_threads(*rows, workers, [&](std::size_t first, std::size_t last) {
            balance_rows(problem, amounts, to, first, last);
        });
    }
    return many;
}

Flags solved_of(const ManyAnswers& many) {
    Flags solved(many.status.size());
    for (py::ssize_t i = 0; i < many.status.size(); ++i)
        solved.mutable_at(i) =
            many.status.at(i) == static_cast<std::uint8_t>(BalanceStatus::solved);
    return solved;
}

std::vector<std::string> status_of(const ManyAnswers& many) {
    std::vector<std::string> words;
    for (py::ssize_t i = 0; i < many.status.size(); ++i)
        words.push_back(word_of(static_cast<BalanceStatus>(many.status.at(i)), status_words));
    return words;
}

}  // namespace

void bind_balance_many(py::module_& module) {
    py::class_<ManyAnswers>(module, "Answers",
                            "The answers of many balances that share a structure.")
        .def_readonly("labels", &ManyAnswers::labels, "What the columns are.")
        .def_readonly("wet_kg", &ManyAnswers::wet_kg,
                      "Wet kg, a row a balance and a column an entry; the closest blend where the "
                      "targets cannot be met, NaN where there is none.")
        .def_readonly("largest_deviation", &ManyAnswers::largest_deviation,
                      "How far the worst property is from its aim, a number a balance.")
        .def_property_readonly("solved", &solved_of, "Whether each balance is solved.")
        .def_property_readonly("status", &status_of,
                               "solved, infeasible, unbounded or failed, a word a balance.")
        .def("__len__", [](const ManyAnswers& many) { return many.status.size(); })
        .def("__repr__", [](const ManyAnswers& many) {
            return "<Answers of " + std::to_string(many.status.size()) + " balances>";
        });
    module.def("balance_many", &balance_many, py::arg("problem"), py::kw_only(),
               py::arg("wet_kg") = py::none(), py::arg("least_wet_kg") = py::none(),
               py::arg("most_wet_kg") = py::none(), py::arg("threads") = py::none(), R"doc(
Many balances that differ in their amounts, the same bits as one by one.

The GIL is released and the rows are shared out among threads.

Parameters
----------
problem : Problem
    What they share.
wet_kg, least_wet_kg, most_wet_kg : array of shape (balances, entries), optional
    Exact amounts, lower and upper limits, kg; NaN leaves an entry as the problem has it.
threads : int, optional
    Number of threads; all cores where it is left out.

Returns
-------
Answers

Raises
------
FeedValueError
    A shape that does not fit, a mass that cannot be (``field`` says in which row).

Examples
--------
>>> import numpy as np
>>> problem = libfeed.Problem(["1 kg kitchen scraps", "cardboard", "water"])
>>> amounts = np.full((3, 3), np.nan)
>>> amounts[:, 0] = [0.5, 1.0, 2.0]
>>> many = libfeed.balance_many(problem, wet_kg=amounts)
>>> many.wet_kg.shape
(3, 3))doc");
}

}  // namespace feed::python
