#include "feed/bed/check.hpp"

#include <map>
#include <string>
#include <vector>

#include "bed.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {
namespace {

using Number = std::optional<double>;

std::vector<std::string> words_of(const std::vector<Hazard>& hazards) {
    std::vector<std::string> words;
    for (const Hazard hazard : hazards)
        words.emplace_back(text(hazard));
    return words;
}

void bind_check_result(py::module_& module) {
    py::class_<Remedy>(module, "Remedy", "A computed step. Amounts that do not belong to it are 0.")
        .def_property_readonly(
            "kind", [](const Remedy& r) { return std::string(text(r.kind)); }, "What kind of step.")
        .def_readonly("text", &Remedy::text, "One sentence with amounts.")
        .def_readonly("material", &Remedy::material, "Id of the feedstock to add, or empty.")
        .def_property_readonly(
            "add_wet_kg", [](const Remedy& r) { return r.add.in_kilograms(); },
            "How much to add, wet kg.")
        .def_property_readonly(
            "feed_now_wet_kg", [](const Remedy& r) { return r.feed_now.in_kilograms(); },
            "Scraps to feed now, wet kg.")
        .def_property_readonly(
            "feed_later_wet_kg", [](const Remedy& r) { return r.feed_later.in_kilograms(); },
            "Scraps to keep for later, wet kg.")
        .def_property_readonly(
            "later_days", [](const Remedy& r) { return in_days(r.later); },
            "When to feed the rest, days.")
        .def_property_readonly(
            "spread_m2", [](const Remedy& r) { return in_square_metres(r.spread); },
            "Surface to lay it over, m2.")
        .def_readonly("hazard_gone", &Remedy::hazard_gone,
                      "Judged again with these amounts: the hazard is gone.")
        .def_property_readonly(
            "raises", [](const Remedy& r) { return words_of(r.raises); },
            "Words of the hazards that the step would raise, from the same judgement.")
        .def("__repr__",
             [](const Remedy& r) { return "<Remedy " + std::string(text(r.kind)) + ">"; });
    py::class_<JointRemedy>(module, "JointRemedy",
                            "One set of steps against all hazards at once, judged again.")
        .def_readonly("found", &JointRemedy::found,
                      "Whether there are amounts that fit and clear them all.")
        .def_readonly("text", &JointRemedy::text, "What to do, in words.")
        .def_property_readonly(
            "add_wet_kg",
            [](const JointRemedy& r) {
                std::map<std::string, double> added;
                for (const RemedyAddition& one : r.additions)
                    added[one.material] = one.add.in_kilograms();
                return added;
            },
            "How much to add of each feedstock, by its id, wet kg.")
        .def_readonly("share_now", &JointRemedy::share_now,
                      "Share of the feeding to feed now, without a portion that is cut down.")
        .def_property_readonly(
            "feed_now_wet_kg", [](const JointRemedy& r) { return r.feed_now.in_kilograms(); },
            "The scraps in that share, wet kg.")
        .def_property_readonly(
            "feed_later_wet_kg", [](const JointRemedy& r) { return r.feed_later.in_kilograms(); },
            "What is left of the scraps for later, wet kg.")
        .def_readonly("cut_down", &JointRemedy::cut_down,
                      "Id of a feedstock of which less goes in, or empty.")
        .def_property_readonly(
            "keep_wet_kg", [](const JointRemedy& r) { return r.keep.in_kilograms(); },
            "What is kept of that one, wet kg.")
        .def_property_readonly(
            "spread_m2", [](const JointRemedy& r) { return in_square_metres(r.spread); },
            "Surface to lay it over, m2.")
        .def_property_readonly(
            "later_days", [](const JointRemedy& r) { return in_days(r.later); },
            "When to feed the rest, days.")
        .def_property_readonly(
            "clears", [](const JointRemedy& r) { return words_of(r.clears); },
            "Words of the hazards that are gone then.")
        .def_property_readonly(
            "stays", [](const JointRemedy& r) { return words_of(r.stays); },
            "Words of the hazards that no step takes away.")
        .def("__repr__", [](const JointRemedy& r) {
            return std::string("<JointRemedy: ") + (r.found ? "found" : "none fits") + ">";
        });
    py::class_<HazardFinding>(module, "HazardFinding", "The judgement on one hazard.")
        .def_property_readonly(
            "hazard", [](const HazardFinding& h) { return std::string(text(h.hazard)); },
            "sour, wet, dry, hot, ammonia, salty, overfed, underfed, airless or greasy.")
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
        .def_readonly("remedy", &HazardFinding::remedy, "The first step.")
        .def_readonly("other_remedies", &HazardFinding::other_remedies, "Other steps that help.")
        .def("__repr__", [](const HazardFinding& h) {
            return "<HazardFinding " + std::string(text(h.hazard)) + ": " +
                   std::string(text(h.level)) + ">";
        });
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
        .def_readonly("cautions", &CheckResult::cautions, "Warnings of the feedstocks.")
        .def_readonly("together", &CheckResult::together,
                      "Steps against all hazards at once, where several are raised.")
        .def_readonly("look_back", &CheckResult::look_back, "What should be seen, and when.")
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

CheckResult check_feeding(const Bed& bed, const PortionsGiven& given, Number until_next_days,
                          Number spread_m2, const std::optional<FeedstockOrWords>& bedding,
                          const ContainerVolumes& containers) {
    CheckOptions options;
    if (checked("until_next_days", until_next_days, {"days", 0.5, 366}))
        options.until_next = days(*until_next_days);
    if (checked("spread_m2", spread_m2, {"m2", 1e-4, 1e4}))
        options.spread = square_metres(*spread_m2);
    if (bedding) options.bedding_at_hand = feedstock_given(*bedding).content;
    const auto portions = portions_given(given, containers);
    const py::gil_scoped_release released;
    return check(bed, portions, options);
}

}  // namespace

void bind_check(py::module_& module) {
    bind_check_result(module);
    module.def("check", &check_feeding, py::arg("bed"), py::arg("portions"), py::kw_only(),
               py::arg("until_next_days") = py::none(), py::arg("spread_m2") = py::none(),
               py::arg("bedding_at_hand") = py::none(), py::arg("containers") = ContainerVolumes{},
               R"doc(
Judges a planned feeding against a bed: every hazard with its limit, reason and a remedy.

Parameters
----------
bed : Bed
    The bed; what it leaves out is assumed.
portions : sequence of Portion or str
    The feeding: scraps with their bedding, water and amendments. May be empty.
until_next_days : float, optional
    Days until the next feeding.
spread_m2 : float, optional
    Surface over which it is laid, m2.
bedding_at_hand : Feedstock or str, optional
    A bedding for remedies.
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Returns
-------
CheckResult
    Follow local codes first; nothing here says that pathogens are killed.

Examples
--------
>>> bed = libfeed.Bed(container="tote", worms_wet_kg=0.2, squeeze="drops")
>>> libfeed.check(bed, ["8 kg kitchen scraps"]).hazards["overfed"].level
'act')doc");
}

}  // namespace feed::python
