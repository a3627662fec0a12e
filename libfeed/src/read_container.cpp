#include "read_container.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "feed/bed/bed_borders.hpp"
#include "feed/bed/bed_keys.hpp"
#include "feed/feedstock/names.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "note_text.hpp"

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
                                              {"bathtub", ContainerKind::bath},
                                              {"tower", ContainerKind::tray},
                                              {"barrel", ContainerKind::tote},
                                              {"drum", ContainerKind::tote},
                                              {"half barrel", ContainerKind::tote},
                                              {"dustbin", ContainerKind::tote},
                                              {"trough", ContainerKind::box},
                                              {"planter", ContainerKind::box}});

/// Side of the square with the area of a circle of diameter 1: sqrt(pi) / 2.
constexpr double square_side_per_diameter = 0.88622692545275801;

class ContainerReader {
public:
    explicit ContainerReader(Reading& reading) : reading_(reading) {}

    /// "tote", "a bucket", "60 L tote", "3 trays" or "60 x 40 x 30 cm box".
    void read(YamlView at, const std::string& field) {
        if (at.is_mapping()) return read_mapping(at, field);
        const auto written = reading_.scalar(at, field);
        if (!written) return;
        const std::string_view text = bare(*written);
        if (read_stack(at, field, text)) return;
        if (read_number(text)) return read_sized(at, field, text);
        if (const auto kind = kind_of(text))
            container_.kind = *kind;
        else if (const auto word = reading_.word(at, field, container_names))
            container_.kind = *word;  // a slip of one, or an error
    }

    const BedContainer& container() const noexcept { return container_; }

private:
    /// "a 10 gallon tote outdoors": neither whose it is nor where it stands is read here.
    static std::string_view bare(std::string_view text) {
        text = detail::trim(text);
        for (const std::string_view place :
             {"outdoors", "outside", "indoors", "inside", "with a lid", "with lid", "in the garage",
              "in the shed", "in the cellar", "in the kitchen", "on the balcony"})
            text = without_end(text, place).value_or(text);
        const auto blank = text.find(' ');
        if (blank == std::string_view::npos) return text;
        const std::string first = plain_text(text.substr(0, blank));
        const bool owner = detail::is_joining_word(first) || first == "our" || first == "one";
        return owner ? detail::trim(text.substr(blank + 1)) : text;
    }

    /// "60 L tote", "18 gal", "60 x 40 x 30 cm box". A size alone is that of the usual tote.
    void read_sized(YamlView at, const std::string& field, std::string_view text) {
        std::string_view size = text;
        for (const auto& known : container_names) {
            const bool ends =
                text.size() > known.word.size() + 1 &&
                plain_text(text.substr(text.size() - known.word.size())) == known.word &&
                text[text.size() - known.word.size() - 1] == ' ';
            if (!ends || text.size() - known.word.size() > size.size()) continue;
            size = detail::trim(text.substr(0, text.size() - known.word.size()));
            container_.kind = known.meaning;
        }
        if (std::count(size.begin(), size.end(), 'x') == 2) {
            container_.inside = inside_of(at, field, size);
            return;
        }
        const auto volume = parse_quantity(size, QuantityKind::volume);
        if (!volume && size.size() == text.size())
            return reading_.report(
                at,
                offered(make_error(ErrorCode::out_of_range, field, "",
                                   "a size and a kind, such as 60 L tote or 18 gal box",
                                   "\"" + std::string(text) + "\" is no size with a kind of bin"),
                        "; write for instance ", {"60 L tote"}));
        if (!volume) return reading_.adopt(at, field, volume.errors());
        if (reading_.holds(at, field, *volume, borders::volume))
            container_.volume = litres(*volume);
    }

    /// "3 trays": so many working ones on top of each other. Whether it is that.
    bool read_stack(YamlView at, const std::string& field, std::string_view text) {
        const auto blank = text.find(' ');
        if (blank == std::string_view::npos || !read_number(text.substr(0, blank))) return false;
        const std::string kind = plain_text(text.substr(blank + 1));
        if (kind != "trays" && kind != "tray" && kind != "stacked trays") return false;
        container_.kind = ContainerKind::tray;
        read_stacked(at, field, text.substr(0, blank));
        return true;
    }

    void read_stacked(YamlView at, const std::string& field, std::string_view text) {
        const auto number = parse_whole(text, static_cast<int>(borders::stacked.lowest),
                                        static_cast<int>(borders::stacked.highest));
        if (number)
            container_.stacked = *number;
        else
            reading_.adopt(at, field, number.errors());
    }

    static std::optional<ContainerKind> kind_of(std::string_view text) {
        const std::string said = plain_text(text);
        for (const auto& known : container_names)
            if (said == known.word) return known.meaning;
        return std::nullopt;
    }

    void read_mapping(YamlView at, const std::string& field) {
        const Section section(reading_, at, field, keys::container);
        BedContainer& container = container_;
        if (const auto kind = section.find("kind")) {
            if (const auto word = reading_.word(*kind, section.field("kind"), container_names))
                container.kind = *word;
        }
        if (const auto inside = section.find("inside"))
            read_inside(*inside, section.field("inside"));
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
    void read_inside(YamlView at, const std::string& field) {
        const auto text = reading_.scalar(at, field);
        if (text) container_.inside = inside_of(at, field, *text);
    }

    std::optional<InsideSize> inside_of(YamlView at, const std::string& field,
                                        std::string_view text) {
        std::array<std::string, 3> parts;
        std::size_t count = 0;
        auto rest = text;
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

    Reading& reading_;
    BedContainer container_;
};

}  // namespace

BedContainer read_container(Reading& reading, YamlView at, const std::string& field) {
    ContainerReader reader(reading);
    reader.read(at, field);
    return reader.container();
}

}  // namespace feed::io
