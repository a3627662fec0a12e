#include "feed/blend/portion.hpp"

#include "convert.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/measure_text.hpp"

namespace feed::python {
namespace {

std::string portion_repr(const SharedPortion& self) {
    return "<Portion " + number_text(self.content.wet_mass.in_kilograms()) + " kg " +
           self.content.feedstock->id + (self.measure.empty() ? "" : ", " + self.measure) + ">";
}

SharedPortion portion_of(const std::shared_ptr<const Feedstock>& feedstock, WetMass wet_mass,
                         const std::optional<Amount>& amount, std::string how) {
    SharedPortion portion{{feedstock, wet_mass}, std::move(how), "", feedstock->name};
    portion.measure = io::measure_text(wet_mass, *feedstock, amount, io::UnitSystem::metric);
    return portion;
}

SharedPortion portion_from_amount(const std::shared_ptr<const Feedstock>& feedstock,
                                  const Amount& amount) {
    const auto mass = unwrap(wet_mass_of(amount, *feedstock));
    std::string how = mass.how;
    if (!amount.said.empty()) how += (how.empty() ? "" : "; ") + amount.said;
    return portion_of(feedstock, mass.wet_mass, amount, std::move(how));
}

SharedPortion make_portion(const FeedstockOrWords& given, const std::optional<std::string>& amount,
                           const std::optional<double>& wet_kg,
                           const ContainerVolumes& containers) {
    const auto feedstock = feedstock_given(given).content;
    if (amount.has_value() == wet_kg.has_value()) {
        throw Raised(make_error(amount ? ErrorCode::duplicate_entry : ErrorCode::missing_value,
                                "amount of " + feedstock->name, amount.value_or("nothing"),
                                "an amount such as \"1.2 kg\", or wet_kg",
                                "give either an amount in words or wet_kg"));
    }
    if (wet_kg) {
        checked("wet_kg of " + feedstock->name, *wet_kg, mass_range);
        return portion_of(feedstock, wet_kilograms(*wet_kg), std::nullopt, "");
    }
    return portion_from_amount(feedstock, unwrap(parse_amount(*amount, containers_of(containers))));
}

}  // namespace

std::vector<Container> containers_of(const ContainerVolumes& volumes) {
    std::vector<Container> containers;
    for (const auto& [name, volume_l] : volumes) {
        checked("volume of " + name, volume_l, {"L", 1e-6, 1e6});
        containers.push_back({name, litres(volume_l)});
    }
    return containers;
}

WetMass mass_given(const std::string& amount, const Feedstock& feedstock,
                   const ContainerVolumes& containers) {
    const auto parsed = unwrap(parse_amount(amount, containers_of(containers)));
    return unwrap(wet_mass_of(parsed, feedstock)).wet_mass;
}

namespace {

/// What a text holds, in the shared form; raises what has to be asked.
std::vector<SharedPortion> portions_of_text(const std::string& text,
                                            const ContainerVolumes& containers) {
    const auto vessels = containers_of(containers);
    const auto read = read_things(text, {vessels, {}, {}});
    if (!read.questions.empty()) throw Raised(read.questions);
    std::vector<SharedPortion> portions;
    for (const auto& thing : read.things) {
        std::string how = thing.mass.how;
        for (const auto& sentence : thing.said)
            how += (how.empty() ? "" : "; ") + sentence;
        auto portion = portion_of(thing.feedstock, thing.mass.wet_mass, thing.amount, how);
        portion.content.low_share = thing.mass.low_share();
        portion.content.high_share = thing.mass.high_share();
        portion.label = thing.words;
        portions.push_back(std::move(portion));
    }
    return portions;
}

}  // namespace

SharedPortion portion_given(const PortionOrText& given, const ContainerVolumes& containers) {
    if (const auto* portion = std::get_if<SharedPortion>(&given)) return *portion;
    const auto& text = std::get<std::string>(given);
    auto portions = portions_of_text(text, containers);
    if (portions.size() != 1)
        throw Raised(
            make_error(ErrorCode::contradiction, "portion", text, "one thing",
                       "this text holds several things; give it where a list of portions is due"));
    return std::move(portions.front());
}

std::vector<Portion> portions_given(const PortionsGiven& given,
                                    const ContainerVolumes& containers) {
    std::vector<Portion> portions;
    Errors errors;
    for (const auto& one : given) {
        try {
            if (const auto* text = std::get_if<std::string>(&one)) {
                for (auto& portion : portions_of_text(*text, containers))
                    portions.push_back(std::move(portion.content));
            } else {
                portions.push_back(std::get<SharedPortion>(one).content);
            }
        } catch (const Raised& problem) {
            errors.insert(errors.end(), problem.errors().begin(), problem.errors().end());
        }
    }
    if (!errors.empty()) throw Raised(std::move(errors));
    return portions;
}

SharedPortion portion_written(const Portion& portion, const std::optional<Amount>& amount) {
    return portion_of(portion.feedstock, portion.wet_mass, amount, "");
}

std::vector<SharedPortion> shared_portions(const std::vector<Portion>& portions) {
    std::vector<SharedPortion> shared;
    for (const auto& portion : portions)
        shared.push_back(portion_of(portion.feedstock, portion.wet_mass, std::nullopt, ""));
    return shared;
}

void bind_portion(py::module_& module) {
    py::class_<SharedPortion>(module, "Portion", R"doc(
An amount of a feedstock.

Parameters
----------
feedstock : Feedstock or str
    The feedstock, or words for one of the table.
amount : str, optional
    "1.2 kg", "3 L", "6 piece", "half a bucket": a number and a unit.
wet_kg : float, optional
    Wet mass, kg; instead of ``amount``.
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Raises
------
FeedNameError
    The words mean no feedstock.
FeedValueError
    The amount is no amount, or no weight is known for its measure.

Examples
--------
>>> libfeed.Portion("coffee grounds", "250 g").wet_kg
0.25
>>> libfeed.Portion("cardboard", wet_kg=0.5).feedstock.id
'cardboard-corrugated')doc")
        .def(py::init(&make_portion), py::arg("feedstock"), py::arg("amount") = py::none(),
             py::kw_only(), py::arg("wet_kg") = py::none(),
             py::arg("containers") = ContainerVolumes{})
        .def_property_readonly(
            "feedstock",
            [](const SharedPortion& p) { return SharedFeedstock{p.content.feedstock}; },
            "The feedstock.")
        .def_property_readonly(
            "wet_kg", [](const SharedPortion& p) { return p.content.wet_mass.in_kilograms(); },
            "Wet mass, kg.")
        .def_readonly("how", &SharedPortion::how,
                      "How a measure became a mass (\"3 L at 94 kg/m3, loose\"), or empty.")
        .def_readonly("measure", &SharedPortion::measure,
                      "The amount in a keeper's measure (\"2 handfuls\").")
        .def_readonly("label", &SharedPortion::label,
                      "The keeper's own words for the feedstock, else its name.")
        .def("__repr__", &portion_repr);
    module.def("portions", &portions_of_text, py::arg("text"), py::kw_only(),
               py::arg("containers") = ContainerVolumes{}, R"doc(
The portions that a text means, as people write what they have.

Parameters
----------
text : str
    One thing or several: "3 apples, a cup of coffee grounds and 2 banana peels".
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Returns
-------
list of Portion
    In the order of the text; what is never fed is among them.

Raises
------
FeedNameError, FeedValueError
    What has to be asked: an unknown name, an amount with two readings, no amount.

Examples
--------
>>> [portion.feedstock.id for portion in libfeed.portions("3 apples and 2 banana peels")]
['apple-whole', 'banana-peel'])doc");
    module.def(
        "portion",
        [](const std::string& text, const ContainerVolumes& containers) {
            return portion_given(PortionOrText(text), containers);
        },
        py::arg("text"), py::kw_only(), py::arg("containers") = ContainerVolumes{}, R"doc(
The portion that a text means.

Parameters
----------
text : str
    An amount and a feedstock: "1.2 kg coffee grounds", "6 apples".
containers : list of (str, float), optional
    Vessels of your own and their volumes in litres.

Returns
-------
Portion

Examples
--------
>>> libfeed.portion("1.2 kg coffee grounds")
<Portion 1.2 kg coffee-grounds, 1.2 kg>)doc");
}

}  // namespace feed::python
