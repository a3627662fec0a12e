#pragma once
#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>

#include "feed/feedstock/feedstock.hpp"
#include "feed/feedstock/generated/table.hpp"

namespace feed {

/// Version of the numbers of the embedded table, such as "1.0.0".
constexpr std::string_view table_version() noexcept {
    return table::data_version;
}

/// SHA-256 of the data files the embedded table was made from, 64 hexadecimal digits.
constexpr std::string_view table_content_hash() noexcept {
    return table::content_sha256;
}

/// Number of feedstocks in the embedded table.
constexpr std::size_t feedstock_count() noexcept {
    return table::feedstocks.size();
}

/// Id of a feedstock of the table. index: below feedstock_count().
constexpr std::string_view feedstock_id(std::size_t index) noexcept {
    return table::feedstocks[index].id;
}

/// Name of a feedstock of the table. index: below feedstock_count().
constexpr std::string_view feedstock_name(std::size_t index) noexcept {
    return table::feedstocks[index].name;
}

/// Place of a feedstock in the table by its exact id, or nothing. Time proportional to the table.
constexpr std::optional<std::size_t> find_id(std::string_view id) noexcept {
    for (std::size_t i = 0; i < table::feedstocks.size(); ++i) {
        if (feedstock_id(i) == id) return i;
    }
    return std::nullopt;
}

/// A feedstock of the embedded table with its values, measures and sources.
/// index: below feedstock_count(). Threads: pure.
inline Feedstock feedstock_at(std::size_t index) {
    const table::Feedstock& record = table::feedstocks[index];
    Feedstock feedstock;
    feedstock.id = record.id;
    feedstock.name = record.name;
    feedstock.note = record.note;
    feedstock.preparation_hint = record.preparation;
    feedstock.group = record.group;
    feedstock.roles = record.roles;
    feedstock.stance = record.stance;
    feedstock.heap_stance = record.heap_stance;
    if (record.stance_pre_composted != record.stance)
        feedstock.stance_pre_composted = record.stance_pre_composted;
    feedstock.why_barred = record.why_barred;
    feedstock.instead = record.instead;
    feedstock.sold_as = record.sold_as;
    feedstock.decay_class = record.decay_class;
    feedstock.cautions = record.cautions;
    if (record.most_wet_grams_per_kg_worms > 0.0) {
        feedstock.most_wet_kg_per_kg_worms = record.most_wet_grams_per_kg_worms / 1000.0;
        feedstock.most_sources = table::citations[record.most_citation].sources;
        feedstock.most_reason = record.most_reason;
    }
    for (std::size_t i = 0; i < record.value_count; ++i) {
        const table::Value& value = table::values[record.first_value + i];
        const table::Citation& citation = table::citations[value.citation];
        feedstock[value.property] =
            Datum{value.value,       value.low,        value.high,     value.grade,
                  value.range_grade, citation.sources, citation.method};
    }
    feedstock.measures.reserve(record.measure_count);
    for (std::size_t i = 0; i < record.measure_count; ++i) {
        const table::MeasureValue& measure = table::measures[record.first_measure + i];
        feedstock.measures.push_back({measure.measure, wet_grams(measure.wet_grams), measure.grade,
                                      table::citations[measure.citation].sources,
                                      measure.low_grams / measure.wet_grams,
                                      measure.high_grams / measure.wet_grams});
    }
    return feedstock;
}

/// The citation of a source id ("USDA-SR26"), or nothing. Sources are sorted by id.
constexpr const table::Source* find_source(std::string_view id) noexcept {
    for (const auto& source : table::sources) {
        if (std::string_view(source.id) == id) return &source;
    }
    return nullptr;
}

}  // namespace feed
