#include "feed/io/to_json.hpp"

#include "feed/balance/target_kind.hpp"
#include "feed/io/caution_text.hpp"
#include "feed/io/error_name.hpp"

namespace feed::io {
namespace {

void write_mass(JsonWriter& json, std::string_view key, const Estimate<Mass>& mass, bool grams) {
    json.key(key);
    write_quantity(json, in_numbers(mass, [](Mass m) { return in_kilograms(m); }),
                   grams ? 1000.0 : 1.0);
}

std::string_view status_text(BalanceStatus status) {
    switch (status) {
        case BalanceStatus::solved:
            return "solved";
        case BalanceStatus::infeasible:
            return "infeasible";
        case BalanceStatus::unbounded:
            return "unbounded";
        case BalanceStatus::failed:
            return "failed";
    }
    return "failed";
}

void write_reached(JsonWriter& json, std::span<const Reached> reached) {
    json.begin_object();
    for (const auto& one : reached) {
        json.key(kind(one.target.property).key);
        json.begin_object();
        const auto& quantity = one.quantity;
        if (quantity.is_known()) {
            json.member("value", quantity.value);
            json.member("low", quantity.low);
            json.member("high", quantity.high);
        } else if (quantity.has_value()) {
            json.member("at_least", quantity.value);
            json.member("covered", quantity.covered);
        } else {
            json.key("value");
            json.null();
        }
        json.member("grade", text(quantity.grade));
        json.key("window");
        json.begin_array(true);
        for (const auto& end : {one.target.low, one.target.high}) {
            if (end) {
                json.value(*end);
            } else {
                json.null();
            }
        }
        json.end_array();
        if (one.target.wish_low || one.target.wish_high) {
            json.key("wish");
            json.begin_array(true);
            for (const auto& end : {one.target.wish_low, one.target.wish_high}) {
                if (end) {
                    json.value(*end);
                } else {
                    json.null();
                }
            }
            json.end_array();
            json.member("wished", one.wished);
        }
        json.member("aim", one.target.aim);
        // What does not exist, such as the C:N of water, is neither inside nor outside.
        json.member("inside", one.quantity.has_value() ? std::optional(one.inside) : std::nullopt);
        json.member("binding", one.binding);
        json.end_object();
    }
    json.end_object();
}

}  // namespace

std::string to_json(const Errors& errors) {
    JsonWriter json;
    json.begin_object();
    json.key("errors");
    json.begin_array();
    for (const auto& error : errors) {
        json.begin_object();
        // Whoever asks back needs one word for "there are two readings".
        const std::string_view name = error_name(error.code);
        constexpr std::string_view asked = "ambiguous";
        json.member("code", name.substr(0, asked.size()) == asked ? asked : name);
        json.member("field", error.field);
        json.member("value", error.value);
        json.member("allowed", error.allowed);
        json.member("message", error.message);
        if (!error.repairs.empty()) write_texts(json, "repairs", error.repairs);
        json.member("file", error.file);
        json.member("line", error.line);
        json.member("column", error.column);
        json.end_object();
    }
    json.end_array();
    json.end_object();
    return json.take();
}

void write_quantity(JsonWriter& json, const Estimate<double>& quantity, double scale) {
    if (!quantity.has_value()) return json.null();
    json.begin_object();
    if (quantity.is_known()) {
        json.member("value", quantity.value * scale);
        json.member("low", quantity.low * scale);
        json.member("high", quantity.high * scale);
    } else {
        json.member("at_least", quantity.value * scale);
        json.member("covered", quantity.covered);
    }
    json.member("grade", text(quantity.grade));
    json.end_object();
}

void write_cautions(JsonWriter& json, std::uint32_t cautions) {
    json.begin_array();
    for (const auto& known : caution_names) {
        if ((cautions & static_cast<std::uint32_t>(known.caution)) != 0) json.value(known.word);
    }
    json.end_array();
}

void write_texts(JsonWriter& json, std::string_view key, std::span<const std::string> texts) {
    json.key(key);
    json.begin_array();
    for (const auto& text : texts)
        json.value(text);
    json.end_array();
}

void write_assumed(JsonWriter& json, std::span<const Assumption> assumed) {
    json.begin_array();
    for (const auto& one : assumed)
        json.value(one.text);
    json.end_array();
}

void write_portions(JsonWriter& json, std::span<const Portion> portions,
                    std::span<const std::string> measures) {
    json.begin_array();
    for (std::size_t i = 0; i < portions.size(); ++i) {
        json.begin_object();
        json.member("feedstock", portions[i].feedstock->id);
        json.member("wet_mass_kg", portions[i].wet_mass.in_kilograms());
        json.member("measure", i < measures.size() ? measures[i] : std::string());
        json.end_object();
    }
    json.end_array();
}

void write_take_out(JsonWriter& json, std::span<const TakeOut> take_out) {
    json.key("take_out");
    json.begin_array();
    for (const auto& one : take_out) {
        json.begin_object();
        json.member("feedstock", one.feedstock);
        json.member("label", one.label);
        json.member("why", one.why);
        json.member("instead", one.instead);
        json.end_object();
    }
    json.end_array();
}

std::string to_json(const BlendProperties& blend, std::span<const Portion> portions,
                    std::span<const std::string> measures) {
    JsonWriter json;
    json.begin_object();
    write_take_out(json, blend.take_out);
    json.member("wet_mass_kg", blend.wet_mass.in_kilograms());
    write_mass(json, "dry_mass_kg", blend.dry_mass, false);
    write_mass(json, "water_kg", blend.water, false);
    json.key("moisture");
    write_quantity(json, in_numbers(blend.moisture, [](Moisture m) { return m.value(); }));
    json.key("cn_ratio");
    write_quantity(json, blend.cn_ratio);
    json.key("available_cn_ratio");
    write_quantity(json, blend.available_cn_ratio);
    write_mass(json, "carbon_kg", blend.carbon, false);
    write_mass(json, "nitrogen_kg", blend.nitrogen, false);
    json.key("volume_l");
    write_quantity(json, in_numbers(blend.volume, [](Volume v) { return in_litres(v); }));
    json.key("bulk_density_kg_m3");
    write_quantity(json, in_numbers(blend.bulk_density,
                                    [](Density d) { return in_kilograms_per_cubic_metre(d); }));
    json.key("free_air_space");
    write_quantity(json, blend.free_air_space);
    write_mass(json, "acid_g_citric", blend.acid, true);
    write_mass(json, "salt_g", blend.salt, true);
    write_mass(json, "potassium_g", blend.potassium, true);
    write_mass(json, "fat_kg", blend.fat, false);
    write_mass(json, "volatile_solids_kg", blend.volatile_solids, false);
    write_mass(json, "neutralising_g_caco3", blend.neutralising, true);
    json.key("cautions");
    write_cautions(json, blend.cautions);
    json.key("portions");
    write_portions(json, portions, measures);
    json.key("assumed");
    write_assumed(json, blend.assumed);
    write_texts(json, "unknown", blend.unknown);
    json.end_object();
    return json.take();
}

void write_balance(JsonWriter& json, const BalanceAnswer& answer,
                   std::span<const std::string> measures) {
    const bool solved = answer.status == BalanceStatus::solved;
    json.begin_object();
    json.member("status", status_text(answer.status));
    write_take_out(json, answer.take_out);
    json.key("portions");
    if (solved) {
        write_portions(json, answer.portions, measures);
    } else {
        json.begin_array();
        json.end_array();
    }
    json.key("reached");
    write_reached(json,
                  solved ? std::span<const Reached>(answer.reached) : std::span<const Reached>());
    json.key("assumed");
    write_assumed(json, answer.assumed);
    write_texts(json, "remarks", answer.remarks);
    write_texts(json, "unknown", answer.properties.unknown);
    json.member("grade", text(answer.grade));
    if (answer.status == BalanceStatus::infeasible) {
        write_texts(json, "conflict", answer.conflict);
        json.key("closest");
        json.begin_object();
        json.key("portions");
        write_portions(json, answer.portions, measures);
        json.key("reached");
        write_reached(json, answer.reached);
        json.end_object();
        json.key("mend");
        if (answer.mend) {
            json.begin_object();
            json.member("feedstock", answer.mend->feedstock->id);
            json.member("label", answer.mend->label);
            json.member("add_kg", answer.mend->add.in_kilograms());
            // What to feed with it: with other amounts it may not mend.
            json.key("with");
            json.begin_array();
            for (const auto& portion : answer.mend->with) {
                json.begin_object();
                json.member("feedstock", portion.feedstock->id);
                json.member("wet_mass_kg", portion.wet_mass.in_kilograms());
                json.end_object();
            }
            json.end_array();
            json.end_object();
        } else {
            json.null();
        }
        write_texts(json, "advice", answer.advice);
    }
    if (answer.status == BalanceStatus::unbounded) json.member("unlimited", answer.unbounded_entry);
    json.end_object();
}

std::string to_json(const BalanceAnswer& answer, std::span<const std::string> measures) {
    JsonWriter json;
    write_balance(json, answer, measures);
    return json.take();
}

}  // namespace feed::io
