#include "note_words.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "feed/io/quantity_text.hpp"
#include "feed/quantity/number_text.hpp"
#include "feed/quantity/plain_text.hpp"
#include "reading.hpp"

namespace feed::io {
namespace {

// Shares that loose words stand for (D): a keeper who says "mostly" means more than half, and what
// counts as gone is 85 % (limits of the forecast). "Room temperature" is 20 C (common practice).
constexpr double mostly = 0.75;
constexpr double nearly = 0.9;
constexpr double room_c = 20.0;

/// Everyday words for one thing that can be seen, and what they say.
struct Phrase {
    std::string_view words;
    void (*say)(Observation&);
};

template <Smell smell>
void smells(Observation& seen) {
    seen.smell = smell;
}
template <Squeeze squeeze>
void feels(Observation& seen) {
    seen.squeeze = squeeze;
}
template <WormPlace place>
void worms_are(Observation& seen) {
    seen.worms = place;
}
template <WormVigour vigour>
void worms_move(Observation& seen) {
    seen.vigour = vigour;
}
template <FoodGone gone>
void food_is(Observation& seen) {
    seen.gone = gone;
}
template <int percent>
void share_is(Observation& seen) {
    seen.share_gone = percent / 100.0;
}
void water_stands(Observation& seen) {
    seen.pooling = true;
}
void at_room(Observation& seen) {
    seen.temperatures = {{"", celsius(room_c)}};
}

// In the words of people; without "the", "it is" and the like. Of several that mean the same, the
// first is the one that is suggested.
constexpr Phrase phrases[] = {
    {"smell earthy", smells<Smell::earthy>},
    {"smell of earth", smells<Smell::earthy>},
    {"smell of soil", smells<Smell::earthy>},
    {"smell of forest", smells<Smell::earthy>},
    {"smell good", smells<Smell::earthy>},
    {"smell fine", smells<Smell::earthy>},
    {"smell fresh", smells<Smell::earthy>},
    {"earthy", smells<Smell::earthy>},
    {"smell none", smells<Smell::none>},
    {"smell nothing", smells<Smell::none>},
    {"no smell", smells<Smell::none>},
    {"smell sour", smells<Smell::sour>},
    {"sour", smells<Smell::sour>},
    {"smell acid", smells<Smell::sour>},
    {"smell vinegar", smells<Smell::vinegar>},
    {"smell of vinegar", smells<Smell::vinegar>},
    {"vinegar", smells<Smell::vinegar>},
    {"smell rotten", smells<Smell::rotten>},
    {"rotten", smells<Smell::rotten>},
    {"rotten eggs", smells<Smell::rotten>},
    {"smell rotten eggs", smells<Smell::rotten>},
    {"smell of rotten eggs", smells<Smell::rotten>},
    {"smell of eggs", smells<Smell::rotten>},
    {"smell putrid", smells<Smell::rotten>},
    {"smell of garbage", smells<Smell::rotten>},
    {"smell ammonia", smells<Smell::ammonia>},
    {"smell of ammonia", smells<Smell::ammonia>},
    {"ammonia", smells<Smell::ammonia>},
    {"smell of urine", smells<Smell::ammonia>},
    {"smell of cat pee", smells<Smell::ammonia>},
    {"smell swampy", smells<Smell::swampy>},
    {"swampy", smells<Smell::swampy>},
    {"smell of swamp", smells<Smell::swampy>},
    {"smell of sewage", smells<Smell::swampy>},
    {"smell of drains", smells<Smell::swampy>},
    {"gone", food_is<FoodGone::yes>},
    {"all gone", food_is<FoodGone::yes>},
    {"eaten", food_is<FoodGone::yes>},
    {"all eaten", food_is<FoodGone::yes>},
    {"eaten up", food_is<FoodGone::yes>},
    {"finished", food_is<FoodGone::yes>},
    {"nothing left", food_is<FoodGone::yes>},
    {"not gone", food_is<FoodGone::no>},
    {"not eaten", food_is<FoodGone::no>},
    {"still there", food_is<FoodGone::no>},
    {"untouched", share_is<0>},
    {"nothing gone", share_is<0>},
    {"quarter gone", share_is<25>},
    {"third gone", share_is<33>},
    {"half gone", share_is<50>},
    {"half eaten", share_is<50>},
    {"half left", share_is<50>},
    {"two thirds gone", share_is<67>},
    {"three quarters gone", share_is<75>},
    {"mostly gone", share_is<static_cast<int>(100 * mostly)>},
    {"mostly eaten", share_is<static_cast<int>(100 * mostly)>},
    {"most gone", share_is<static_cast<int>(100 * mostly)>},
    {"nearly gone", share_is<static_cast<int>(100 * nearly)>},
    {"almost gone", share_is<static_cast<int>(100 * nearly)>},
    {"dry", feels<Squeeze::crumbly>},
    {"too dry", feels<Squeeze::crumbly>},
    {"crumbly", feels<Squeeze::crumbly>},
    {"dusty", feels<Squeeze::crumbly>},
    {"damp", feels<Squeeze::damp>},
    {"moist", feels<Squeeze::damp>},
    {"drops", feels<Squeeze::drops>},
    {"few drops", feels<Squeeze::drops>},
    {"just right", feels<Squeeze::drops>},
    {"wet", feels<Squeeze::many_drops>},
    {"too wet", feels<Squeeze::many_drops>},
    {"many drops", feels<Squeeze::many_drops>},
    {"dripping", feels<Squeeze::many_drops>},
    {"soggy", feels<Squeeze::streams>},
    {"soaked", feels<Squeeze::streams>},
    {"soaking", feels<Squeeze::streams>},
    {"sodden", feels<Squeeze::streams>},
    {"waterlogged", feels<Squeeze::streams>},
    {"streams", feels<Squeeze::streams>},
    {"pooling", water_stands},
    {"standing water", water_stands},
    {"water stands", water_stands},
    {"puddle", water_stands},
    {"flooded", water_stands},
    {"worms gathered", worms_are<WormPlace::gathered>},
    {"worms in food", worms_are<WormPlace::gathered>},
    {"worms spread", worms_are<WormPlace::spread>},
    {"worms everywhere", worms_are<WormPlace::spread>},
    {"worms at lid", worms_are<WormPlace::at_lid>},
    {"worms on lid", worms_are<WormPlace::at_lid>},
    {"worms leaving", worms_are<WormPlace::leaving>},
    {"worms escaping", worms_are<WormPlace::leaving>},
    {"worms climbing out", worms_are<WormPlace::leaving>},
    {"worms crawling out", worms_are<WormPlace::leaving>},
    {"worms climbing", worms_are<WormPlace::at_lid>},
    {"worms active", worms_move<WormVigour::active>},
    {"worms lively", worms_move<WormVigour::active>},
    {"worms busy", worms_move<WormVigour::active>},
    {"worms sluggish", worms_move<WormVigour::sluggish>},
    {"worms slow", worms_move<WormVigour::sluggish>},
    {"room temperature", at_room},
};

/// Where words of their own follow: "bedding 1 kg card".
struct Opening {
    std::string_view words;
    std::string Observation::*field;
    bool keeps_word;  ///< the opening word belongs to what is written ("harvested 5 L")
};
constexpr Opening openings[] = {
    {"note", &Observation::note, false},
    {"bedding", &Observation::bedding, false},
    {"added bedding", &Observation::bedding, false},
    {"pests", &Observation::pests, false},
    {"harvested", &Observation::action, true},
    {"harvest", &Observation::action, true},
    {"took out", &Observation::action, true},
    {"added water", &Observation::action, true},
    {"watered", &Observation::action, true},
    {"turned", &Observation::action, true},
    {"fluffed", &Observation::action, true},
    {"drained", &Observation::action, true},
    {"limed", &Observation::action, true},
};

/// Words that name what people see beside the worms.
constexpr std::string_view pests[] = {
    "flies", "fruit flies", "gnats",       "ants",  "mites", "maggots",    "soldier flies",
    "mould", "mold",        "white worms", "slugs", "rats",  "springtails"};

/// A piece in plain words without those that say nothing, in one form for each.
std::string essence(std::string_view piece) {
    constexpr std::string_view idle[] = {"the", "it",   "is",      "was",  "its",  "are",   "bin",
                                         "bed", "food", "very",    "now",  "a",    "feels", "looks",
                                         "has", "all",  "squeeze", "like", "some", "been"};
    std::string text;
    for (auto word : words_of(plain_text(piece))) {
        if (std::find(std::begin(idle), std::end(idle), word) != std::end(idle)) continue;
        if (word == "smells" || word == "smelled" || word == "smelling" || word == "odour" ||
            word == "odor")
            word = "smell";
        if (word == "worm") word = "worms";
        text += (text.empty() ? "" : " ") + word;
    }
    return text;
}

bool ends_in(std::string_view text, std::string_view tail) {
    return text.size() > tail.size() && text.substr(text.size() - tail.size()) == tail;
}

/// The words behind an opening, as they were written; nothing where they do not open so.
std::optional<std::string_view> behind(std::string_view piece, std::string_view opening) {
    if (piece.size() < opening.size()) return std::nullopt;
    if (plain_text(piece.substr(0, opening.size())) != opening) return std::nullopt;
    std::string_view rest = piece.substr(opening.size());
    if (!rest.empty() && rest.front() != ' ' && rest.front() != ':') return std::nullopt;
    if (!rest.empty() && rest.front() == ':') rest.remove_prefix(1);
    return detail::trim(rest);
}

Error not_understood(std::string_view piece) {
    Error error;
    error.code = ErrorCode::out_of_range;
    error.field = "note";
    error.value = std::string(piece);
    error.allowed =
        "fed 3 apples; half gone; smell sour; wet; temperature 24 C; worms 1 lb; bedding 1 kg "
        "card; harvested 5 L; or note, and words of your own";
    std::array<std::string_view, std::size(phrases)> list;
    for (std::size_t i = 0; i < list.size(); ++i)
        list[i] = phrases[i].words;
    const auto near = nearest_word(essence(piece), list);
    error.message = "\"" + std::string(piece) + "\" is not understood";
    if (!near.empty()) error.message += "; is \"" + near + "\" meant?";
    return error;
}

/// Reads the number with its unit at one end of a piece, the words at the other being known.
template <class Take>
Result<Observation> quantity_of(std::string_view text, QuantityKind kind, std::string_view field,
                                Take take) {
    const auto number = parse_quantity(detail::trim(text), kind);
    if (!number) {
        Errors errors = number.errors();
        for (Error& error : errors)
            error.field = std::string(field);
        return errors;
    }
    Observation seen;
    take(seen, *number);
    return seen;
}

void take_mass(Observation& seen, double kg) {
    seen.worm_weight = wet_kilograms(kg);
}

/// "temperature 24 C", "24 C", "worms 1 lb", "ph 6.5", "200 g left", "60 % gone".
std::optional<Result<Observation>> read_measured(std::string_view piece) {
    const auto degrees = [](Observation& seen, double c) {
        seen.temperatures = {{"", celsius(c)}};
    };
    for (const std::string_view word : {"temperature", "temp"})
        if (const auto rest = behind(piece, word); rest && read_number(*rest))
            return quantity_of(*rest, QuantityKind::temperature, "temperature", degrees);
    if (const auto rest = behind(piece, "ph"))
        return quantity_of(*rest, QuantityKind::ph, "ph",
                           [](Observation& seen, double ph) { seen.ph = ph; });
    for (const std::string_view word : {"worms weigh", "weighed worms", "worms"})
        if (const auto rest = behind(piece, word); rest && read_number(*rest))
            return quantity_of(*rest, QuantityKind::mass, "worm_weight", take_mass);
    const auto left = [](Observation& seen, double kg) { seen.left = wet_kilograms(kg); };
    if (const auto rest = behind(piece, "left"); rest && read_number(*rest))
        return quantity_of(*rest, QuantityKind::weighed, "left", left);
    const auto number = read_number(piece);
    if (!number) return std::nullopt;
    const auto share = [](Observation& seen, double gone) { seen.share_gone = gone; };
    for (const std::string_view tail : {" of worms", " worms"})
        if (ends_in(piece, tail))
            return quantity_of(piece.substr(0, piece.size() - tail.size()), QuantityKind::mass,
                               "worm_weight", take_mass);
    for (const std::string_view tail : {" gone", " eaten"})
        if (ends_in(piece, tail))
            return quantity_of(piece.substr(0, piece.size() - tail.size()), QuantityKind::share,
                               "share_gone", share);
    if (ends_in(piece, " left")) {
        const std::string_view what = piece.substr(0, piece.size() - 5);
        if (what.find('%') == std::string_view::npos)
            return quantity_of(what, QuantityKind::weighed, "left", left);
        return quantity_of(what, QuantityKind::share, "share_gone",
                           [](Observation& seen, double rest) { seen.share_gone = 1.0 - rest; });
    }
    if (parse_quantity(piece, QuantityKind::temperature))
        return quantity_of(piece, QuantityKind::temperature, "temperature", degrees);
    return std::nullopt;
}

}  // namespace

Result<Observation> read_seen(std::string_view piece) {
    if (auto measured = read_measured(piece)) return std::move(*measured);
    for (const Opening& opening : openings) {
        const auto rest = behind(piece, opening.words);
        if (!rest || (rest->empty() && !opening.keeps_word)) continue;
        Observation seen;
        seen.*opening.field = std::string(opening.keeps_word ? piece : *rest);
        return seen;
    }
    const std::string said = essence(piece);
    std::string turned;  // "sour smell" is "smell sour"
    if (ends_in(said, " smell")) turned = "smell " + said.substr(0, said.size() - 6);
    for (const Phrase& phrase : phrases) {
        const std::string known = essence(phrase.words);
        const bool of_worms = known.substr(0, 6) == "worms " && known.substr(6) == said;
        if (known != said && known != turned && !of_worms) continue;
        Observation seen;
        phrase.say(seen);
        return seen;
    }
    if (std::find(std::begin(pests), std::end(pests), said) != std::end(pests)) {
        Observation seen;
        seen.pests = said;
        return seen;
    }
    return not_understood(piece);
}

std::optional<std::string> merge_seen(Observation& all, const Observation& one) {
    std::optional<std::string> clash;
    const auto take = [&](auto& to, const auto& from, const char* key) {
        if (!from) return;
        if (to && *to != *from) clash = key;
        to = from;
    };
    const auto join = [](std::string& to, const std::string& from) {
        if (!from.empty()) to += (to.empty() ? "" : ", ") + from;
    };
    const auto take_mass_of = [&](auto& to, const auto& from, const char* key) {
        if (from && to) clash = key;
        if (from) to = from;
    };
    take_mass_of(all.left, one.left, "left");
    take_mass_of(all.worm_weight, one.worm_weight, "worm_weight");
    take(all.share_gone, one.share_gone, "share_gone");
    if (one.gone != FoodGone::unsaid) {
        if (all.gone != FoodGone::unsaid && all.gone != one.gone) clash = "gone";
        all.gone = one.gone;
    }
    if (all.gone != FoodGone::unsaid && all.share_gone) clash = "gone";
    take(all.worms, one.worms, "worms");
    take(all.vigour, one.vigour, "vigour");
    take(all.squeeze, one.squeeze, "squeeze");
    take(all.pooling, one.pooling, "pooling");
    take(all.smell, one.smell, "smell");
    take(all.ph, one.ph, "ph");
    if (!one.temperatures.empty()) {
        if (!all.temperatures.empty()) clash = "temperature";
        all.temperatures = one.temperatures;
    }
    join(all.bedding, one.bedding);
    join(all.pests, one.pests);
    join(all.action, one.action);
    join(all.note, one.note);
    return clash;
}

}  // namespace feed::io
