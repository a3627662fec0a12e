#include "feed/feedstock/feedstock.hpp"

#include "convert.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/preparation.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/class_text.hpp"
#include "feed/io/to_json.hpp"
#include "feed/quantity/number_print.hpp"

namespace feed::python {
namespace {

/// One number of a feedstock with the fixed facts of its property.
struct PropertyValue {
    Datum datum;
    Property property;
};

Property property_of(std::string_view key) {
    const auto key_of = [](const PropertyKind& facts) { return facts.key; };
    return property_kinds[place_of_key("property", key, property_kinds, key_of)].property;
}

std::optional<PropertyValue> value_of(const Feedstock& feedstock, Property property) {
    const auto& datum = feedstock[property];
    if (!datum) return std::nullopt;
    return PropertyValue{*datum, property};
}

std::string value_repr(const PropertyValue& value) {
    const auto& facts = kind(value.property);
    return "<Value " + std::string(facts.key) + " " + number_text(value.datum.value) + " " +
           std::string(facts.unit) + ", " + number_text(value.datum.low) + " to " +
           number_text(value.datum.high) + ", grade " + grade_text(value.datum.grade) + ">";
}

std::string feedstock_repr(const SharedFeedstock& self) {
    const Feedstock& feedstock = *self.content;
    std::string repr = "<Feedstock " + feedstock.id;
    if (!feedstock.prepared_as.empty()) repr += ", " + feedstock.prepared_as;
    if (const auto& moisture = feedstock[Property::moisture_wet])
        repr += ", moisture " + number_text(moisture->value);
    if (const auto& ratio = feedstock[Property::cn_ratio])
        repr += ", C:N " + number_text(ratio->value);
    return repr + ">";
}

SharedFeedstock prepare_feedstock(const SharedFeedstock& self,
                                  const py::Args<py::str>& preparations) {
    Feedstock after = *self.content;
    for (const auto& one : preparations) {
        const auto word = one.cast<std::string>();
        const auto preparation = parse_preparation(word);
        if (!preparation)
            place_of_word("preparation", word, preparation_words.data(), preparation_count);
        after = prepared(after, *preparation);
    }
    return {std::make_shared<const Feedstock>(std::move(after))};
}

std::vector<SharedFeedstock> all_feedstocks() {
    std::vector<SharedFeedstock> all;
    for (std::size_t i = 0; i < feedstock_count(); ++i)
        all.push_back({std::make_shared<const Feedstock>(feedstock_at(i))});
    return all;
}

void bind_value(py::module_& module) {
    py::class_<PropertyValue>(module, "Value", R"doc(
One number of a feedstock: typical value, range, grade and where it comes from.

The unit and the basis belong to the property; fractions are kg per kg, never per cent.
Grades: A read in its source, B derived from such values by a named formula, C recalled,
D a judgement.)doc")
        .def_property_readonly(
            "value", [](const PropertyValue& v) { return v.datum.value; }, "Typical number.")
        .def_property_readonly(
            "low", [](const PropertyValue& v) { return v.datum.low; }, "Low end of the range.")
        .def_property_readonly(
            "high", [](const PropertyValue& v) { return v.datum.high; }, "High end of the range.")
        .def_property_readonly(
            "unit", [](const PropertyValue& v) { return std::string(kind(v.property).unit); },
            "Unit of the numbers, such as \"kg/kg\".")
        .def_property_readonly(
            "basis",
            [](const PropertyValue& v) { return std::string(io::text(kind(v.property).basis)); },
            "What the number is relative to: wet, dry, volatile solids or none.")
        .def_property_readonly(
            "key", [](const PropertyValue& v) { return std::string(kind(v.property).key); },
            "Key of the property.")
        .def_property_readonly(
            "grade", [](const PropertyValue& v) { return grade_text(v.datum.grade); },
            "Grade of the value, A to D.")
        .def_property_readonly(
            "range_grade", [](const PropertyValue& v) { return grade_text(v.datum.range_grade); },
            "Grade of the range, A to D.")
        .def_property_readonly(
            "sources", [](const PropertyValue& v) { return std::string(v.datum.sources); },
            "Ids and places of the sources, parted by blanks.")
        .def_property_readonly(
            "method", [](const PropertyValue& v) { return std::string(v.datum.method); },
            "How the number was obtained.")
        .def("__float__", [](const PropertyValue& v) { return v.datum.value; })
        .def("__repr__", &value_repr);
}

void bind_feedstock_class(py::module_& module) {
    py::class_<SharedFeedstock> feedstock(module, "Feedstock", R"doc(
A material with properties, from the table or your own. Never changes.

Examples
--------
>>> coffee = libfeed.feedstock("coffee grounds")
>>> coffee.id
'coffee-grounds'
>>> coffee["moisture"].unit
'kg/kg'
>>> coffee.get("bulk_density") is None
False)doc");
    feedstock
        .def_property_readonly(
            "id", [](const SharedFeedstock& f) { return f.content->id; },
            "Id, such as \"coffee-grounds\".")
        .def_property_readonly(
            "name", [](const SharedFeedstock& f) { return f.content->name; }, "Name for people.")
        .def_property_readonly(
            "note", [](const SharedFeedstock& f) { return f.content->note; },
            "What a keeper should know, or empty.")
        .def_property_readonly(
            "preparation_hint",
            [](const SharedFeedstock& f) { return f.content->preparation_hint; },
            "How it is best prepared, or empty.")
        .def_property_readonly(
            "prepared_as", [](const SharedFeedstock& f) { return f.content->prepared_as; },
            "What was done to it, or empty.")
        .def_property_readonly(
            "group",
            [](const SharedFeedstock& f) { return std::string(io::text(f.content->group)); },
            "scraps, beddings, manures, amendments, water or guarded.")
        .def_property_readonly(
            "roles",
            [](const SharedFeedstock& f) {
                std::vector<std::string> roles;
                for (const auto role : io::all_roles) {
                    if (f.content->has(role)) roles.emplace_back(io::text(role));
                }
                return roles;
            },
            "What it may be in a feeding: scraps, bedding, amendment, water.")
        .def_property_readonly(
            "stance",
            [](const SharedFeedstock& f) { return std::string(io::text(f.content->stance)); },
            "May it be fed to a worm bin: feed, feed little or avoid.")
        .def_property_readonly(
            "decay_class",
            [](const SharedFeedstock& f) { return std::string(io::text(f.content->decay_class)); },
            "inert, fast, medium, slow or very slow (a judgement, grade D).")
        .def_property_readonly(
            "cautions",
            [](const SharedFeedstock& f) { return caution_words_of(f.content->cautions); },
            "Warnings that belong to it.")
        .def_property_readonly(
            "most_wet_kg_per_kg_worms",
            [](const SharedFeedstock& f) { return f.content->most_wet_kg_per_kg_worms; },
            "Most wet kg at a time for each kg of worms, or None where nothing special is said.")
        .def_property_readonly(
            "values",
            [](const SharedFeedstock& f) {
                py::typing::Dict<py::str, PropertyValue> values;
                for (const auto& facts : property_kinds) {
                    if (const auto value = value_of(*f.content, facts.property))
                        values[py::str(std::string(facts.key))] = *value;
                }
                return values;
            },
            "Every known value by the key of its property. What is missing is unknown, not zero.")
        .def_property_readonly(
            "measures",
            [](const SharedFeedstock& f) {
                py::typing::Dict<py::str, py::float_> measures;
                for (const auto& one : f.content->measures)
                    measures[py::str(std::string(text(one.measure)))] =
                        py::float_(one.wet_mass.in_kilograms());
                return measures;
            },
            "Wet kg of one household measure, by its word.")
        .def(
            "__getitem__",
            [](const SharedFeedstock& f, const std::string& property) {
                auto value = value_of(*f.content, property_of(property));
                if (!value) {
                    throw Raised(
                        make_error(ErrorCode::unknown_property, property, "unknown",
                                   "a property that is known",
                                   "the " + property + " of " + f.content->name + " is not known"));
                }
                return *value;
            },
            py::arg("property"),
            R"doc(
The value of a property.

Raises
------
FeedNameError
    There is no such property, or it is not known of this feedstock.)doc")
        .def(
            "get",
            [](const SharedFeedstock& f, const std::string& property) {
                return value_of(*f.content, property_of(property));
            },
            py::arg("property"),
            R"doc(
The value of a property, or None where it is not known (unknown never means zero).

Raises
------
FeedNameError
    There is no such property.)doc")
        .def("prepared", &prepare_feedstock, R"doc(
The feedstock after preparations, in their order.

Parameters
----------
*preparations : str
    whole, chopped, blended, frozen and thawed, drained, soaked, damped, dried, pre-composted.

Returns
-------
Feedstock
    With moisture, density and rate of decay changed; what changed is grade D (judgement).

Examples
--------
>>> peel = libfeed.feedstock("banana peel")
>>> drained = peel.prepared("frozen and thawed", "drained")
>>> drained["moisture"].value < peel["moisture"].value
True)doc")
        .def(
            "to_json", [](const SharedFeedstock& f) { return io::to_json(*f.content); },
            "Everything known of it as JSON text.")
        .def(
            "to_dict", [](const SharedFeedstock& f) { return from_json(io::to_json(*f.content)); },
            "Everything known of it as plain Python objects.")
        .def("__eq__",
             [](const SharedFeedstock& a, const py::object& other) {
                 if (!py::isinstance<SharedFeedstock>(other)) return false;
                 const auto& b = other.cast<const SharedFeedstock&>();
                 return a.content == b.content ||
                        io::to_json(*a.content) == io::to_json(*b.content);
             })
        .def("__hash__", [](const SharedFeedstock& f) { return py::hash(py::str(f.content->id)); })
        .def("__repr__", &feedstock_repr);
}

void bind_lookup(py::module_& module) {
    py::class_<Candidate>(module, "Candidate", "A feedstock of the table that words may mean.")
        .def_readonly("id", &Candidate::id, "Id of the feedstock.")
        .def_readonly("name", &Candidate::name, "Name of the feedstock.")
        .def_readonly("part", &Candidate::part, "Part of the plant, or empty.")
        .def("__repr__", [](const Candidate& c) {
            return "<Candidate " + c.id + (c.part.empty() ? "" : ", " + c.part) + ">";
        });
    py::class_<Found>(module, "Found", "What words were taken to mean.")
        .def_property_readonly(
            "feedstock", [](const Found& found) { return SharedFeedstock{found.feedstock}; },
            "The feedstock taken.")
        .def_readonly("part", &Found::part, "The part of the plant taken, or empty.")
        .def_readonly("alternatives", &Found::alternatives, "The other parts.")
        .def_readonly("said", &Found::said, "One sentence where a choice was made, or empty.")
        .def("__repr__", [](const Found& found) { return "<Found " + found.feedstock->id + ">"; });
    module.def(
        "look_up", [](const std::string& words) { return unwrap(look_up(words)); },
        py::arg("words"), R"doc(
The feedstock of the table that words mean, and what else they may mean.

Parameters
----------
words : str
    A name, alias or id in any case, number and order of words.

Returns
-------
Found

Raises
------
FeedNameError
    Nothing is called that (``allowed`` has the nearest names), or several things are.

Examples
--------
>>> found = libfeed.look_up("apple")
>>> found.part
'whole'
>>> [other.part for other in found.alternatives]
['core', 'flesh'])doc");
    module.def(
        "feedstock",
        [](const std::string& words) { return feedstock_given(FeedstockOrWords(words)); },
        py::arg("words"), R"doc(
The feedstock of the table that words mean.

Parameters
----------
words : str
    A name, alias or id in any case, number and order of words.

Returns
-------
Feedstock

Raises
------
FeedNameError
    Nothing is called that (``allowed`` has the nearest names), or several things are.

Examples
--------
>>> libfeed.feedstock("shredded cardboard").group
'beddings')doc");
    module.def(
        "search", [](const std::string& words) { return search(words); }, py::arg("words"),
        R"doc(
All feedstocks of the table that have every one of the words, or its start, in a name.

Parameters
----------
words : str
    Words or starts of words; an empty text gives the whole table.

Returns
-------
list of Candidate
    In the order of the table.

Examples
--------
>>> [one.id for one in libfeed.search("coffee grounds")]
['coffee-grounds'])doc");
    module.def("feedstocks", &all_feedstocks, R"doc(
Every feedstock of the table.

Returns
-------
list of Feedstock
    In the order of the table.)doc");
}

}  // namespace

SharedFeedstock feedstock_given(const FeedstockOrWords& given) {
    if (const auto* feedstock = std::get_if<SharedFeedstock>(&given)) return *feedstock;
    return {unwrap(look_up(std::get<std::string>(given))).feedstock};
}

std::vector<std::string> texts_of(const std::vector<Assumption>& assumed) {
    std::vector<std::string> texts;
    for (const auto& one : assumed)
        texts.push_back(one.text);
    return texts;
}

std::vector<std::string> caution_words_of(std::uint32_t cautions) {
    std::vector<std::string> words;
    for (const auto& known : io::caution_names) {
        if ((cautions & static_cast<std::uint32_t>(known.caution)) != 0)
            words.emplace_back(known.word);
    }
    return words;
}

io::UnitSystem units_of(const std::string& word) {
    constexpr std::array<std::string_view, 2> words{"metric", "us"};
    return choice_of<io::UnitSystem>("units", std::string_view(word), words);
}

std::string grade_text(Grade grade) {
    return text(grade);
}

std::string number_text(double number) {
    return significant(number, 3);
}

py::object from_json(const std::string& text) {
    return py::module_::import("json").attr("loads")(text);
}

void bind_feedstock(py::module_& module) {
    bind_value(module);
    bind_feedstock_class(module);
    bind_lookup(module);
}

}  // namespace feed::python
