#include "feed/bed/hazard.hpp"
#include "feed/io/bed_work_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::io {

void write_range(JsonWriter& json, std::string_view key, const Ranged& range) {
    json.key(key);
    write_quantity(json, known(range.value, range.low, range.high, Grade::d));
}

namespace {

void write_levels(JsonWriter& json, std::string_view key,
                  const std::array<Level, hazard_count>& levels) {
    json.key(key);
    json.begin_object();
    for (std::size_t h = 0; h < hazard_count; ++h)
        json.member(text(static_cast<Hazard>(h)), text(levels[h]));
    json.end_object();
}

void write_change(JsonWriter& json, const BedChange& change, UnitSystem units) {
    json.begin_object();
    json.member("taken_l", 1000.0 * change.taken_m3);
    json.member("taken_share", change.taken_share);
    json.member("worms_went_too", change.worms_went_too);
    json.member("flushed_kg", change.flushed_kg);
    json.key("bedding");
    json.begin_array();
    for (const Portion& portion : change.bedding) {
        json.begin_object();
        json.member("feedstock", portion.feedstock->id);
        json.member("wet_mass_kg", portion.wet_mass.in_kilograms());
        json.end_object();
    }
    json.end_array();
    json.member("water_kg", change.water_kg);
    json.member("note", note_of(change, units));
    json.end_object();
}

void write_after(JsonWriter& json, const BedAfter& after) {
    json.key("change");
    write_change(json, after.change, after.ration.units);
    write_levels(json, "before", after.before);
    write_levels(json, "after", after.after);
    json.member("salt_before", after.salt_before);
    json.member("salt_after", after.salt_after);
    json.member("wetness_before", after.wetness_before);
    json.member("wetness_after", after.wetness_after);
    json.member("two_weeks_kg", after.two_weeks_kg);
    json.key("ration_after");
    write_ration(json, after.ration);
}

void write_record(JsonWriter& json, const HarvestRecord& record) {
    json.key("harvests");
    json.begin_array();
    for (const PastHarvest& one : record.harvests) {
        json.begin_object();
        json.member("days_ago", one.days_ago);
        json.member("taken_l", one.taken_l);
        json.member("expected_l", one.expected_l);
        json.end_object();
    }
    json.end_array();
    json.member("own_factor", record.factor);
}

}  // namespace

std::string to_json(const HarvestAnswer& answer) {
    JsonWriter json;
    json.begin_object();
    const HarvestTime& time = answer.time;
    json.member("act_first", is_left_alone(answer.ration));
    json.member("day", time.day);
    json.member("earliest_day", time.earliest);
    json.member("latest_day", time.latest);
    json.member("by_room", time.by_room);
    json.member("castings_share", time.turned);
    json.member("cn_ratio", time.cn_ratio);
    json.member("age_days", time.age_known ? std::optional(time.age_days) : std::nullopt);
    json.member("depth_m", time.depth_m);
    json.member("too_small", answer.too_small);
    json.member("way", text(answer.way));
    write_range(json, "castings_l", answer.castings.volume_l);
    write_range(json, "castings_wet_kg", answer.castings.wet_kg);
    write_record(json, answer.record);
    json.key("ways");
    json.begin_array();
    for (const HarvestWayKind& kind : harvest_ways) {
        json.begin_object();
        json.member("way", text(kind.way));
        write_range(json, "worms_kept", Ranged(kind.worms_kept));
        json.member("days_least", kind.least_days);
        json.member("days_most", kind.most_days);
        json.member("source", kind.worms_kept.source);
        json.end_object();
    }
    json.end_array();
    json.key("ration");
    write_ration(json, answer.ration);
    write_after(json, answer.after);
    write_texts(json, "text", harvest_lines(answer, answer.ration.units, ""));
    json.end_object();
    return json.take();
}

std::string to_json(const RefreshAnswer& answer, const RefreshOptions& options) {
    JsonWriter json;
    json.begin_object();
    json.member("refresh", text(answer.change));
    json.member("verdict", text(answer.verdict));
    json.member("share", answer.change == RefreshChange::bedding ? answer.share : options.share);
    json.key("days");
    json.begin_array();
    for (const BedChange& day : answer.days)
        write_change(json, day, answer.today.units);
    json.end_array();
    json.member("feed_on_day", answer.feed_on);
    json.member("layer_l", answer.leaf_layer_l);
    json.key("ration");
    write_ration(json, answer.today);
    write_after(json, answer.after);
    write_texts(json, "text", refresh_lines(answer, options, answer.today.units, ""));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
