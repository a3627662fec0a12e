#include "ration.hpp"

#include "balance.hpp"
#include "date.hpp"
#include "feed/diary/calibration.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::python {
namespace {

using Number = std::optional<double>;
using ThingGiven = std::variant<SharedPortion, Entry, std::string>;

constexpr std::array<std::string_view, 4> part_words{"scraps", "bedding", "amendment", "water"};

std::string part_text(Part part) {
    return std::string(part_words[static_cast<std::size_t>(part)]);
}

/// Levels of all hazards by their words.
py::typing::Dict<py::str, py::str> levels_of(const std::array<Level, hazard_count>& levels) {
    py::typing::Dict<py::str, py::str> found;
    for (std::size_t h = 0; h < hazard_count; ++h)
        found[py::str(std::string(hazard_words[h]))] = py::str(std::string(text(levels[h])));
    return found;
}

std::optional<int> day_of(const Ration& ration, int RationDay::*member) {
    if (!ration.next_feeding) return std::nullopt;
    return (*ration.next_feeding).*member;
}

/// An amount and words ("2 handfuls carrot"), or words alone: as much as is wanted.
ThingAtHand thing_of_text(const std::string& words, const ContainerVolumes& containers) {
    ThingAtHand thing;
    const auto parsed = parse_amount_and_words(words, containers_of(containers));
    if (!parsed) {
        const auto code = parsed.errors().front().code;
        const bool no_number = code == ErrorCode::wrong_type || code == ErrorCode::empty;
        if (!no_number) throw Raised(parsed.errors());
        thing.feedstock = feedstock_given(FeedstockOrWords(words)).content;
        thing.label = words;
        return thing;
    }
    thing.feedstock = feedstock_given(FeedstockOrWords(parsed->words)).content;
    thing.label = parsed->words;
    thing.amount = parsed->amount;
    thing.most = unwrap(wet_mass_of(parsed->amount, *thing.feedstock)).wet_mass;
    return thing;
}

ThingAtHand thing_given(const ThingGiven& given, const ContainerVolumes& containers) {
    if (const auto* entry = std::get_if<Entry>(&given))
        return {entry->feedstock, entry->label, entry->most, {}, entry->use_up_priority > 0};
    if (const auto* portion = std::get_if<SharedPortion>(&given))
        return thing_of_portion(*portion, containers);
    return thing_of_text(std::get<std::string>(given), containers);
}

Ration make_ration(const Bed& bed, const std::vector<ThingGiven>& at_hand,
                   const std::optional<DateGiven>& date, Number spread_m2,
                   const std::optional<Calibration>& calibration, const std::string& units,
                   const ContainerVolumes& containers) {
    RationInput in = ration_input_of(bed, spread_m2, calibration);
    if (date) in.date = date_given("date", *date);
    in.units = units_of(units);
    Errors errors;
    for (const ThingGiven& one : at_hand) {
        try {
            in.things.push_back(thing_given(one, containers));
        } catch (const Raised& raised) {
            errors.insert(errors.end(), raised.errors().begin(), raised.errors().end());
        }
    }
    if (!errors.empty()) throw Raised(std::move(errors));
    const py::gil_scoped_release released;
    return ration(in);
}

void bind_things(py::module_& module) {
    py::class_<TakeOut>(module, "TakeOut", "Something that is never fed here.")
        .def_readonly("feedstock", &TakeOut::feedstock, "Id of the feedstock.")
        .def_readonly("label", &TakeOut::label, "The keeper's own words for it.")
        .def_readonly("why", &TakeOut::why, "Why, in a few words.")
        .def_readonly("instead", &TakeOut::instead, "Where with it.")
        .def("__repr__", [](const TakeOut& t) { return "<TakeOut " + t.label + ">"; });
    py::class_<PutIn>(module, "PutIn", "One thing that goes in.")
        .def_property_readonly(
            "feedstock", [](const PutIn& p) { return p.thing.feedstock->id; },
            "Id of the feedstock.")
        .def_property_readonly(
            "label", [](const PutIn& p) { return p.thing.label; }, "The keeper's own words for it.")
        .def_property_readonly(
            "part", [](const PutIn& p) { return part_text(p.part); },
            "scraps, bedding, amendment or water.")
        .def_property_readonly(
            "wet_kg", [](const PutIn& p) { return p.wet_mass.in_kilograms(); },
            "How much, wet kg, as printed.")
        .def_property_readonly(
            "measure", [](const PutIn& p) { return io::measure_of(p, p.units); },
            "How much in the keeper's own measure, with the weight.")
        .def_property_readonly(
            "at_hand", [](const PutIn& p) { return p.thing.at_hand; },
            "False where it is offered because nothing of its kind is at hand.")
        .def("__repr__", [](const PutIn& p) {
            return "<PutIn " + p.thing.label + ", " + number_text(p.wet_mass.in_kilograms()) +
                   " kg>";
        });
    py::class_<Rest>(module, "Rest", "Something at hand that does not go in today.")
        .def_property_readonly(
            "feedstock", [](const Rest& r) { return r.thing.feedstock->id; },
            "Id of the feedstock.")
        .def_property_readonly(
            "label", [](const Rest& r) { return r.thing.label; }, "The keeper's own words for it.")
        .def_property_readonly(
            "wet_kg", [](const Rest& r) { return r.wet_mass.in_kilograms(); },
            "How much stays out, wet kg.")
        .def_readonly("capped", &Rest::capped, "It is too much of it at a time.")
        .def("__repr__", [](const Rest& r) {
            return "<Rest " + r.thing.label + ", " + number_text(r.wet_mass.in_kilograms()) +
                   " kg>";
        });
}

/// Answers as sentences.
template <class List, class Sentence>
std::vector<std::string> sentences_of(const List& list, Sentence sentence) {
    std::vector<std::string> found;
    for (const auto& one : list)
        found.push_back(sentence(one));
    return found;
}

void bind_ration_class(py::module_& module) {
    py::class_<Ration> bound(module, "Ration", R"doc(
What to put into a bed today, and when again. Days count from today. What must be taken out comes
before the answer. Masses are as printed, and were judged as printed.)doc");
    bound.def_readonly("take_out", &Ration::take_out, "What is never fed here.")
        .def_property_readonly(
            "answer", [](const Ration& r) { return std::string(text(r.answer)); },
            "act_first, wait, feed_less or feed.")
        .def_property_readonly(
            "date",
            [](const Ration& r) {
                return r.date ? std::optional<PythonDate>(python_date(*r.date)) : std::nullopt;
            },
            "datetime.date of today, or None.")
        .def_readonly("put_in", &Ration::put_in, "Scraps, then bedding, water and lime.")
        .def_readonly("rest", &Ration::rest, "What does not go in today.")
        .def_property_readonly(
            "scraps_wet_kg", [](const Ration& r) { return r.scraps.in_kilograms(); },
            "Scraps that go in, wet kg.")
        .def_property_readonly(
            "week_wet_kg", [](const Ration& r) { return r.week.in_kilograms(); },
            "Scraps that these worms may have in a week, wet kg.")
        .def_readonly("crowded", &Ration::crowded, "Whether the worms have too little room.")
        .def_readonly("water_kg", &Ration::water_kg, "Water to pour, kg.")
        .def_readonly("lime_wet_kg", &Ration::lime_kg, "Lime or ground shell, kg.")
        .def_property_readonly(
            "spread_m2", [](const Ration& r) { return in_square_metres(r.spread); },
            "Surface over which the food is laid, m2.")
        .def_readonly("next_look_day", &Ration::next_look, "When to look; 0: before food.")
        .def_property_readonly(
            "next_feeding_day", [](const Ration& r) { return day_of(r, &RationDay::day); },
            "When to feed again, or None where the bed must be seen first.")
        .def_property_readonly(
            "next_feeding_earliest_day",
            [](const Ration& r) { return day_of(r, &RationDay::earliest); }, "At the earliest.")
        .def_property_readonly(
            "next_feeding_latest_day",
            [](const Ration& r) { return day_of(r, &RationDay::latest); }, "At the latest.")
        .def_readonly("share_left", &Ration::share_left, "Of today's food by the next look.")
        .def_readonly("share_left_high", &Ration::share_left_high, "The same at most.");
    bound
        .def_property_readonly(
            "reasons",
            [](const Ration& r) {
                return sentences_of(
                    r.reasons, [&](const Reason& one) { return io::reason_text(one, r, r.units); });
            },
            "At most two reasons, a sentence each.")
        .def_property_readonly(
            "weigh", [](const Ration& r) { return sentences_of(r.weigh, io::weigh_text); },
            "What is worth weighing or measuring, what moves the answer most first.")
        .def_property_readonly(
            "raised",
            [](const Ration& r) {
                return sentences_of(r.raised, [](Hazard h) { return std::string(text(h)); });
            },
            "Words of the hazards that the bed has without food.")
        .def_property_readonly(
            "before", [](const Ration& r) { return levels_of(r.before); },
            "The level of every hazard without food.")
        .def_property_readonly(
            "after", [](const Ration& r) { return levels_of(r.after); },
            "The level of every hazard with what is put in.")
        .def_readonly("cautions", &Ration::cautions, "Warnings of what is put in.")
        .def_property_readonly(
            "assumed", [](const Ration& r) { return texts_of(r.assumed); },
            "What was taken for granted, a sentence each.")
        .def_property_readonly(
            "grade", [](const Ration& r) { return grade_text(r.grade); },
            "The worst grade it leans on, A to D.")
        .def(
            "lines",
            [](const Ration& r, const std::string& units) {
                return io::ration_lines(r, units_of(units));
            },
            py::arg("units") = "metric", "What `feed ration` prints first, a line each.")
        .def(
            "to_text",
            [](const Ration& r, const std::string& units) {
                return io::ration_text(r, units_of(units));
            },
            py::arg("units") = "metric", "The lines as one text.")
        .def(
            "to_json", [](const Ration& r) { return io::to_json(r); },
            "The answer as JSON text, with the keys of `feed ration`.")
        .def(
            "to_dict", [](const Ration& r) { return from_json(io::to_json(r)); },
            "The answer as plain Python objects, with the keys of `feed ration`.")
        .def("__repr__", [](const Ration& r) {
            return "<Ration: " + std::string(text(r.answer)) + ", " +
                   number_text(r.scraps.in_kilograms()) + " kg of scraps>";
        });
}

}  // namespace

RationInput ration_input_of(const Bed& bed, Number spread_m2,
                            const std::optional<Calibration>& calibration) {
    RationInput in;
    in.bed = bed;
    if (checked("spread_m2", spread_m2, {"m2", 1e-4, 1e4})) in.spread = square_metres(*spread_m2);
    if (calibration) in.ranges = calibrated(in.ranges, *calibration);
    return in;
}

ThingAtHand thing_of_portion(const PortionOrText& given, const ContainerVolumes& containers) {
    if (const auto* words = std::get_if<std::string>(&given)) {
        // Refused here without an amount: a planned portion needs one.
        const SharedPortion portion = portion_given(given, containers);
        ThingAtHand thing = thing_of_text(*words, containers);
        thing.most = portion.content.wet_mass;
        return thing;
    }
    const auto& portion = std::get<SharedPortion>(given);
    const std::string& name = portion.content.feedstock->name;
    return {portion.content.feedstock,
            portion.label.empty() ? name : portion.label,
            portion.content.wet_mass,
            {}};
}

void bind_ration(py::module_& module) {
    bind_things(module);
    bind_ration_class(module);
    module.def("ration", &make_ration, py::arg("bed"),
               py::arg("at_hand") = std::vector<ThingGiven>{}, py::kw_only(),
               py::arg("date") = py::none(), py::arg("spread_m2") = py::none(),
               py::arg("calibration") = py::none(), py::arg("units") = "metric",
               py::arg("containers") = ContainerVolumes{}, R"doc(
What to put into a bed today, from the bed as it stands and what is at hand.

Parameters
----------
bed : Bed
    The bed as it stands today, with its earlier feedings; what it leaves out is assumed.
at_hand : sequence of Portion, Entry or str
    "500 g carrot": so much at most; "shredded cardboard": as much as is wanted. An ``Entry`` with
    a ``use_up_priority`` is used first. Without scraps the answer is for soft mixed ones.
date : datetime.date or str, optional
    Today, so that the answer names days.
spread_m2 : float, optional
    Surface over which the food is laid, m2.
calibration : Calibration, optional
    The bin's own rates.
units : {"metric", "us"}
    Units in which amounts are rounded.
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Returns
-------
Ration
    Follow local codes first; nothing here says that pathogens are killed. What was seen lately,
    alarms among it, is only in a diary: ``FeedFile.ration`` heeds it.

Examples
--------
>>> bed = libfeed.Bed(container="tote", worms_wet_kg=0.5, squeeze="drops", age_days=365)
>>> today = libfeed.ration(bed, ["300 g carrot", "shredded cardboard"])
>>> today.answer, today.scraps_wet_kg
('feed', 0.3))doc");
}

}  // namespace feed::python
