#include "feed/feedstock/plain_name.hpp"
#include "feed/io/to_json.hpp"
#include "feed/io/worms_answer.hpp"

namespace feed::io {
namespace {

void write_census(JsonWriter& json, const WormCensus& census, const CensusInput& in) {
    json.begin_object();
    json.member("samples", static_cast<std::int64_t>(census.samples));
    json.member("counted", census.counted);
    write_range(json, "sample_l", in.sample_l);
    json.member("bed_l", in.bed_l);
    write_range(json, "worms_a_litre", census.a_litre);
    write_range(json, "worms", census.number);
    write_range(json, "worms_kg", census.mass_kg);
    json.member("clumping", census.clumping);
    json.member("samples_to_halve",
                census.samples_to_halve
                    ? std::optional(static_cast<std::int64_t>(*census.samples_to_halve))
                    : std::nullopt);
    json.end_object();
}

void write_expected(JsonWriter& json, const HouseholdScraps& expected) {
    json.begin_object();
    write_range(json, "fed_kg", expected.fed_kg);
    write_range(json, "not_fed_kg", expected.not_fed_kg);
    json.key("kinds");
    json.begin_array();
    for (std::size_t kind = 0; kind < expected.kinds_kg.size(); ++kind) {
        json.begin_object();
        json.member("kind", HouseholdScraps::name(kind));
        json.member("fed", HouseholdScraps::fed(kind));
        write_range(json, "wet_mass_kg", expected.kinds_kg[kind]);
        json.member("source", kind == household::grounds ? household::coffee_a_cup_kg.source
                                                         : household::kinds[kind].source);
        json.end_object();
    }
    json.end_array();
    json.member("source", household::a_person_kg.source);
    json.end_object();
}

void write_too_much(JsonWriter& json, const std::vector<Rest>& too_much) {
    json.key("at_most");
    json.begin_array();
    for (const Rest& one : too_much) {
        json.begin_object();
        json.member("label", one.thing.name());
        json.member("week_kg", one.wet_mass.in_kilograms());
        json.end_object();
    }
    json.end_array();
}

void write_growth(JsonWriter& json, const WormGrowth& growth, bool asked) {
    json.member("grown_day", asked ? growth.day : std::nullopt);
    json.member("grown_earliest_day", asked ? growth.earliest : std::nullopt);
    json.member("grown_latest_day", asked ? growth.latest : std::nullopt);
    json.key("growth");
    json.begin_array();
    for (std::size_t i = 0; i < growth.mass_kg.size(); ++i) {
        json.begin_object();
        json.member("day", static_cast<std::int64_t>(i) * growth::told_each_days);
        write_range(json, "worms_kg", growth.mass_kg[i]);
        json.end_object();
    }
    json.end_array();
    json.member("learned_from", static_cast<std::int64_t>(growth.learned_from));
}

void write_need(JsonWriter& json, const WormNeed& need) {
    json.begin_object();
    write_take_out(json, need.take_out);
    json.member("scraps_kg", need.scraps_kg);
    write_too_much(json, need.too_much);
    json.member("start_worms_kg", need.start_kg);
    json.member("start_surface_m2", need.start_surface_m2);
    json.member("start_week_kg", need.start_takes_kg);
    json.member("worms_kg", need.worms_kg);
    json.member("surface_m2", need.surface_m2);
    write_growth(json, need.growth, need.worms_kg > 0.0);
    json.end_object();
}

void write_bin(JsonWriter& json, const BinNow& bin) {
    json.begin_object();
    write_take_out(json, bin.take_out);
    json.member("week_kg", bin.ration.week.in_kilograms());
    json.member("most_week_kg", bin.most_kg);
    write_range(json, "worms_kg", bin.worms_kg);
    json.member("weighed_days_ago", bin.weighed_days_ago);
    json.member("surface_m2", bin.surface_m2);
    json.member("scraps_kg", bin.scraps_kg);
    write_too_much(json, bin.too_much);
    json.member("wanted_worms_kg",
                bin.wanted_kg > 0.0 ? std::optional(bin.wanted_kg) : std::nullopt);
    write_growth(json, bin.growth, bin.wanted_kg > 0.0);
    json.key("ration");
    write_ration(json, bin.ration);
    json.end_object();
}

}  // namespace

std::string to_json(const WormsAnswer& answer) {
    JsonWriter json;
    json.begin_object();
    json.key("need");
    answer.need ? write_need(json, *answer.need) : json.null();
    json.key("bin");
    answer.bin ? write_bin(json, *answer.bin) : json.null();
    json.key("census");
    answer.census ? write_census(json, *answer.census, *answer.counted) : json.null();
    json.key("expected");
    answer.expected ? write_expected(json, *answer.expected) : json.null();
    json.key("assumed");
    write_assumed(json, answer.assumed);
    write_texts(json, "text", worms_lines(answer, ""));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
