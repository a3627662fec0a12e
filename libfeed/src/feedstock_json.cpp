#include "feed/feedstock/place.hpp"
#include "feed/io/class_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::io {
namespace {

void write_datum(JsonWriter& json, Property property, const Datum& datum) {
    const auto& facts = kind(property);
    json.begin_object();
    json.member("property", facts.key);
    json.member("basis", text(facts.basis));
    json.member("unit", facts.unit);
    json.member("value", datum.value);
    json.member("low", datum.low);
    json.member("high", datum.high);
    json.member("grade", feed::text(datum.grade));
    json.member("range_grade", feed::text(datum.range_grade));
    json.member("sources", datum.sources);
    json.member("method", datum.method);
    json.end_object();
}

void write_value(JsonWriter& json, std::string_view key, const std::optional<Datum>& datum) {
    json.key(key);
    if (datum) {
        json.value(datum->value);
    } else {
        json.null();
    }
}

}  // namespace

std::string to_json(const Feedstock& feedstock) {
    JsonWriter json;
    json.begin_object();
    json.member("id", feedstock.id);
    json.member("name", feedstock.name);
    json.member("group", text(feedstock.group));
    json.key("roles");
    json.begin_array();
    for (const auto role : all_roles) {
        if (feedstock.has(role)) json.value(text(role));
    }
    json.end_array();
    json.member("stance", text(feedstock.stance));
    json.member("heap_stance", text(stance_in(feedstock, feed::Place::heap)));
    const bool barred = feedstock.stance == Stance::avoid;
    json.member("why_barred", barred ? why_barred(feedstock) : std::string_view{});
    json.member("instead", barred ? instead_of(feedstock) : std::string_view{});
    json.member("decay_class", text(feedstock.decay_class));
    json.key("cautions");
    write_cautions(json, feedstock.cautions);
    json.member("note", feedstock.note);
    json.member("preparation", feedstock.preparation_hint);
    json.member("most_wet_kg_per_kg_worms", feedstock.most_wet_kg_per_kg_worms);
    json.member("most_sources", feedstock.most_sources);
    json.member("most_reason", feedstock.most_reason);
    json.key("values");
    json.begin_array();
    for (const auto& facts : property_kinds) {
        if (const auto& datum = feedstock[facts.property])
            write_datum(json, facts.property, *datum);
    }
    json.end_array();
    json.key("measures");
    json.begin_array();
    for (const auto& measure : feedstock.measures) {
        json.begin_object();
        json.member("measure", feed::text(measure.measure));
        json.member("wet_g", measure.wet_mass.in_kilograms() * 1000.0);
        json.member("grade", feed::text(measure.grade));
        json.member("sources", measure.sources);
        json.end_object();
    }
    json.end_array();
    json.end_object();
    return json.take();
}

std::string to_json(std::span<const Feedstock> feedstocks) {
    JsonWriter json;
    json.begin_object();
    json.key("feedstocks");
    json.begin_array();
    for (const auto& feedstock : feedstocks) {
        json.begin_object();
        json.member("id", feedstock.id);
        json.member("name", feedstock.name);
        json.member("group", text(feedstock.group));
        json.member("stance", text(feedstock.stance));
        write_value(json, "moisture", feedstock[Property::moisture_wet]);
        write_value(json, "cn_ratio", feedstock[Property::cn_ratio]);
        json.end_object();
    }
    json.end_array();
    json.end_object();
    return json.take();
}

}  // namespace feed::io
