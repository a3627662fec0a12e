#include "balance.hpp"

#include "blend.hpp"
#include "feed/balance/balance.hpp"
#include "feed/balance/target_kind.hpp"
#include "feed/balance/target_sets.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {
namespace {

/// An answer and the problem it belongs to.
struct SharedAnswer {
    BalanceAnswer content;
    std::shared_ptr<const PreparedBalance> prepared;
};

using Text = std::optional<std::string>;
using EntryOrText = std::variant<Entry, std::string>;

/// An entry, or a text: "1.2 kg coffee grounds" (an exact amount) or "cardboard" (any amount).
Entry entry_given(const EntryOrText& given, const ContainerVolumes& containers) {
    if (const auto* entry = std::get_if<Entry>(&given)) return *entry;
    const auto& text = std::get<std::string>(given);
    const auto parsed = parse_amount_and_words(text, containers_of(containers));
    Entry entry;
    if (!parsed) {
        const auto code = parsed.errors().front().code;
        const bool no_number = code == ErrorCode::wrong_type || code == ErrorCode::empty;
        if (!no_number) throw Raised(parsed.errors());
        entry.feedstock = feedstock_given(FeedstockOrWords(text)).content;
        entry.label = text;
        return entry;
    }
    entry.feedstock = feedstock_given(FeedstockOrWords(parsed->words)).content;
    entry.label = parsed->words;
    entry.least = unwrap(wet_mass_of(parsed->amount, *entry.feedstock)).wet_mass;
    entry.most = entry.least;
    return entry;
}

SharedProblem make_problem(const std::vector<EntryOrText>& entries,
                           const std::vector<Target>& targets, const Text& set,
                           const std::string& objective, const ContainerVolumes& containers) {
    BalanceProblem problem;
    Errors errors;
    for (const auto& one : entries) {
        try {
            problem.entries.push_back(entry_given(one, containers));
        } catch (const Raised& raised) {
            errors.insert(errors.end(), raised.errors().begin(), raised.errors().end());
        }
    }
    if (!errors.empty()) throw Raised(std::move(errors));
    problem.targets = set ? with_own_targets(target_set_of(*set), targets) : targets;
    if (set) problem.place = place_of_set(*set);
    problem.objective =
        choice_of<Objective>("objective", std::string_view(objective), objective_words);
    return {std::make_shared<const PreparedBalance>(unwrap(prepare(std::move(problem))))};
}

SharedAnswer solve_problem(const SharedProblem& problem) {
    const py::gil_scoped_release released;
    BalanceWorkspace workspace(*problem.prepared);
    return {answer_of(*problem.prepared, workspace), problem.prepared};
}

std::vector<SharedPortion> portions_of(const SharedAnswer& answer) {
    auto portions = shared_portions(answer.content.portions);
    for (std::size_t i = 0; i < portions.size(); ++i)
        portions[i].label = answer.prepared->problem.entries[i].label;
    return portions;
}

std::vector<std::string> measures_of(const SharedAnswer& answer) {
    std::vector<std::string> measures;
    for (const auto& portion : answer.content.portions)
        measures.push_back(io::measure_text(portion.wet_mass, *portion.feedstock, std::nullopt,
                                            io::UnitSystem::metric));
    return measures;
}

std::string answer_json(const SharedAnswer& answer) {
    return io::to_json(answer.content, measures_of(answer));
}

std::string answer_repr(const SharedAnswer& answer) {
    const auto& content = answer.content;
    std::string repr = "<Answer " + word_of(content.status, status_words);
    for (std::size_t i = 0; i < content.portions.size(); ++i)
        repr += (i > 0 ? ", " : ": ") + number_text(content.portions[i].wet_mass.in_kilograms()) +
                " kg " + answer.prepared->problem.entries[i].label;
    if (!content.unbounded_entry.empty()) repr += ": nothing limits " + content.unbounded_entry;
    return repr + ">";
}

void bind_answer(py::module_& module) {
    py::class_<Reached>(module, "Reached", "What one target came to.")
        .def_readonly("target", &Reached::target, "The target.")
        .def_readonly("quantity", &Reached::quantity, "In the unit of the target.")
        .def_readonly("inside", &Reached::inside, "Whether the window is kept.")
        .def_readonly("binding", &Reached::binding, "Whether it decides the answer.")
        .def("__repr__", [](const Reached& reached) {
            return "<Reached " + std::string(kind(reached.target.property).key) + " " +
                   (reached.quantity.has_value() ? number_text(reached.quantity.value)
                                                 : "unknown") +
                   (reached.inside ? ", inside" : ", outside") +
                   (reached.binding ? ", binding>" : ">");
        });
    py::class_<Mend>(module, "Mend", "The smallest single addition that lets all targets be met.")
        .def_property_readonly(
            "feedstock", [](const Mend& m) { return SharedFeedstock{m.feedstock}; }, "What to add.")
        .def_readonly("label", &Mend::label, "Its name in the problem, or its own.")
        .def_property_readonly(
            "add_wet_kg", [](const Mend& m) { return m.add.in_kilograms(); }, "How much, wet kg.")
        .def("__repr__", [](const Mend& m) {
            return "<Mend add " + number_text(m.add.in_kilograms()) + " kg " + m.label + ">";
        });
    py::class_<SharedAnswer>(module, "Answer", R"doc(
The answer of a balance.

``status`` is "solved" only after an independent check of the optimum. Of an infeasible problem
``portions`` is the closest blend, ``conflict`` a minimal set of your own entries and targets that
contradict each other, and ``mend`` the smallest single addition that helps.)doc")
        .def_property_readonly(
            "status", [](const SharedAnswer& a) { return word_of(a.content.status, status_words); },
            "solved, infeasible, unbounded or failed.")
        .def_property_readonly(
            "solved",
            [](const SharedAnswer& a) { return a.content.status == BalanceStatus::solved; },
            "Whether all targets are met.")
        .def_property_readonly("portions", &portions_of, "How much of each entry, in their order.")
        .def_property_readonly(
            "wet_kg",
            [](const SharedAnswer& a) {
                py::typing::Dict<py::str, py::float_> masses;
                for (std::size_t i = 0; i < a.content.portions.size(); ++i)
                    masses[py::str(a.prepared->problem.entries[i].label)] =
                        py::float_(a.content.portions[i].wet_mass.in_kilograms());
                return masses;
            },
            "Wet kg of each entry, by its label.")
        .def_property_readonly(
            "reached",
            [](const SharedAnswer& a) {
                py::typing::Dict<py::str, Reached> reached;
                for (const auto& one : a.content.reached)
                    reached[py::str(std::string(kind(one.target.property).key))] = one;
                return reached;
            },
            "What each target came to, by its property.")
        .def_property_readonly(
            "blend",
            [](const SharedAnswer& a) {
                return SharedBlend{portions_of(a), a.content.properties};
            },
            "The portions together.")
        .def_property_readonly(
            "largest_deviation", [](const SharedAnswer& a) { return a.content.largest_deviation; },
            "How far the worst property is from its aim: 0 at the aims, 1 at a window edge.")
        .def_property_readonly(
            "conflict", [](const SharedAnswer& a) { return a.content.conflict; },
            "Labels of a minimal set of entries and targets that cannot be met together.")
        .def_property_readonly(
            "mend", [](const SharedAnswer& a) { return a.content.mend; },
            "The smallest single addition that helps, or None.")
        .def_property_readonly(
            "advice", [](const SharedAnswer& a) { return a.content.advice; },
            "What helps when the targets cannot be met, best first.")
        .def_property_readonly(
            "unbounded_entry", [](const SharedAnswer& a) { return a.content.unbounded_entry; },
            "What nothing limits, or empty.")
        .def_property_readonly(
            "water_released_kg",
            [](const SharedAnswer& a) { return in_kilograms(a.content.wetness.released); },
            "Water poured in and coming out of the scraps, kg (grade D).")
        .def_property_readonly(
            "water_spare_kg",
            [](const SharedAnswer& a) { return in_kilograms(a.content.wetness.spare); },
            "Water that the bedding can still take up, kg (grade D).")
        .def_property_readonly(
            "assumed", [](const SharedAnswer& a) { return texts_of(a.content.assumed); },
            "What was taken for granted, a sentence each.")
        .def_property_readonly(
            "grade", [](const SharedAnswer& a) { return grade_text(a.content.grade); },
            "The worst grade it leans on, A to D.")
        .def("to_json", &answer_json, "The answer as JSON text, with the keys of `feed balance`.")
        .def(
            "to_dict", [](const SharedAnswer& a) { return from_json(answer_json(a)); },
            "The answer as plain Python objects, with the keys of `feed balance`.")
        .def("__repr__", &answer_repr);
}

constexpr const char* problem_doc = R"doc(
Everything at hand and everything asked for; built once, solved as often as wanted.

Parameters
----------
entries : sequence of Entry or str
    What is at hand. A text with an amount ("1.2 kg coffee grounds") is an exact amount, one
    without ("cardboard") any amount.
targets : sequence of Target, optional
    Your own targets; one on a property of the set replaces it.
target_set : {"worm-bed", "hot-heap"} or None
    The ready set to start from.
objective : str
    closest to aims, closest to usual, least added, cheapest or use up most.
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Raises
------
FeedError
    Every problem at once: no amount is fixed, a window above its end, a value that is missing.

Examples
--------
>>> problem = libfeed.Problem(["1.2 kg kitchen scraps", "cardboard", "water"])
>>> problem.solve().status
'solved')doc";

void bind_problem(py::module_& module) {
    py::class_<SharedProblem>(module, "Problem", problem_doc)
        .def(py::init(&make_problem), py::arg("entries"), py::kw_only(),
             py::arg("targets") = std::vector<Target>{}, py::arg("target_set") = "worm-bed",
             py::arg("objective") = "closest to aims", py::arg("containers") = ContainerVolumes{})
        .def("solve", &solve_problem, R"doc(
Solves it. The answer is unique: ties go to the least mass, then to the order of the entries.

Returns
-------
Answer)doc")
        .def_property_readonly(
            "entries", [](const SharedProblem& p) { return p.prepared->problem.entries; },
            "What is at hand.")
        .def_property_readonly(
            "targets", [](const SharedProblem& p) { return p.prepared->problem.targets; },
            "What is asked for.")
        .def_property_readonly(
            "objective",
            [](const SharedProblem& p) {
                return word_of(p.prepared->problem.objective, objective_words);
            },
            "What best means.")
        .def("__repr__", [](const SharedProblem& p) {
            return "<Problem " + std::to_string(p.prepared->problem.entries.size()) + " entries, " +
                   std::to_string(p.prepared->problem.targets.size()) + " targets>";
        });
    module.def(
        "balance",
        [](const std::vector<EntryOrText>& entries, const std::vector<Target>& targets,
           const Text& set, const std::string& objective, const ContainerVolumes& containers) {
            return solve_problem(make_problem(entries, targets, set, objective, containers));
        },
        py::arg("entries"), py::kw_only(), py::arg("targets") = std::vector<Target>{},
        py::arg("target_set") = "worm-bed", py::arg("objective") = "closest to aims",
        py::arg("containers") = ContainerVolumes{}, R"doc(
Finds how much of each feedstock to take so that all targets are met.

Parameters
----------
entries, targets, target_set, objective, containers
    As for ``Problem``.

Returns
-------
Answer

Raises
------
FeedError
    Every problem of the input at once. Targets that cannot be met are an answer, not an error.

Examples
--------
>>> answer = libfeed.balance(["1.2 kg kitchen scraps", "cardboard", "water"])
>>> answer.reached["moisture"].inside
True)doc");
}

}  // namespace

void bind_balance(py::module_& module) {
    bind_answer(module);
    bind_problem(module);
}

}  // namespace feed::python
