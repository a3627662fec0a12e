#include "read_bed.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "feed/bed/bed_borders.hpp"
#include "feed/bed/bed_keys.hpp"
#include "feed/diary/seen.hpp"
#include "feed/feedstock/names.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "read_container.hpp"

namespace feed::io {
namespace {

constexpr auto species_names =
    words_for<Species>(species_keys, {{"eisenia andrei", Species::eisenia_fetida},
                                      {"e. fetida", Species::eisenia_fetida},
                                      {"e. andrei", Species::eisenia_fetida},
                                      {"red wiggler", Species::eisenia_fetida},
                                      {"red wigglers", Species::eisenia_fetida},
                                      {"tiger worms", Species::eisenia_fetida},
                                      {"e. hortensis", Species::eisenia_hortensis},
                                      {"dendrobaena veneta", Species::eisenia_hortensis},
                                      {"european nightcrawlers", Species::eisenia_hortensis},
                                      {"p. excavatus", Species::perionyx_excavatus},
                                      {"indian blues", Species::perionyx_excavatus},
                                      {"e. eugeniae", Species::eudrilus_eugeniae},
                                      {"african nightcrawlers", Species::eudrilus_eugeniae}});
constexpr auto drainage_names = words_for<Drainage>(drainage_keys);
constexpr auto lid_names = words_for<Lid>(lid_keys);
constexpr auto ventilation_names = words_for<Ventilation>(ventilation_keys);
constexpr auto known_names = words_for<WormsKnown>(worms_known_keys);

class BedReader {
public:
    BedReader(Pantry& pantry, YamlView at, std::string field)
        : pantry_(pantry),
          reading_(pantry.reading()),
          section_(pantry.reading(), at, std::move(field), keys::bed) {}

    /// Contents deeper than the container that is said to hold them: a heaped bin may stand a
    /// little above its rim.
    void check_depth() {
        const BedContainer& said = bed_.container;
        if (!bed_.depth_of_contents || (!said.inside && !said.volume)) return;
        constexpr double heaped = 1.25;
        Bed only;
        only.container = said;
        const double deepest_m = in_metres(completed(only).inside.depth) * said.stacked;
        if (in_metres(*bed_.depth_of_contents) <= heaped * deepest_m) return;
        reading_.report(*section_.find("depth_of_contents"), ErrorCode::out_of_range,
                        section_.field("depth_of_contents"),
                        "at most " + significant(100.0 * deepest_m, 2) + " cm",
                        "the container is not that deep");
    }

    void read(Diary& diary) {
        Bed& bed = bed_;
        if (const auto at = section_.find("date"))
            date_ = read_date(reading_, *at, section_.field("date"));
        if (const auto at = section_.find("container"))
            bed.container = read_container(reading_, *at, section_.field("container"));
        if (const auto number =
                quantity("depth_of_contents", QuantityKind::length, borders::depth_of_contents))
            bed.depth_of_contents = metres(*number);
        check_depth();
        bed.drainage = word("drainage", drainage_names);
        bed.lid = word("lid", lid_names);
        bed.ventilation = word("ventilation", ventilation_names);
        bed.species = word("species", species_names);
        if (const auto at = section_.find("worms")) read_worms(*at);
        if (const auto at = section_.find("temperature"))
            bed.temperature = read_temperature(reading_, *at, section_.field("temperature"));
        if (const auto at = section_.find("bedding")) {
            for (auto& one : pantry_.portions(*at, section_.field("bedding")))
                bed.bedding.push_back(std::move(one.portion));
        }
        if (const auto at = section_.find("squeeze"))
            bed.squeeze = reading_.word<Squeeze>(*at, section_.field("squeeze"), squeeze_keys,
                                                 SeenKey::squeeze);
        if (const auto number = quantity("moisture", QuantityKind::moisture, borders::moisture))
            bed.moisture = Moisture(*number);
        bed.ph = quantity("ph", QuantityKind::ph, borders::ph);
        if (const auto number = quantity("lime", QuantityKind::weighed, borders::lime))
            bed.lime = kilograms(*number);
        if (const auto number = quantity("age", QuantityKind::duration, borders::age))
            bed.age = days(*number);
        if (const auto number =
                quantity("own_feeding_rate", QuantityKind::rate, borders::own_feeding_rate))
            bed.own_feeding_rate = per_day(*number);
        diary.bed = std::move(bed_);
        diary.bed_date = date_;
    }

private:
    std::optional<double> quantity(keys::Key key, QuantityKind kind, const Border& border) {
        const auto at = section_.find(key);
        return at ? reading_.quantity(*at, section_.field(key), kind, border) : std::nullopt;
    }

    template <class T, std::size_t count>
    std::optional<T> word(keys::Key key, const std::array<WordFor<T>, count>& words) {
        const auto at = section_.find(key);
        return at ? reading_.word(*at, section_.field(key), words) : std::nullopt;
    }

    /// "500 g", "1000 worms", "1 lb as bought".
    void read_worm_keys(YamlView at, const std::string& field) {
        Worms& worms = bed_.worms;
        const Section section(reading_, at, field, keys::worms);
        if (const auto mass = section.find("weight")) {
            if (const auto number = reading_.quantity(*mass, section.field("weight"),
                                                      QuantityKind::mass, borders::worms_wet_mass))
                worms.wet_mass = wet_kilograms(*number);
        }
        if (const auto count = section.find("count")) {
            worms.count = reading_.quantity(*count, section.field("count"), QuantityKind::number,
                                            borders::worms_count);
            worms.known = WormsKnown::counted;
        }
        if (worms.wet_mass) worms.known = WormsKnown::weighed;
        if (const auto known = section.find("known")) {
            if (const auto word = reading_.word(*known, section.field("known"), known_names))
                worms.known = *word;
        }
        if (!section.find("weight") && !section.find("count"))
            reading_.report(at, ErrorCode::missing_value, field, "weight or count",
                            "how many worms are there?");
    }

    void read_worms(YamlView at) {
        const auto field = section_.field("worms");
        Worms& worms = bed_.worms;
        if (at.is_mapping()) return read_worm_keys(at, field);
        const auto text = reading_.scalar(at, field);
        if (!text) return;
        auto rest = detail::trim(*text);
        constexpr std::string_view bought = " as bought";
        bool as_bought = false;
        if (rest.size() > bought.size() && rest.substr(rest.size() - bought.size()) == bought) {
            as_bought = true;
            rest = rest.substr(0, rest.size() - bought.size());
        }
        // Worms are bought by the hundred: a bare number is a count.
        constexpr std::size_t fewest_digits = 2;
        const bool bare = rest.size() >= fewest_digits && rest.front() != '0' &&
                          std::all_of(rest.begin(), rest.end(), detail::is_digit);
        const std::string with_word = bare ? std::string(rest) + " worms" : std::string();
        if (bare) rest = with_word;
        constexpr std::string_view counted = " worms";
        if (rest.size() > counted.size() && rest.substr(rest.size() - counted.size()) == counted) {
            const auto number =
                parse_quantity(rest.substr(0, rest.size() - counted.size()), QuantityKind::number);
            if (!number) return reading_.adopt(at, field, number.errors());
            if (!reading_.holds(at, field, *number, borders::worms_count)) return;
            worms.count = *number;
            worms.known = as_bought ? WormsKnown::as_bought : WormsKnown::counted;
            return;
        }
        const auto mass = parse_quantity(rest, QuantityKind::mass);
        if (!mass) {
            auto errors = mass.errors();
            if (errors[0].code == ErrorCode::unit_missing)
                errors[0] = offered(std::move(errors[0]), "; write ",
                                    {std::string(rest) + " worms"}, " for a count");
            return reading_.adopt(at, field, errors);
        }
        if (!reading_.holds(at, field, *mass, borders::worms_wet_mass)) return;
        worms.wet_mass = wet_kilograms(*mass);
        worms.known = as_bought ? WormsKnown::as_bought : WormsKnown::weighed;
    }

    Pantry& pantry_;
    Reading& reading_;
    Section section_;
    Bed bed_;
    std::optional<Date> date_;
};

/// What people say who have no thermometer in the bin, with the range they may mean (common
/// practice: a room, an unheated room or cellar, a shed in winter, a warm room in summer). "Hot" is
/// asked about: heat is a hazard, and its answer needs the number.
std::optional<TemperatureRange> warmth_said(std::string_view words) {
    struct Warmth {
        std::string_view word;
        double low_c, high_c;
    };
    constexpr Warmth said[] = {{"room temperature", 16.0, 24.0},
                               {"room temp", 16.0, 24.0},
                               {"room", 16.0, 24.0},
                               {"indoors", 16.0, 24.0},
                               {"inside", 16.0, 24.0},
                               {"mild", 14.0, 20.0},
                               {"cool", 10.0, 16.0},
                               {"cold", 4.0, 10.0},
                               {"warm", 24.0, 29.0}};
    const std::string plain = plain_text(words);
    for (const Warmth& one : said)
        if (plain == one.word) return TemperatureRange{celsius(one.low_c), celsius(one.high_c)};
    const SeenRow* row = find_seen(words);
    if (row != nullptr && row->name == said[0].word)
        return TemperatureRange{celsius(said[0].low_c), celsius(said[0].high_c)};
    return std::nullopt;
}

}  // namespace

std::optional<Date> read_date(Reading& reading, YamlView at, const std::string& field) {
    const auto text = reading.scalar(at, field);
    if (!text) return std::nullopt;
    if (const auto date = parse_date(*text)) return date;
    reading.report(
        at, offered(make_error(ErrorCode::out_of_range, field, "",
                               "a day such as 2026-03-14 (year-month-day)",
                               "this is not a day of the calendar written as year-month-day"),
                    "; write for instance ", {"2026-03-14"}));
    return std::nullopt;
}

BedTemperature read_temperature(Reading& reading, YamlView at, const std::string& field) {
    if (at.is_sequence()) {
        DailyTemperatures daily;
        if (!reading.fits(at, field, keys::most_temperatures)) return daily;
        at.for_each_item([&](YamlView item) {
            if (const auto number =
                    reading.quantity(item, field, QuantityKind::temperature, borders::temperature))
                daily.push_back(celsius(*number));
        });
        return daily;
    }
    if (at.is_scalar())
        if (const auto said = warmth_said(at.text())) return *said;
    const auto window = reading.window(at, field, QuantityKind::temperature);
    if (!window) return std::monostate();
    for (const auto& end : {window->low, window->high})
        if (end && !reading.holds(at, field, *end, borders::temperature)) return std::monostate();
    if (window->single) return celsius(*window->low);
    if (window->low && window->high)
        return TemperatureRange{celsius(*window->low), celsius(*window->high)};
    reading.report(at, ErrorCode::wrong_type, field,
                   "20 C, 15 C to 25 C, or a list of daily values",
                   "a temperature needs both ends of its range");
    return std::monostate();
}

void read_bed(Pantry& pantry, Diary& diary, YamlView at, std::string field) {
    BedReader(pantry, at, std::move(field)).read(diary);
}

}  // namespace feed::io
