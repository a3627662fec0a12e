#include "feed/ration/check.hpp"

#include <string>
#include <vector>

#include "bed.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/to_json.hpp"
#include "ration.hpp"

namespace feed::python {
namespace {

using Number = std::optional<double>;

void bind_hazard_finding(py::module_& module) {
    py::class_<HazardFinding>(module, "HazardFinding", "The judgement on one hazard.")
        .def_property_readonly(
            "hazard", [](const HazardFinding& h) { return std::string(text(h.hazard)); },
            "sour, wet, dry, hot, ammonia, salty, overfed, underfed, airless, greasy or cold.")
        .def_property_readonly(
            "level", [](const HazardFinding& h) { return std::string(text(h.level)); },
            "none, watch, act or unknown.")
        .def_readonly("value", &HazardFinding::value, "What was found, in ``unit``.")
        .def_readonly("limit", &HazardFinding::limit, "Where it begins to matter, in ``unit``.")
        .def_readonly("limit_act", &HazardFinding::limit_act, "Where to act, in ``unit``.")
        .def_readonly("higher_is_worse", &HazardFinding::higher_is_worse,
                      "Whether the limits are upper ones.")
        .def_property_readonly(
            "unit", [](const HazardFinding& h) { return std::string(h.unit); },
            "Unit of the value and its limits.")
        .def_property_readonly(
            "source", [](const HazardFinding& h) { return std::string(h.source); },
            "Where the limits come from.")
        .def_readonly("why", &HazardFinding::why, "One sentence with the numbers.")
        .def("__repr__", [](const HazardFinding& h) {
            return "<HazardFinding " + std::string(text(h.hazard)) + ": " +
                   std::string(text(h.level)) + ">";
        });
}

void bind_caution_finding(py::module_& module) {
    py::class_<CautionFinding>(module, "CautionFinding", "A warning that belongs to a feedstock.")
        .def_property_readonly(
            "caution",
            [](const CautionFinding& c) {
                return caution_words_of(static_cast<std::uint32_t>(c.caution)).front();
            },
            "Its word.")
        .def_property_readonly(
            "level", [](const CautionFinding& c) { return std::string(text(c.level)); },
            "none, watch, act or unknown.")
        .def_readonly("feedstock", &CautionFinding::feedstock,
                      "Name of the feedstock, or empty where several share it.")
        .def_readonly("text", &CautionFinding::text, "What to beware of.")
        .def_readonly("source", &CautionFinding::source, "Where it comes from.")
        .def("__repr__", [](const CautionFinding& c) {
            return "<CautionFinding " +
                   caution_words_of(static_cast<std::uint32_t>(c.caution)).front() + ">";
        });
}

void bind_check_result(py::module_& module) {
    py::class_<CheckResult>(module, "CheckResult", "The answer of a check.")
        .def_property_readonly(
            "hazards",
            [](const CheckResult& result) {
                py::typing::Dict<py::str, HazardFinding> hazards;
                for (const auto& one : result.hazards)
                    hazards[py::str(std::string(text(one.hazard)))] = one;
                return hazards;
            },
            "Every hazard by its word.")
        .def_readonly("cautions", &CheckResult::cautions, "Warnings of the feedstocks planned.")
        .def_readonly("ration", &CheckResult::ration,
                      "What to do, with what is planned as what is at hand.")
        .def_readonly("as_planned", &CheckResult::as_planned,
                      "The ration puts in all that was planned.")
        .def_property_readonly(
            "assumed", [](const CheckResult& r) { return texts_of(r.assumed); },
            "What was taken for granted, a sentence each.")
        .def_property_readonly(
            "grade", [](const CheckResult& r) { return grade_text(r.grade); },
            "The worst grade it leans on, A to D.")
        .def(
            "to_json", [](const CheckResult& r) { return io::to_json(r); },
            "The answer as JSON text, with the keys of `feed check`.")
        .def(
            "to_dict", [](const CheckResult& r) { return from_json(io::to_json(r)); },
            "The answer as plain Python objects, with the keys of `feed check`.")
        .def("__repr__", [](const CheckResult& result) {
            std::string raised;
            for (const auto& one : result.hazards) {
                if (one.level == Level::watch || one.level == Level::act)
                    raised += (raised.empty() ? ": " : ", ") + std::string(text(one.hazard)) + " " +
                              std::string(text(one.level));
            }
            return "<CheckResult" + (raised.empty() ? ": no hazard" : raised) + ">";
        });
}

CheckResult check_feeding(const Bed& bed, const PortionsGiven& given, Number spread_m2,
                          const std::optional<FeedstockOrWords>& bedding,
                          const std::optional<Calibration>& calibration,
                          const ContainerVolumes& containers) {
    RationInput in = ration_input_of(bed, spread_m2, calibration);
    Errors errors;
    std::vector<Portion> planned;
    for (const PortionOrText& one : given) {
        try {
            in.things.push_back(thing_of_portion(one, containers));
            planned.push_back({in.things.back().feedstock, *in.things.back().most});
        } catch (const Raised& raised) {
            errors.insert(errors.end(), raised.errors().begin(), raised.errors().end());
        }
    }
    if (!errors.empty()) throw Raised(std::move(errors));
    if (bedding) {
        const auto content = feedstock_given(*bedding).content;
        in.things.push_back({content, content->name, {}, {}});
    }
    const py::gil_scoped_release released;
    return check(in, planned);
}

}  // namespace

void bind_findings(py::module_& module) {
    bind_hazard_finding(module);
    bind_caution_finding(module);
}

void bind_check(py::module_& module) {
    bind_check_result(module);
    module.def("check", &check_feeding, py::arg("bed"), py::arg("portions"), py::kw_only(),
               py::arg("spread_m2") = py::none(), py::arg("bedding_at_hand") = py::none(),
               py::arg("calibration") = py::none(), py::arg("containers") = ContainerVolumes{},
               R"doc(
Judges a planned feeding against a bed: every hazard with its limit and reason, and the ration.

Parameters
----------
bed : Bed
    The bed; what it leaves out is assumed.
portions : sequence of Portion or str
    The feeding: scraps with their bedding, water and amendments. May be empty.
spread_m2 : float, optional
    Surface over which it is laid, m2.
bedding_at_hand : Feedstock or str, optional
    A bedding of which the ration may take as much as it wants.
calibration : Calibration, optional
    The bin's own rates.
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Returns
-------
CheckResult
    Follow local codes first; nothing here says that pathogens are killed.

Examples
--------
>>> bed = libfeed.Bed(container="tote", worms_wet_kg=0.2, squeeze="drops")
>>> result = libfeed.check(bed, ["8 kg kitchen scraps"])
>>> result.hazards["overfed"].level
'act'
>>> result.ration.answer
'feed_less')doc");
}

}  // namespace feed::python
