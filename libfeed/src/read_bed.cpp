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

namespace feed::io {
namespace {

constexpr auto container_names =
    words_for<ContainerKind>(container_keys, {{"trays", ContainerKind::tray},
                                              {"stacked trays", ContainerKind::tray},
                                              {"tray stack", ContainerKind::tray},
                                              {"wormery", ContainerKind::tray},
                                              {"flow-through bin", ContainerKind::flow_through},
                                              {"wooden box", ContainerKind::box},
                                              {"crate", ContainerKind::box},
                                              {"bin", ContainerKind::tote},
                                              {"worm bin", ContainerKind::tote},
                                              {"worm farm", ContainerKind::tray},
                                              {"wheelie bin", ContainerKind::tote},
                                              {"storage box", ContainerKind::tote},
                                              {"storage tote", ContainerKind::tote},
                                              {"plastic box", ContainerKind::tote},
                                              {"plastic bin", ContainerKind::tote},
                                              {"plastic tub", ContainerKind::tote},
                                              {"plastic tote", ContainerKind::tote},
                                              {"tub", ContainerKind::tote},
                                              {"pail", ContainerKind::bucket},
                                              {"bathtub", ContainerKind::bath}});
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

/// Side of the square with the area of a circle of diameter 1: sqrt(pi) / 2.
constexpr double square_side_per_diameter = 0.88622692545275801;

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
        if (const auto at = section_.find("container")) read_container(*at);
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

    /// "3 trays": so many working ones on top of each other. Whether it is that.
    bool read_stack(YamlView at, const std::string& field, std::string_view text) {
        const auto blank = text.find(' ');
        if (blank == std::string_view::npos || !read_number(text.substr(0, blank))) return false;
        const std::string kind = plain_text(text.substr(blank + 1));
        if (kind != "trays" && kind != "tray" && kind != "stacked trays") return false;
        bed_.container.kind = ContainerKind::tray;
        read_stacked(at, field, text.substr(0, blank));
        return true;
    }

    void read_stacked(YamlView at, const std::string& field, std::string_view text) {
        const auto number = parse_whole(text, static_cast<int>(borders::stacked.lowest),
                                        static_cast<int>(borders::stacked.highest));
        if (number)
            bed_.container.stacked = *number;
        else
            reading_.adopt(at, field, number.errors());
    }

    /// The kind of "a bucket", "my tote".
    static std::optional<ContainerKind> after_article(std::string_view text) {
        const auto blank = text.find(' ');
        if (blank == std::string_view::npos) return std::nullopt;
        const std::string first = plain_text(text.substr(0, blank));
        if (!detail::is_joining_word(first) && first != "our" && first != "one")
            return std::nullopt;
        const std::string kind = plain_text(text.substr(blank + 1));
        for (const auto& known : container_names)
            if (kind == known.word) return known.meaning;
        return std::nullopt;
    }

    /// "tote", "a bucket", "60 L tote" or "3 trays".
    void read_container(YamlView at) {
        const auto field = section_.field("container");
        BedContainer& container = bed_.container;
        if (at.is_mapping()) return read_container_mapping(at, field);
        const auto text = reading_.scalar(at, field);
        if (!text || read_stack(at, field, *text)) return;
        if (!read_number(*text)) {
            if (const auto kind = after_article(*text)) {
                container.kind = *kind;
                return;
            }
            if (const auto kind = reading_.word(at, field, container_names)) container.kind = *kind;
            return;
        }
        // A size alone is that of the usual tote.
        std::string_view size = *text;
        for (const auto& known : container_names) {
            const bool ends = text->size() > known.word.size() + 1 &&
                              text->substr(text->size() - known.word.size()) == known.word &&
                              (*text)[text->size() - known.word.size() - 1] == ' ';
            if (!ends || text->size() - known.word.size() > size.size()) continue;
            size = detail::trim(text->substr(0, text->size() - known.word.size()));
            container.kind = known.meaning;
        }
        const auto volume = parse_quantity(size, QuantityKind::volume);
        if (!volume && size.size() == text->size())
            return reading_.report(
                at,
                offered(make_error(ErrorCode::out_of_range, field, "",
                                   "a size and a kind, such as 60 L tote or 18 gal box",
                                   "\"" + std::string(*text) + "\" is no size with a kind of bin"),
                        "; write for instance ", {"60 L tote"}));
        if (!volume) return reading_.adopt(at, field, volume.errors());
        if (reading_.holds(at, field, *volume, borders::volume)) container.volume = litres(*volume);
    }

    void read_container_mapping(YamlView at, const std::string& field) {
        const Section section(reading_, at, field, keys::container);
        BedContainer& container = bed_.container;
        if (const auto kind = section.find("kind")) {
            if (const auto word = reading_.word(*kind, section.field("kind"), container_names))
                container.kind = *word;
        }
        if (const auto inside = section.find("inside"))
            container.inside = read_inside(*inside, section.field("inside"));
        const auto length = [&](keys::Key key, const Border& border) -> std::optional<double> {
            const auto value = section.find(key);
            return value
                       ? reading_.quantity(*value, section.field(key), QuantityKind::length, border)
                       : std::nullopt;
        };
        const auto diameter = length("diameter", borders::inside_width);
        const auto depth = length("depth", borders::inside_depth);
        if (diameter && depth) {
            const auto side = metres(*diameter * square_side_per_diameter);
            container.inside = InsideSize{side, side, metres(*depth)};
        } else if (section.find("diameter") && !section.find("depth")) {
            reading_.report(at, ErrorCode::missing_value, section.field("depth"), "depth: 30 cm",
                            "a diameter needs the inside depth beside it");
        } else if (section.find("depth") && !section.find("diameter")) {
            reading_.report(at, ErrorCode::missing_value, section.field("diameter"),
                            "inside: 60 x 40 x 30 cm, or diameter and depth",
                            "a depth alone is no size");
        }
        if (const auto volume = section.find("volume")) {
            if (const auto number = reading_.quantity(*volume, section.field("volume"),
                                                      QuantityKind::volume, borders::volume))
                container.volume = litres(*number);
        }
        if (const auto stacked = section.find("stacked")) {
            const auto text = reading_.scalar(*stacked, section.field("stacked"));
            if (text) read_stacked(*stacked, section.field("stacked"), *text);
        }
    }

    /// "60 x 40 x 30 cm" or "60 cm x 40 cm x 30 cm".
    std::optional<InsideSize> read_inside(YamlView at, const std::string& field) {
        const auto text = reading_.scalar(at, field);
        if (!text) return std::nullopt;
        std::array<std::string, 3> parts;
        std::size_t count = 0;
        auto rest = *text;
        for (;;) {
            const auto cross = rest.find('x');
            if (count < 3) parts[count] = std::string(detail::trim(rest.substr(0, cross)));
            ++count;
            if (cross == std::string_view::npos) break;
            rest = rest.substr(cross + 1);
        }
        if (count != 3) {
            reading_.report(at, ErrorCode::wrong_type, field, "LENGTH x WIDTH x DEPTH, inside",
                            "three lengths are due here, such as 60 x 40 x 30 cm");
            return std::nullopt;
        }
        const auto last = read_number(parts[2]);
        const auto unit = last ? parts[2].substr(last->length) : std::string();
        std::array<double, 3> sides{};
        for (std::size_t i = 0; i < 3; ++i) {
            if (parse_number(parts[i])) parts[i] += unit;
            const auto side = parse_quantity(parts[i], QuantityKind::length);
            if (!side) {
                reading_.adopt(at, field, side.errors());
                return std::nullopt;
            }
            constexpr std::array<Border, 3> border{borders::inside_length, borders::inside_width,
                                                   borders::inside_depth};
            if (!reading_.holds(at, field, *side, border[i])) return std::nullopt;
            sides[i] = *side;
        }
        return InsideSize{metres(sides[0]), metres(sides[1]), metres(sides[2])};
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
