#include "feed/feedstock/own_feedstock.hpp"

#include "convert.hpp"
#include "feed/feedstock/laboratory_report.hpp"
#include "feed/feedstock/nutrition_label.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/class_text.hpp"

namespace feed::python {
namespace {

/// A number, or low, typical and high.
using NumberOrRange = std::variant<double, std::tuple<double, double, double>>;
using ValuesGiven = std::map<std::string, NumberOrRange>;
using WordsGiven = std::vector<std::string>;

constexpr std::array<std::string_view, 4> role_words{"scraps", "bedding", "amendment", "water"};
constexpr std::array<std::string_view, 3> stance_words{"feed", "feed little", "avoid"};
constexpr std::array<std::string_view, 5> decay_words{"inert", "fast", "medium", "slow",
                                                      "very slow"};
constexpr std::array<std::string_view, 2> basis_words{"dry", "as received"};

/// What a feedstock of one's own is made with, beside its numbers.
struct OwnFacts {
    std::string name;
    ValuesGiven values;
    std::optional<FeedstockOrWords> like;
    std::optional<WordsGiven> roles;
    std::optional<std::string> stance;
    std::optional<std::string> decay_class;
    std::optional<WordsGiven> cautions;
    std::map<std::string, double> measures_wet_kg;
    std::string note;
};

void read_values(const ValuesGiven& given, OwnFeedstock& own) {
    Errors errors;
    const auto key_of = [](const PropertyKind& facts) { return facts.key; };
    for (const auto& [key, number] : given) {
        OwnValue value;
        try {
            value.property =
                property_kinds[place_of_key("property", key, property_kinds, key_of)].property;
        } catch (const Raised& problem) {
            errors.push_back(problem.errors().front());
            continue;
        }
        if (const auto* range = std::get_if<std::tuple<double, double, double>>(&number)) {
            value.low = std::get<0>(*range);
            value.value = std::get<1>(*range);
            value.high = std::get<2>(*range);
        } else {
            value.value = std::get<double>(number);
        }
        own.values.push_back(value);
    }
    if (!errors.empty()) throw Raised(std::move(errors));
}

std::uint32_t caution_bits(const WordsGiven& words) {
    std::array<std::string_view, io::caution_names.size()> known{};
    for (std::size_t i = 0; i < known.size(); ++i)
        known[i] = io::caution_names[i].word;
    std::uint32_t bits = 0;
    for (const auto& word : words) {
        const auto place = place_of_word("cautions", word, known.data(), known.size());
        bits |= static_cast<std::uint32_t>(io::caution_names[place].caution);
    }
    return bits;
}

OwnFeedstock read_own(const OwnFacts& facts) {
    OwnFeedstock own;
    own.name = facts.name;
    own.note = facts.note;
    read_values(facts.values, own);
    if (facts.roles) {
        std::uint8_t bits = 0;
        for (const auto& word : *facts.roles)
            bits = static_cast<std::uint8_t>(
                bits | 1u << place_of_word("roles", word, role_words.data(), role_words.size()));
        own.roles = bits;
    }
    own.stance = choice_of<Stance>("stance", facts.stance, stance_words);
    own.decay_class = choice_of<DecayClass>("decay_class", facts.decay_class, decay_words);
    if (facts.cautions) own.cautions = caution_bits(*facts.cautions);
    for (const auto& [word, wet_kg] : facts.measures_wet_kg) {
        checked("mass of one " + word, wet_kg, {"kg", 1e-6, 1e4});
        const auto measure =
            choice_of<Measure>("measures_wet_kg", std::string_view(word), measure_words);
        own.measures.push_back({measure, wet_kilograms(wet_kg), Grade::a, "own value"});
    }
    return own;
}

/// The feedstock that another is like, if one was named.
std::shared_ptr<const Feedstock> like_of(const OwnFacts& facts) {
    return facts.like ? feedstock_given(*facts.like).content : nullptr;
}

/// A feedstock of one's own and what was taken for granted in making it.
py::typing::Tuple<SharedFeedstock, py::typing::List<py::str>> handed_out(
    Result<DefinedFeedstock> made) {
    auto defined = unwrap(std::move(made));
    return py::make_tuple(
        SharedFeedstock{std::make_shared<const Feedstock>(std::move(defined.feedstock))},
        defined.said);
}

std::optional<double> fraction_of(std::string_view field, std::optional<double> number) {
    return checked(field, number, {"kg/kg", 0.0, 1.0, true});
}

}  // namespace

void bind_own_feedstock(py::module_& module) {
    module.def(
        "own_feedstock",
        [](const std::string& name, const ValuesGiven& values,
           const std::optional<FeedstockOrWords>& like, const std::optional<WordsGiven>& roles,
           const std::optional<std::string>& stance, const std::optional<std::string>& decay_class,
           const std::optional<WordsGiven>& cautions,
           const std::map<std::string, double>& measures_wet_kg, const std::string& note) {
            const OwnFacts facts{name,     values,          like, roles, stance, decay_class,
                                 cautions, measures_wet_kg, note};
            const auto base = like_of(facts);
            return handed_out(own_feedstock(read_own(facts), base.get()));
        },
        py::arg("name"), py::kw_only(), py::arg("values") = ValuesGiven{},
        py::arg("like") = py::none(), py::arg("roles") = py::none(), py::arg("stance") = py::none(),
        py::arg("decay_class") = py::none(), py::arg("cautions") = py::none(),
        py::arg("measures_wet_kg") = std::map<std::string, double>{}, py::arg("note") = "",
        R"doc(
A feedstock of your own: all of it, or what differs from one it is like.

Parameters
----------
name : str
    What you call it.
values : dict of str to float or (float, float, float)
    By the key of the property, in its stored unit (fractions 0 to 1): the value, or low,
    value and high. Of carbon, nitrogen and C:N the given ones stand and the others follow.
like : Feedstock or str, optional
    A feedstock to start from.
roles : list of str, optional
    scraps, bedding, amendment, water.
stance : str, optional
    feed, feed little or avoid.
decay_class : str, optional
    inert, fast, medium, slow or very slow.
cautions : list of str, optional
    Warnings that belong to it.
measures_wet_kg : dict of str to float, optional
    Wet kg of one piece, handful ...
note : str, optional
    What a keeper should know.

Returns
-------
(Feedstock, list of str)
    The feedstock, and what was taken for granted in making it.

Raises
------
FeedValueError
    Every problem at once: per cent where a fraction is due, numbers that contradict.

Examples
--------
>>> husks, said = libfeed.own_feedstock(
...     "cocoa husks", values={"moisture": 0.12, "carbon": 0.46, "nitrogen": 0.025})
>>> round(husks["cn_ratio"].value, 1)
18.4)doc");

    module.def(
        "feedstock_from_label",
        [](const std::string& name, double protein, double fat, double carbohydrate,
           bool carbohydrate_has_fibre, std::optional<double> sugars, std::optional<double> fibre,
           std::optional<double> water, std::optional<double> ash, std::optional<double> salt,
           std::optional<double> sodium, double protein_factor, const ValuesGiven& values,
           const std::optional<FeedstockOrWords>& like, const std::optional<WordsGiven>& roles,
           const std::optional<std::string>& stance, const std::optional<std::string>& decay_class,
           const std::string& note) {
            NutritionLabel label;
            label.protein = protein;
            label.fat = fat;
            label.carbohydrate = carbohydrate;
            label.carbohydrate_has_fibre = carbohydrate_has_fibre;
            label.sugars = sugars;
            label.fibre = fibre;
            label.water = water;
            label.ash = ash;
            label.salt = salt;
            label.sodium = sodium;
            label.protein_factor = checked("protein_factor", protein_factor, {"", 4.0, 8.0});
            const OwnFacts facts{name, values, like, roles, stance, decay_class, {}, {}, note};
            const auto base = like_of(facts);
            return handed_out(feedstock_from_label(read_own(facts), label, base.get()));
        },
        py::arg("name"), py::kw_only(), py::arg("protein"), py::arg("fat"), py::arg("carbohydrate"),
        py::arg("carbohydrate_has_fibre") = true, py::arg("sugars") = py::none(),
        py::arg("fibre") = py::none(), py::arg("water") = py::none(), py::arg("ash") = py::none(),
        py::arg("salt") = py::none(), py::arg("sodium") = py::none(),
        py::arg("protein_factor") = 6.25, py::arg("values") = ValuesGiven{},
        py::arg("like") = py::none(), py::arg("roles") = py::none(), py::arg("stance") = py::none(),
        py::arg("decay_class") = py::none(), py::arg("note") = "", R"doc(
A feedstock from the nutrition label of a food.

All numbers are fractions of the wet mass (8.5 g in 100 g is 0.085). Carbon follows from the
macronutrients, nitrogen from protein over its factor.

Parameters
----------
name : str
    What you call it.
protein, fat, carbohydrate : float
    As the label says, over 100.
carbohydrate_has_fibre : bool
    True for carbohydrate by difference (US tables), False where fibre stands beside it (EU).
sugars, fibre, water, ash, salt, sodium : float, optional
    As the label says, over 100. Water that is not given is what the other parts leave.
protein_factor : float
    Protein over nitrogen that the label's maker used.
values, like, roles, stance, decay_class, note
    What else is known, as for ``own_feedstock``.

Returns
-------
(Feedstock, list of str)
    The feedstock, and what was taken for granted in making it.

Raises
------
FeedValueError
    Parts that are more than the whole, and every other problem at once.

Examples
--------
>>> bread, said = libfeed.feedstock_from_label(
...     "rye bread", protein=0.085, fat=0.033, carbohydrate=0.483, fibre=0.058, water=0.373)
>>> 20 < bread["cn_ratio"].value < 40
True)doc");

    module.def(
        "feedstock_from_report",
        [](const std::string& name, double moisture, const std::string& basis,
           std::optional<double> carbon, std::optional<double> nitrogen,
           std::optional<double> cn_ratio, std::optional<double> ash,
           std::optional<double> volatile_solids, const ValuesGiven& values,
           const std::optional<FeedstockOrWords>& like, const std::optional<WordsGiven>& roles,
           const std::optional<std::string>& stance, const std::optional<std::string>& decay_class,
           const std::string& note) {
            LaboratoryReport report;
            report.moisture = fraction_of("moisture", moisture);
            report.basis = choice_of<ReportBasis>("basis", std::string_view(basis), basis_words);
            report.carbon = carbon;
            report.nitrogen = nitrogen;
            report.cn_ratio = cn_ratio;
            report.ash = ash;
            report.volatile_solids = volatile_solids;
            const OwnFacts facts{name, values, like, roles, stance, decay_class, {}, {}, note};
            const auto base = like_of(facts);
            return handed_out(feedstock_from_report(read_own(facts), report, base.get()));
        },
        py::arg("name"), py::kw_only(), py::arg("moisture"), py::arg("basis") = "dry",
        py::arg("carbon") = py::none(), py::arg("nitrogen") = py::none(),
        py::arg("cn_ratio") = py::none(), py::arg("ash") = py::none(),
        py::arg("volatile_solids") = py::none(), py::arg("values") = ValuesGiven{},
        py::arg("like") = py::none(), py::arg("roles") = py::none(), py::arg("stance") = py::none(),
        py::arg("decay_class") = py::none(), py::arg("note") = "", R"doc(
A feedstock from a laboratory report.

Parameters
----------
name : str
    What you call it.
moisture : float
    Water over wet mass, 0 to 1.
basis : {"dry", "as received"}
    What the other fractions are relative to.
carbon, nitrogen, ash, volatile_solids : float, optional
    Fractions 0 to 1 of the mass named by ``basis``. Carbon is taken as volatile solids over 1.8
    (Adams et al. 1951) only where the report gives nothing better.
cn_ratio : float, optional
    kg carbon per kg nitrogen.
values, like, roles, stance, decay_class, note
    What else is known, as for ``own_feedstock``.

Returns
-------
(Feedstock, list of str)
    The feedstock, and what was taken for granted in making it.

Examples
--------
>>> manure, said = libfeed.feedstock_from_report(
...     "stable manure", moisture=0.72, carbon=0.38, nitrogen=0.016)
>>> round(manure["cn_ratio"].value, 2)
23.75)doc");
}

}  // namespace feed::python
