#include "feed/io/new_bin_text.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <string_view>

#include "crowding_words.hpp"
#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/io/human_text.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::io {
namespace {

/// What goes first where there is no room; 0 never does.
struct NewBinLine {
    enum : int { stays, later, skip, more_water, depth };
};

Date day_of_setting_up(const NewBin& bin) {
    return date_of(day_number(bin.bed_date) - bin.worms_in);
}

std::string day_text(const NewBin& bin, int day, UnitSystem units) {
    return day_words(day_of_setting_up(bin), day, units);
}

/// "1 handful, about 60 g".
std::string scraps_measure(const Ration& ration, UnitSystem units) {
    const auto handful = parse_amount("1 handful");
    for (const PutIn& put : ration.put_in) {
        if (put.part != Part::scraps || !handful) continue;
        // Nobody measures seven eighths of a handful.
        const auto one = wet_mass_of(*handful, *put.thing.feedstock);
        if (!one) continue;
        const double halves = 2.0 * ration.scraps.in_kilograms() / one->wet_mass.in_kilograms();
        if (std::abs(std::round(halves) - halves) > 0.05 * halves) continue;
        return measure_and_weight_text(ration.scraps, *put.thing.feedstock, *handful, units);
    }
    return mass_text(ration.scraps.mass(), units);
}

/// What is laid in: one thing with its weight, of several the measures alone, three a sentence.
void add_materials(const NewBin& bin, UnitSystem units, std::vector<ScreenLine>& lines) {
    if (bin.bedding.size() == 1) {
        const PutIn& put = bin.bedding.front();
        lines.push_back({"Take " + material_text(put, units) +
                         (put.thing.at_hand ? "." : ", or any dry bedding.")});
        return;
    }
    for (std::size_t from = 0; from < bin.bedding.size(); from += 3) {
        std::vector<std::string> parts;
        for (std::size_t i = from; i < std::min(bin.bedding.size(), from + 3); ++i) {
            const PutIn& put = bin.bedding[i];
            const Feedstock& f = *put.thing.feedstock;
            parts.push_back(measure_text(put.wet_mass, f, std::nullopt, units) + " of " +
                            plain_name(put.thing.label, f));
        }
        lines.push_back({(from == 0 ? "Take " : "Add ") + joined(parts) + ", and mix."});
    }
}

/// What is sold dry and counts as soaked where nobody said how it is: a keeper of dry bricks has to
/// be told.
void add_soaked(std::span<const PutIn> bedding, std::vector<ScreenLine>& lines) {
    for (const PutIn& put : bedding) {
        const Feedstock& f = *put.thing.feedstock;
        const auto sold = feed::detail::sold_form(f);
        if (!sold || says_how_wet(put.thing.label)) continue;
        const std::string name = plain_name(put.thing.label, f);
        const Feedstock as_sold = feedstock_at(*sold);
        const std::string dry = "dry " + name;
        const auto meant = find_thing(dry);
        const bool reads_back = meant && same_material(*meant->feedstock, as_sold);
        lines.push_back({capital(name) + " counts as soaked here. Is yours dry? Then write " +
                         (reads_back ? dry : name_to_type(as_sold)) + "."});
    }
}

/// Whether the bedding as it is measured out would not go into the bin: it has to be packed down.
bool is_packed(const NewBin& bin) {
    constexpr double bin_over_contents = 2.0;  // two thirds of a bin are filled; some heap it up
    double loose_m3 = 0.0;
    for (const PutIn& put : bin.bedding)
        loose_m3 +=
            put.wet_mass.in_kilograms() / feed::detail::loose_kg_per_m3(*put.thing.feedstock);
    return loose_m3 > bin_over_contents * completed(bin.bed).contents.value();
}

void add_bedding(const NewBin& bin, UnitSystem units, std::vector<ScreenLine>& lines) {
    const std::string at_hand = length_text(bin.depth_at_hand, units);
    if (bin.depth_serves == BedDepth::too_shallow) {
        lines.push_back({"There is too little bedding: a bed " + at_hand + " deep."});
        for (const PutIn& put : bin.missing)
            lines.push_back({"Get " + material_text(put, units) + " more first, and mix it all."});
        add_soaked(bin.bedding, lines);
        return;
    }
    add_materials(bin, units, lines);
    add_soaked(bin.bedding, lines);
    if (bin.depth_serves != BedDepth::shallow) {
        const std::string deep = length_text(bin.depth, units) + " deep.";
        if (is_packed(bin))
            lines.push_back({"Damp, it packs down to a bed about " + deep});
        else
            lines.push_back({"That makes a bed about " + deep, NewBinLine::depth});
        return;
    }
    lines.push_back({"The bed will be " + at_hand + " deep: shallow, but it serves."});
    for (const PutIn& put : bin.missing)
        lines.push_back({"Add " + material_text(put, units) + " more when you have it."});
}

void add_water(const NewBin& bin, UnitSystem units, std::vector<ScreenLine>& lines) {
    if (bin.water_kg > 0.0)
        lines.push_back({"Mix in " + volume_text(litres(bin.water_kg), units) +
                         " of water, half of it first. Let it stand overnight."});
    else
        lines.push_back({"It needs no water. Let it stand overnight."});
    lines.push_back({"Squeeze a handful: one or two drops are right."});
    if (bin.more_water_kg > 0.0)
        lines.push_back({"If none comes, add water bit by bit, up to " +
                             volume_text(litres(bin.more_water_kg), units) + " more.",
                         NewBinLine::more_water});
}

void add_rations(const NewBin& bin, UnitSystem units, std::vector<ScreenLine>& lines) {
    if (bin.rations.empty()) {
        lines.push_back({"Do not feed yet: ask feed ration once the worms are in."});
        return;
    }
    const FirstRation& first = bin.rations.front();
    lines.push_back({"Feed nothing until " + day_text(bin, first.day, units) + ", then " +
                     scraps_measure(first.ration, units) + " of soft scraps."});
    std::vector<std::string> later;
    for (std::size_t i = 1; i < bin.rations.size(); ++i) {
        if (later.size() == 4) break;
        later.push_back(mass_text(bin.rations[i].ration.scraps.mass(), units) + " " +
                        day_text(bin, bin.rations[i].day, units));
    }
    if (later.empty()) return;
    std::string list = "Then " + later.front();
    constexpr std::size_t in_a_sentence = 3;  // more would be a long one
    for (std::size_t i = 1; i < later.size(); ++i)
        list += (i % in_a_sentence == 0 ? ". Then " : ", ") + later[i];
    lines.push_back({list + ".", NewBinLine::later});
    lines.push_back({"If the last is not mostly gone, wait.", NewBinLine::skip});
}

/// Where the bin stands too warm or too cold for worms: that none goes in yet. Else "".
std::string unfit_warmth(const CompletedBed& bed, UnitSystem units) {
    const SpeciesLimits& bears = limits_of(bed.species);
    if (!bed.temperature_given ||
        (bed.temperature > bears.coldest && bed.temperature < bears.warmest))
        return "";
    return "Put no worms in yet: at " + temperature_text(bed.temperature, units) +
           " they die. Wait until it is between " + temperature_text(bears.optimum_low, units) +
           " and " + temperature_text(bears.optimum_high, units) + ".";
}

std::vector<ScreenLine> screen_lines(const NewBin& bin, UnitSystem units) {
    std::vector<ScreenLine> lines;
    for (std::string& line : never_lines(bin.take_out))
        lines.push_back({std::move(line)});
    const CompletedBed bed = completed(bin.bed);
    lines.push_back({crowded_text(bed, units)});
    add_bedding(bin, units, lines);
    add_water(bin, units, lines);
    lines.push_back({"Add " + counted(static_cast<std::size_t>(bin.grit_handfuls), "handful") +
                     " each of soil or sand and of old castings."});
    if (const std::string weather = unfit_warmth(bed, units); !weather.empty()) {
        lines.push_back({weather});
        lines.push_back({"Write its temperature then: feed note, and feed ration says the rest."});
        return lines;
    }
    const std::string day = day_text(bin, bin.worms_in, units);
    lines.push_back({bin.heating.empty()
                         ? "Put the worms in on " + day + ", if it feels cool."
                         : "Damp " + bin.heating.front() + " heats: put the worms in on " + day +
                               ", once it feels cool."});
    add_rations(bin, units, lines);
    return lines;
}

}  // namespace

std::vector<std::string> new_bin_lines(const NewBin& bin, UnitSystem units, ScreenRoom room) {
    return fitting(screen_lines(bin, units), room);
}

void write_new_bin(JsonWriter& json, const NewBin& bin, UnitSystem units) {
    json.begin_object();
    write_take_out(json, bin.take_out);
    write_put_in(json, "bedding", bin.bedding);
    json.member("water_kg", bin.water_kg);
    json.member("more_water_kg", bin.more_water_kg);
    json.key("wetness");
    write_quantity(json, known(bin.wetness.value, bin.wetness.low, bin.wetness.high, Grade::d));
    json.member("depth_at_hand_m", in_metres(bin.depth_at_hand));
    json.member("depth_m", in_metres(bin.depth));
    json.member("aimed_depth_m", in_metres(bin.aimed_depth));
    json.member("depth_serves", text(bin.depth_serves));
    write_put_in(json, "missing", bin.missing);
    json.member("grit_handfuls", bin.grit_handfuls);
    json.member("castings_handfuls", bin.castings_handfuls);
    write_texts(json, "heating", bin.heating);
    json.key("worms_in");
    json.begin_object();
    json.member("day", bin.worms_in);
    json.member("date", text(bin.bed_date));
    json.end_object();
    json.key("rations");
    json.begin_array();
    for (const FirstRation& one : bin.rations) {
        json.begin_object();
        json.member("day", one.day);
        json.member("date", text(date_of(day_number(day_of_setting_up(bin)) + one.day)));
        json.member("scraps_kg", one.ration.scraps.in_kilograms());
        json.member("measure", scraps_measure(one.ration, units));
        write_put_in(json, "put_in", one.ration.put_in);
        json.end_object();
    }
    json.end_array();
    write_texts(json, "text", new_bin_lines(bin, units));
    json.key("assumed");
    write_assumed(json, bin.assumed);
    json.end_object();
}

void write_started(JsonWriter& json, const StartedBin& started, UnitSystem units) {
    json.member("text", started.text);
    json.key("new_bin");
    if (started.to_set_up)
        write_new_bin(json, *started.to_set_up, units);
    else
        json.null();
}

}  // namespace feed::io
