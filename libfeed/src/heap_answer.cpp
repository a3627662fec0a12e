#include "feed/io/heap_answer.hpp"

#include <algorithm>
#include <utility>

#include "feed/bed/species.hpp"
#include "feed/io/file_kind.hpp"
#include "feed/io/quantity_text.hpp"
#include "feed/io/to_json.hpp"

namespace feed::io {
namespace {

Result<std::optional<WetMass>> read_worms(std::string_view words) {
    if (words.empty()) return std::optional<WetMass>();
    const auto kg = parse_quantity(words, QuantityKind::mass);
    if (kg) return std::optional<WetMass>(wet_kilograms(*kg));
    return about(kg.errors(), "worms", words);
}

/// The file's balance with all that may go in as what must go in.
std::optional<BalanceOfFile> balance_of_all(const FeedFile& file, UnitSystem units) {
    FeedFile all = file;
    for (Entry& entry : all.balance->problem.entries) {
        if (entry.use_up_priority > 0 && entry.most) entry.least = *entry.most;
    }
    auto answer = balance_of(all, units);
    if (!answer || answer->answer.status != BalanceStatus::infeasible) return std::nullopt;
    return std::move(answer).value();
}

/// Of each portion what is there and does not go in, where that is over a tenth of it and wet: what
/// is dry keeps.
std::vector<double> kept_back_kg(const BalanceOfFile& recipe) {
    constexpr double worth_telling = 0.1;
    const auto& entries = recipe.asked.problem.entries;
    std::vector<double> kept;
    for (std::size_t i = 0; i < recipe.answer.portions.size(); ++i) {
        const Portion& one = recipe.answer.portions[i];
        const double there = entries[i].most ? entries[i].most->in_kilograms() : 0.0;
        const double left = there - one.wet_mass.in_kilograms();
        const bool tells = heap_role(*one.feedstock) == HeapRole::green &&
                           one.wet_mass.in_kilograms() > 0.0 && left > worth_telling * there;
        kept.push_back(tells ? left : 0.0);
    }
    return kept;
}

/// What is barred is in no portion of a balance, so it is in no layer.
void lay_up(const FeedFile& file, UnitSystem units, HeapOfFile& heap) {
    const BalanceAnswer& answer = heap.recipe->answer;
    if (answer.status != BalanceStatus::solved) return;
    if (!(answer.properties.wet_mass.in_kilograms() > 0.0)) {
        heap.all_of_it = balance_of_all(file, units);
        return;
    }
    heap.layers = heap_layers(answer.portions, answer.properties.volume.value.value());
    heap.for_worms = heap_for_worms(answer.portions);
    heap.kept_back_kg = kept_back_kg(*heap.recipe);
    if (std::any_of(heap.kept_back_kg.begin(), heap.kept_back_kg.end(),
                    [](double kg) { return kg > 0.0; }))
        heap.all_of_it = balance_of_all(file, units);
}

void read_log(const FeedFile& file, HeapOfFile& heap) {
    if (file.diary.observations.empty() || !heap.today) return;
    const std::int64_t today = day_number(*heap.today);
    heap.log = heap_log(file.diary, today);
    for (const std::size_t i : feed::detail::seen_by(file.diary, today)) {
        const HeapLook look = feed::detail::look_of(file.diary.observations[i]);
        if (look.hottest_c) heap.looks.push_back(look);
    }
    // Composting worms of every kind are harmed above the same warmth.
    const SpeciesLimits& limits = limits_of(Species::eisenia_fetida);
    heap.cool_for_worms = is_cool_for_worms(*heap.log, in_celsius(limits.warmest));
}

void write_layer(JsonWriter& json, std::string_view key, const HeapOfFile& heap,
                 const std::vector<double>& shares) {
    json.key(key);
    json.begin_array();
    const auto& portions = heap.recipe->answer.portions;
    for (std::size_t i = 0; i < portions.size(); ++i) {
        const double kg = shares[i] * portions[i].wet_mass.in_kilograms();
        if (!(kg > 0.0)) continue;
        json.begin_object();
        json.member("feedstock", portions[i].feedstock->id);
        json.member("role", text(heap_role(*portions[i].feedstock)));
        json.member("wet_mass_kg", kg);
        json.end_object();
    }
    json.end_array();
}

void write_layers(JsonWriter& json, const HeapOfFile& heap) {
    json.key("layers");
    if (!heap.layers) return json.null();
    const HeapLayers& layers = *heap.layers;
    json.begin_object();
    json.member("volume_l", 1000.0 * layers.volume_m3);
    json.member("side_m", layers.side_m);
    json.member("size", text(layers.size));
    json.member("least_hot_l", 1000.0 * least_hot_heap_m3);
    json.member("most_l", 1000.0 * heap_limits::most_m3);
    write_layer(json, "bottom", heap, layers.bottom_share);
    json.member("rounds", layers.rounds);
    write_layer(json, "each_round", heap, layers.round_share);
    json.end_object();
}

void write_kept_back(JsonWriter& json, const HeapOfFile& heap) {
    json.key("kept_back");
    json.begin_array();
    for (std::size_t i = 0; i < heap.kept_back_kg.size(); ++i) {
        if (!(heap.kept_back_kg[i] > 0.0)) continue;
        json.begin_object();
        json.member("feedstock", heap.recipe->answer.portions[i].feedstock->id);
        json.member("wet_mass_kg", heap.kept_back_kg[i]);
        json.end_object();
    }
    json.end_array();
}

std::optional<std::string> date_text(const std::optional<std::int64_t>& day) {
    if (!day) return std::nullopt;
    return text(date_of(*day));
}

void write_log(JsonWriter& json, const HeapOfFile& heap) {
    json.key("log");
    if (!heap.log) return json.null();
    const HeapLog& log = *heap.log;
    json.begin_object();
    json.member("step", text(log.step));
    json.member("hottest_c", log.last.hottest_c);
    json.member("hottest_place", log.last.place);
    json.member("inside_c", log.last.inside_c);
    json.member("air_c", log.air_c);
    json.member("peak_c", log.peak_c);
    json.member("highest_c", log.highest_c);
    json.member("begun", date_text(log.begun));
    json.member("turned", date_text(log.turned));
    json.member("turns", static_cast<std::int64_t>(log.turns));
    json.member("smoke", date_text(log.smoke));
    json.member("ammonia", date_text(log.ammonia));
    json.member("foul", date_text(log.foul));
    json.member("dry", log.dry);
    json.member("next_look_day", log.next_look);
    json.key("looks");
    json.begin_array();
    for (const HeapLook& look : heap.looks) {
        json.begin_object();
        json.member("date", text(date_of(look.day)));
        json.member("hottest_c", look.hottest_c);
        json.member("place", look.place);
        json.member("inside_c", look.inside_c);
        json.end_object();
    }
    json.end_array();
    json.end_object();
}

void write_rules(JsonWriter& json) {
    json.key("rules");
    json.begin_array();
    for (const HeapRule& rule : heap_rules) {
        json.begin_object();
        json.member("about", rule.about);
        json.member("says", rule.says);
        json.member("source", rule.source);
        json.member("read", rule.read);
        json.member("taken", rule.taken);
        json.end_object();
    }
    json.end_array();
}

void write_worms(JsonWriter& json, const HeapOfFile& heap) {
    json.key("for_worms");
    if (!heap.for_worms) return json.null();
    const auto& portions = heap.recipe->answer.portions;
    const auto ids = [&](std::string_view key, const std::vector<std::size_t>& which) {
        json.key(key);
        json.begin_array(true);
        for (const std::size_t i : which)
            json.value(portions[i].feedstock->id);
        json.end_array();
    };
    const double most = heap.for_worms->week_kg_per_kg_worms;
    const bool caps = most < solver::infinity;
    json.begin_object();
    json.member("cool_enough", heap.cool_for_worms);
    ids("barred", heap.for_worms->barred);
    ids("capped", heap.for_worms->capped);
    json.member("week_kg_per_kg_worms", caps ? std::optional(most) : std::nullopt);
    json.member("week_kg", caps && heap.worms ? std::optional(most * heap.worms->in_kilograms())
                                              : std::nullopt);
    json.end_object();
}

}  // namespace

Result<HeapOfFile> heap_of(const FeedFile& file, std::string_view worms, UnitSystem units) {
    if (auto wrong = wrong_kind(file, "heap")) return std::move(*wrong);
    if (!file.balance && file.diary.observations.empty())
        return missing_section(file, "balance",
                               "{at_hand: [up to 3 buckets grass clippings, any dry leaves]}");
    auto worms_said = read_worms(worms);
    if (!worms_said) return worms_said.errors();
    HeapOfFile heap;
    heap.file = file.name;
    heap.today = day_zero(file);
    heap.worms = *worms_said;
    if (file.balance) {
        auto recipe = balance_of(file, units);
        if (!recipe) return recipe.errors();
        heap.recipe = std::move(recipe).value();
        lay_up(file, units, heap);
    }
    read_log(file, heap);
    return heap;
}

std::string to_json(const HeapOfFile& heap, UnitSystem units) {
    JsonWriter json;
    json.begin_object();
    json.key("balance");
    if (heap.recipe)
        write_balance(json, heap.recipe->answer, heap.recipe->measures);
    else
        json.null();
    write_layers(json, heap);
    write_kept_back(json, heap);
    write_log(json, heap);
    write_worms(json, heap);
    write_rules(json);
    write_texts(json, "text", heap_lines(heap, units));
    json.end_object();
    return json.take();
}

}  // namespace feed::io
