#include "read_feedstocks.hpp"

#include <algorithm>
#include <optional>
#include <string>

#include "feed/feedstock/laboratory_report.hpp"
#include "feed/feedstock/lookup.hpp"
#include "feed/feedstock/nutrition_label.hpp"
#include "feed/feedstock/own_feedstock.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/class_text.hpp"

namespace feed::io {
namespace {

/// How the text of a property is read; the number is in the property's stored unit.
QuantityKind quantity_of(Property property) noexcept {
    switch (property) {
        case Property::moisture_wet:
            return QuantityKind::moisture;
        case Property::cn_ratio:
            return QuantityKind::cn_ratio;
        case Property::ph:
            return QuantityKind::ph;
        case Property::electrical_conductivity:
            return QuantityKind::conductivity;
        case Property::bulk_density_loose:
        case Property::bulk_density_settled:
            return QuantityKind::density;
        case Property::water_holding_capacity_dry:
            return QuantityKind::water_held;
        case Property::neutralising_value_wet:
            return QuantityKind::neutralising;
        case Property::labile_share:
        case Property::cellulosic_share:
        case Property::lignin_like_share:
            return QuantityKind::share;
        default:
            return QuantityKind::fraction;
    }
}

/// The words of a class, as WordFor of its enumerators.
constexpr WordFor<Stance> stance_words[] = {{text(Stance::feed), Stance::feed},
                                            {text(Stance::feed_little), Stance::feed_little},
                                            {text(Stance::avoid), Stance::avoid}};
constexpr WordFor<DecayClass> decay_words[] = {
    {text(DecayClass::inert), DecayClass::inert},
    {text(DecayClass::fast), DecayClass::fast},
    {text(DecayClass::medium), DecayClass::medium},
    {text(DecayClass::slow), DecayClass::slow},
    {text(DecayClass::very_slow), DecayClass::very_slow}};
constexpr WordFor<Role> role_words[] = {{text(Role::scraps), Role::scraps},
                                        {text(Role::bedding), Role::bedding},
                                        {text(Role::amendment), Role::amendment},
                                        {text(Role::water), Role::water}};
constexpr WordFor<ReportBasis> basis_words[] = {{"dry", ReportBasis::dry},
                                                {"as received", ReportBasis::as_received}};

class OwnReader {
public:
    OwnReader(Pantry& pantry, YamlView name, YamlView at)
        : reading_(pantry.reading()),
          pantry_(pantry),
          at_(at),
          section_(pantry.reading(), at, "feedstocks: " + std::string(name.text()),
                   keys::feedstock) {
        own_.name = std::string(name.text());
    }

    /// The feedstock and what was taken for granted, or nothing when there are problems.
    std::optional<DefinedFeedstock> read() {
        if (!section_.is_mapping()) return std::nullopt;
        const auto problems = reading_.count();
        read_values();
        read_measures();
        read_classes();
        std::shared_ptr<const Feedstock> like;
        if (const auto at = section_.find("like")) {
            const auto words = reading_.scalar(*at, section_.field("like"));
            if (words) like = pantry_.find(*at, section_.field("like"), *words, {});
        }
        const auto label = section_.find("nutrition_label");
        const auto report = section_.find("laboratory_report");
        if (label && report) {
            reading_.report(*report, ErrorCode::contradiction, section_.field("laboratory_report"),
                            "nutrition_label or laboratory_report",
                            "a feedstock has either a label or a report");
        }
        NutritionLabel label_said;
        LaboratoryReport report_said;
        if (label) label_said = read_label(*label);
        if (report) report_said = read_report(*report);
        if (reading_.count() != problems) return std::nullopt;
        auto made = label    ? feedstock_from_label(own_, label_said, like.get())
                    : report ? feedstock_from_report(own_, report_said, like.get())
                             : own_feedstock(own_, like.get());
        if (made) return std::move(made).value();
        for (Error error : made.errors()) {
            const auto place = place_of(error.field);
            if (error.code == ErrorCode::missing_value) error.value.clear();
            error.field = "feedstocks: " + error.field;
            reading_.report(place, std::move(error));
        }
        return std::nullopt;
    }

private:
    /// Where the core's "moisture of shredded till roll" was written.
    YamlView place_of(const std::string& field) const {
        const auto key = field.substr(0, field.find(" of "));
        if (const auto value = section_.find(key)) return *value;
        for (const auto* inner : {"nutrition_label", "laboratory_report"}) {
            if (const auto section = section_.find(inner)) {
                auto found = *section;
                section->for_each_pair([&](YamlView name, YamlView value) {
                    if (name.text() == key) found = value;
                });
                return found;
            }
        }
        return at_;
    }

    void read_values() {
        for (const auto& facts : property_kinds) {
            const auto at = section_.find(facts.key);
            if (!at) continue;
            const auto field = section_.field(facts.key);
            const auto quantity = quantity_of(facts.property);
            if (!at->is_mapping()) {
                const auto window = reading_.window(*at, field, quantity);
                if (!window) continue;
                if (!window->low || !window->high) {
                    reading_.report(*at, ErrorCode::wrong_type, field, "one value, or LOW to HIGH",
                                    "a value needs both ends of its range");
                } else if (window->single) {
                    own_.values.push_back({facts.property, *window->low, {}, {}});
                } else {
                    own_.values.push_back({facts.property, 0.5 * (*window->low + *window->high),
                                           window->low, window->high});
                }
                continue;
            }
            const Section value(reading_, *at, field, keys::value);
            OwnValue own{facts.property, 0.0, {}, {}};
            const auto read = [&](keys::Key key) -> std::optional<double> {
                const auto node = value.find(key);
                return node ? reading_.quantity(*node, value.field(key), quantity) : std::nullopt;
            };
            if (!value.require("value")) continue;
            const auto number = read("value");
            own.low = read("low");
            own.high = read("high");
            if (own.low.has_value() != own.high.has_value()) {
                reading_.report(*at, ErrorCode::missing_value, field, "low and high, or neither",
                                "a range needs both ends");
            }
            if (!number) continue;
            own.value = *number;
            own_.values.push_back(own);
        }
    }

    void read_measures() {
        const auto at = section_.find("measures");
        if (!at) return;
        const Section section(reading_, *at, section_.field("measures"), measure_words);
        for (std::size_t i = 0; i < measure_count; ++i) {
            const auto value = section.find(measure_words[i]);
            if (!value) continue;
            const auto mass =
                reading_.quantity(*value, section.field(measure_words[i]), QuantityKind::mass);
            if (!mass) continue;
            own_.measures.push_back(
                {static_cast<Measure>(i), wet_kilograms(*mass), Grade::a, "own value"});
        }
    }

    /// Calls `use(item)` for a list, or for the one text that stands in its place.
    template <class Use>
    static void each(YamlView at, Use&& use) {
        if (at.is_sequence()) {
            at.for_each_item(use);
        } else {
            use(at);
        }
    }

    void read_classes() {
        if (const auto at = section_.find("note"))
            own_.note = std::string(reading_.scalar(*at, section_.field("note")).value_or(""));
        if (const auto at = section_.find("stance"))
            own_.stance = reading_.word(*at, section_.field("stance"), stance_words);
        if (const auto at = section_.find("decay_class"))
            own_.decay_class = reading_.word(*at, section_.field("decay_class"), decay_words);
        if (const auto at = section_.find("roles")) {
            std::uint8_t bits = 0;
            each(*at, [&](YamlView item) {
                const auto role = reading_.word(item, section_.field("roles"), role_words);
                if (role) bits = static_cast<std::uint8_t>(bits | static_cast<std::uint8_t>(*role));
            });
            own_.roles = bits;
        }
        if (const auto at = section_.find("cautions")) {
            static constexpr auto words = [] {
                std::array<std::string_view, caution_names.size()> list{};
                for (std::size_t i = 0; i < list.size(); ++i)
                    list[i] = caution_names[i].word;
                return list;
            }();
            std::uint32_t bits = 0;
            each(*at, [&](YamlView item) {
                const auto found = reading_.word_index(item, section_.field("cautions"), words);
                if (found) bits |= static_cast<std::uint32_t>(caution_names[*found].caution);
            });
            own_.cautions = bits;
        }
    }

    /// A part of a label: "3 g" of the mass the label counts by, or a fraction with its unit.
    std::optional<double> label_part(const Section& section, keys::Key key, double per_kg) {
        const auto at = section.find(key);
        if (!at) return std::nullopt;
        const auto text = reading_.scalar(*at, section.field(key));
        if (!text) return std::nullopt;
        if (const auto mass = parse_quantity(*text, QuantityKind::weighed)) return *mass / per_kg;
        return reading_.quantity(*at, section.field(key), QuantityKind::fraction);
    }

    NutritionLabel read_label(YamlView at) {
        const Section section(reading_, at, section_.field("nutrition_label"),
                              keys::nutrition_label);
        double per_kg = 0.1;
        if (const auto per = section.find("per")) {
            if (const auto mass = reading_.quantity(*per, section.field("per"), QuantityKind::mass))
                per_kg = *mass;
        }
        NutritionLabel label;
        const auto part = [&](keys::Key key) { return label_part(section, key, per_kg); };
        for (const auto* needed : {"protein", "fat", "carbohydrate"})
            (void)section.require(needed);
        label.protein = part("protein").value_or(0.0);
        label.fat = part("fat").value_or(0.0);
        label.carbohydrate = part("carbohydrate").value_or(0.0);
        label.sugars = part("sugars");
        label.fibre = part("fibre");
        label.water = part("water");
        label.ash = part("ash");
        label.salt = part("salt");
        label.sodium = part("sodium");
        if (const auto fibre = section.find("carbohydrate_has_fibre"))
            label.carbohydrate_has_fibre =
                reading_.yes_or_no(*fibre, section.field("carbohydrate_has_fibre")).value_or(true);
        if (const auto food = section.find("food")) {
            const auto word = reading_.scalar(*food, section.field("food"));
            if (word) label.protein_factor = jones_factor(*word);
        }
        if (const auto factor = section.find("protein_factor")) {
            if (const auto number = reading_.quantity(*factor, section.field("protein_factor"),
                                                      QuantityKind::number))
                label.protein_factor = *number;
        }
        return label;
    }

    LaboratoryReport read_report(YamlView at) {
        const Section section(reading_, at, section_.field("laboratory_report"),
                              keys::laboratory_report);
        LaboratoryReport report;
        if (const auto basis = section.require("basis")) {
            if (const auto word = reading_.word(*basis, section.field("basis"), basis_words))
                report.basis = *word;
        }
        const auto part = [&](keys::Key key, QuantityKind kind) -> std::optional<double> {
            const auto value = section.find(key);
            return value ? reading_.quantity(*value, section.field(key), kind) : std::nullopt;
        };
        (void)section.require("moisture");
        report.moisture = part("moisture", QuantityKind::moisture);
        report.carbon = part("carbon", QuantityKind::fraction);
        report.nitrogen = part("nitrogen", QuantityKind::fraction);
        report.cn_ratio = part("cn_ratio", QuantityKind::cn_ratio);
        report.ash = part("ash", QuantityKind::fraction);
        report.volatile_solids = part("volatile_solids", QuantityKind::fraction);
        return report;
    }

    Reading& reading_;
    Pantry& pantry_;
    YamlView at_;
    Section section_;
    OwnFeedstock own_;
};

}  // namespace

void read_feedstocks(Pantry& pantry, FeedFile& file, YamlView at) {
    if (!at.is_mapping()) {
        pantry.reading().report(at, ErrorCode::wrong_type, "feedstocks",
                                "a mapping from names to what is known",
                                "a mapping (name: values) is due here");
        return;
    }
    if (!pantry.reading().fits(at, "feedstocks", keys::most_feedstocks)) return;
    at.for_each_pair([&](YamlView name, YamlView value) {
        auto made = OwnReader(pantry, name, value).read();
        if (!made) {
            // The name is known from here on, so that its uses are no second problem.
            pantry.excuse(name.text());
            return;
        }
        for (auto& sentence : made->said)
            pantry.assume(std::move(sentence), Grade::d);
        file.own_feedstocks.push_back(
            std::make_shared<const Feedstock>(std::move(made->feedstock)));
    });
}

}  // namespace feed::io
