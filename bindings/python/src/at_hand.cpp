#include "balance.hpp"

#include "feed/balance/target_kind.hpp"
#include "feed/balance/target_sets.hpp"

namespace feed::python {
namespace {

using Number = std::optional<double>;
using Text = std::optional<std::string>;

/// One amount of an entry, in words or as a number; nothing where neither is given.
std::optional<WetMass> one_amount(const std::string& what, const Text& words, const Number& wet_kg,
                                  const Feedstock& feedstock, const ContainerVolumes& containers) {
    if (words && wet_kg) {
        throw Raised(make_error(ErrorCode::duplicate_entry, what + " of " + feedstock.name, *words,
                                "words or a number",
                                "give " + what + " in words or as a number, not both"));
    }
    if (words) return mass_given(*words, feedstock, containers);
    if (wet_kg) {
        return wet_kilograms(checked(what + "_wet_kg of " + feedstock.name, *wet_kg, mass_range));
    }
    return std::nullopt;
}

Entry make_entry(const FeedstockOrWords& given, const Text& amount, const Number& wet_kg,
                 const Text& least, const Number& least_wet_kg, const Text& most,
                 const Number& most_wet_kg, const Text& usual, const Number& usual_wet_kg,
                 const Number& cost_per_wet_kg, int use_up_priority, const Text& label,
                 const ContainerVolumes& containers) {
    Entry entry;
    entry.feedstock = feedstock_given(given).content;
    const auto* words = std::get_if<std::string>(&given);
    entry.label = label ? *label : words != nullptr ? *words : entry.feedstock->name;
    const auto read = [&](const std::string& what, const Text& in_words, const Number& number) {
        return one_amount(what, in_words, number, *entry.feedstock, containers);
    };
    const auto exact = read("amount", amount, wet_kg);
    const auto low = read("least", least, least_wet_kg);
    const auto high = read("most", most, most_wet_kg);
    if (exact && (low || high)) {
        throw Raised(make_error(ErrorCode::contradiction, "amount of " + entry.label,
                                number_text(exact->in_kilograms()) + " kg",
                                "an exact amount, or least and most",
                                "an exact amount leaves no room for least or most"));
    }
    entry.least = exact ? *exact : low.value_or(WetMass());
    entry.most = exact ? exact : high;
    entry.usual = read("usual", usual, usual_wet_kg);
    entry.cost_per_wet_kg =
        checked("cost_per_wet_kg of " + entry.label, cost_per_wet_kg, {"per kg", -1e9, 1e9});
    entry.use_up_priority = use_up_priority;
    return entry;
}

std::string entry_repr(const Entry& entry) {
    const double least = entry.least.in_kilograms();
    std::string amount = ", any amount";
    if (entry.most && *entry.most == entry.least)
        amount = ", " + number_text(least) + " kg";
    else if (entry.most)
        amount =
            ", " + number_text(least) + " to " + number_text(entry.most->in_kilograms()) + " kg";
    else if (least > 0.0)
        amount = ", at least " + number_text(least) + " kg";
    return "<Entry " + entry.label + amount + ">";
}

TargetProperty target_property_of(const std::string& key) {
    const auto key_of = [](const TargetKind& facts) { return facts.key; };
    return target_kinds[place_of_key("target", key, target_kinds, key_of)].property;
}

std::string target_repr(const Target& target) {
    std::string repr = "<Target " + std::string(kind(target.property).key);
    if (target.low) repr += ", at least " + number_text(*target.low);
    if (target.high) repr += ", at most " + number_text(*target.high);
    if (target.aim) repr += ", aim " + number_text(*target.aim);
    return repr + ">";
}

}  // namespace

std::vector<Target> target_set_of(const std::string& name) {
    auto targets = target_set(name);
    if (!targets) {
        throw Raised(make_error(ErrorCode::out_of_range, "target_set", name, "worm-bed or hot-heap",
                                "there is no target set \"" + name + "\""));
    }
    return *targets;
}

void bind_entry(py::module_& module) {
    py::class_<Entry>(module, "Entry", R"doc(
One feedstock at hand and how much of it may go in. Without an amount: any amount.

Parameters
----------
feedstock : Feedstock or str
    The feedstock, or words for one of the table.
amount, wet_kg : str, float
    An exact amount, in words ("1.2 kg", "6 piece") or as wet kg.
least, least_wet_kg : str, float
    At least this much.
most, most_wet_kg : str, float
    At most this much.
usual, usual_wet_kg : str, float
    Amount in your usual recipe, for the objective "closest to usual".
cost_per_wet_kg : float, optional
    In any money, for the objective "cheapest".
use_up_priority : int
    0 none, 1 used up first, 2 second ...
label : str, optional
    Your own words for it, used in the answer.
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Examples
--------
>>> libfeed.Entry("banana peel", most="8 piece").most_wet_kg > 0.5
True
>>> libfeed.Entry("cardboard")
<Entry cardboard, any amount>)doc")
        .def(py::init(&make_entry), py::arg("feedstock"), py::arg("amount") = py::none(),
             py::kw_only(), py::arg("wet_kg") = py::none(), py::arg("least") = py::none(),
             py::arg("least_wet_kg") = py::none(), py::arg("most") = py::none(),
             py::arg("most_wet_kg") = py::none(), py::arg("usual") = py::none(),
             py::arg("usual_wet_kg") = py::none(), py::arg("cost_per_wet_kg") = py::none(),
             py::arg("use_up_priority") = 0, py::arg("label") = py::none(),
             py::arg("containers") = ContainerVolumes{})
        .def_property_readonly(
            "feedstock", [](const Entry& e) { return SharedFeedstock{e.feedstock}; },
            "The feedstock.")
        .def_readonly("label", &Entry::label, "What it is called in answers.")
        .def_property_readonly(
            "least_wet_kg", [](const Entry& e) { return e.least.in_kilograms(); },
            "At least this much, wet kg.")
        .def_property_readonly(
            "most_wet_kg",
            [](const Entry& e) { return e.most ? Number(e.most->in_kilograms()) : Number(); },
            "At most this much, wet kg, or None.")
        .def_property_readonly(
            "usual_wet_kg",
            [](const Entry& e) { return e.usual ? Number(e.usual->in_kilograms()) : Number(); },
            "Amount in the usual recipe, wet kg, or None.")
        .def_readonly("cost_per_wet_kg", &Entry::cost_per_wet_kg, "Cost of a wet kg, or None.")
        .def_readonly("use_up_priority", &Entry::use_up_priority, "0 none, 1 used up first ...")
        .def("__repr__", &entry_repr);
}

void bind_target(py::module_& module) {
    py::class_<Target>(module, "Target", R"doc(
A window on one property of the whole.

Parameters
----------
key : str
    The property: cn_ratio, moisture (0 to 1), acid_g_citric_per_wet_kg, salt_wet_fraction (0 to 1),
    fat_wet_fraction (0 to 1), free_air_space (0 to 1), total_wet_kg, total_volume_l,
    bedding_l_per_scraps_l or water_kg_per_wet_scraps_kg.
low, high, aim : float, optional
    Lower limit, upper limit and what is best, in the unit of the property.
label : str, optional
    Your own words, used where targets conflict.
source : str, optional
    Where the numbers come from.

Examples
--------
>>> libfeed.Target("moisture", low=0.7, high=0.8, aim=0.75)
<Target moisture, at least 0.7, at most 0.8, aim 0.75>)doc")
        .def(py::init([](const std::string& key, Number low, Number high, Number aim,
                         const std::string& label, const std::string& source) {
                 Target target;
                 target.property = target_property_of(key);
                 target.low = low;
                 target.high = high;
                 target.aim = aim;
                 target.source = source;
                 target.label = label;
                 return target;
             }),
             py::arg("key"), py::kw_only(), py::arg("low") = py::none(),
             py::arg("high") = py::none(), py::arg("aim") = py::none(), py::arg("label") = "",
             py::arg("source") = "")
        .def_property_readonly(
            "key", [](const Target& t) { return std::string(kind(t.property).key); },
            "Key of the property.")
        .def_property_readonly(
            "unit", [](const Target& t) { return std::string(kind(t.property).unit); },
            "Unit of low, high and aim.")
        .def_readonly("low", &Target::low, "Lower limit, or None.")
        .def_readonly("high", &Target::high, "Upper limit, or None.")
        .def_readonly("aim", &Target::aim, "What is best, or None.")
        .def_readonly("label", &Target::label, "Your own words, or empty.")
        .def_readonly("source", &Target::source, "Where the numbers come from.")
        .def("__repr__", &target_repr);
    module.def("target_set", &target_set_of, py::arg("name"), R"doc(
A ready set of targets, each with its source.

Parameters
----------
name : {"worm-bed", "hot-heap"}
    For a feeding to a worm bed with its bedding, or for a small heap that shall heat.

Returns
-------
list of Target

Examples
--------
>>> [target.key for target in libfeed.target_set("hot-heap")]
['cn_ratio', 'moisture', 'free_air_space'])doc");
}

}  // namespace feed::python
