#include "feed/ration/signs.hpp"

#include "bed.hpp"
#include "feed/diary/seen.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {
namespace {

constexpr std::array<std::string_view, 9> step_words{"none",      "look",   "feed less",
                                                     "leave out", "cool",   "add bedding",
                                                     "add water", "spread", "add lime"};

}  // namespace

namespace {
void bind_diagnose(py::module_& module);
}  // namespace

void bind_signs(py::module_& module) {
    py::class_<SignStep>(module, "SignStep",
                         "A step against one cause. Amounts that do not belong to it are 0.")
        .def_property_readonly(
            "kind",
            [](const SignStep& s) {
                return std::string(step_words[static_cast<std::size_t>(s.kind)]);
            },
            "none, look, feed less, leave out, cool, add bedding, add water, spread or add lime.")
        .def_readonly("text", &SignStep::text, "One or two sentences with amounts.")
        .def_readonly("material", &SignStep::material, "Id of the feedstock to add, or empty.")
        .def_property_readonly(
            "add_wet_kg", [](const SignStep& s) { return s.add.in_kilograms(); },
            "How much to add, wet kg.")
        .def_property_readonly(
            "feed_now_wet_kg", [](const SignStep& s) { return s.feed_now.in_kilograms(); },
            "Scraps to feed now, wet kg.")
        .def_property_readonly(
            "feed_later_wet_kg", [](const SignStep& s) { return s.feed_later.in_kilograms(); },
            "Scraps to keep for later, wet kg.")
        .def_property_readonly(
            "later_days", [](const SignStep& s) { return in_days(s.later); },
            "Until then nothing is fed, days.")
        .def_property_readonly(
            "spread_m2", [](const SignStep& s) { return in_square_metres(s.spread); },
            "Surface to lay food over, m2.")
        .def("__repr__", [](const SignStep& s) {
            return "<SignStep " + std::string(step_words[static_cast<std::size_t>(s.kind)]) + ">";
        });
    py::class_<Diagnosis>(module, "Diagnosis", "One possible cause of what was noticed.")
        .def_readonly("name", &Diagnosis::name, "What it is.")
        .def_readonly("share", &Diagnosis::share,
                      "Share of the likelihood, 0 to 1: an order, not a measurement (grade D).")
        .def_readonly("harmless", &Diagnosis::harmless, "Whether it needs no step.")
        .def_readonly("why", &Diagnosis::why, "What the bed says for or against it, or empty.")
        .def_readonly("test", &Diagnosis::test, "One quick test.")
        .def_readonly("remedy", &Diagnosis::remedy, "One step, to be taken when the test says so.")
        .def("__repr__", [](const Diagnosis& d) {
            return "<Diagnosis " + d.name + ", " + number_text(d.share) + ">";
        });
    py::class_<SignsAnswer>(module, "Signs", "The causes of what was noticed, likeliest first.")
        .def_readonly("causes", &SignsAnswer::causes, "The causes.")
        .def_readonly("steps", &SignsAnswer::steps,
                      "Places in ``causes`` in the order to act, most reversible step first.")
        .def_readonly("harmless", &SignsAnswer::harmless, "The likeliest cause is harmless.")
        .def_readonly("text", &SignsAnswer::text, "One sentence.")
        .def_readonly("notes", &SignsAnswer::notes,
                      "What is good to know of the signs, a sentence or two each.")
        .def_property_readonly(
            "assumed", [](const SignsAnswer& s) { return texts_of(s.assumed); },
            "What was taken for granted, a sentence each.")
        .def(
            "to_json", [](const SignsAnswer& s) { return io::to_json(s); },
            "The answer as JSON text, with the keys of `feed signs`.")
        .def(
            "to_dict", [](const SignsAnswer& s) { return from_json(io::to_json(s)); },
            "The answer as plain Python objects, with the keys of `feed signs`.")
        .def("__repr__", [](const SignsAnswer& s) {
            return "<Signs: " + (s.causes.empty() ? "nothing" : s.causes.front().name) + ">";
        });
    bind_diagnose(module);
}

namespace {

void bind_diagnose(py::module_& module) {
    module.def(
        "diagnose",
        [](const std::optional<Bed>& bed, const std::vector<std::string>& signs) {
            std::vector<Sign> seen;
            for (const auto& words : signs) {
                const auto read = unwrap(read_signs(words));
                seen.insert(seen.end(), read.begin(), read.end());
            }
            const py::gil_scoped_release released;
            return bed ? causes_of(*bed, seen) : causes_of(seen);
        },
        py::arg("bed"), py::arg("signs"), R"doc(
What may be behind the signs in this bed: ordered causes, each with a quick test and one step.

Parameters
----------
bed : Bed or None
    The bed; without one, steps are shares of the bed.
signs : sequence of str
    What was noticed, in everyday words: "worms leaving", "smells of vinegar", "fruit flies".

Returns
-------
Signs
    The weights are judgements (grade D) in the order that keepers' accounts give them.

Examples
--------
>>> bed = libfeed.Bed(container="tote", squeeze="streams")
>>> libfeed.diagnose(bed, ["swampy smell", "streams"]).causes[0].name
'too wet')doc");
}

}  // namespace

}  // namespace feed::python
