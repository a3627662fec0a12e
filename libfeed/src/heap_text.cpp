#include <algorithm>
#include <cmath>
#include <utility>

#include "feed/bed/cautions.hpp"
#include "feed/bed/species.hpp"
#include "feed/feedstock/plain_name.hpp"
#include "feed/io/heap_answer.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/io/ration_text.hpp"
#include "feed/quantity/amount_words.hpp"
#include "feed/quantity/number_print.hpp"
#include "heap_words.hpp"

// The words of a heap: how to build it, and what to do today.
namespace feed::io {
namespace {

/// What goes first where there is no room; 0 never does.
struct HeapLine {
    enum : int { stays, note, worms, next, instead };
};

using Lines = std::vector<ScreenLine>;

/// The name of the file in what is typed, or a word that stands for it.
std::string file_word(const HeapOfFile& heap) {
    return heap.file.empty() ? "HEAP.yaml" : heap.file;
}

/// The names of the portions that go in and have a role, as the keeper calls them.
std::vector<std::string> names_of(const HeapOfFile& heap, std::initializer_list<HeapRole> roles) {
    std::vector<std::string> names;
    const auto& portions = heap.recipe->answer.portions;
    for (const HeapRole role : roles) {
        for (std::size_t i = 0; i < portions.size(); ++i) {
            const Feedstock& f = *portions[i].feedstock;
            if (heap_role(f) != role || !(portions[i].wet_mass.in_kilograms() > 0.0)) continue;
            names.push_back(plain_name(heap.recipe->asked.problem.entries[i].label, f));
        }
    }
    return names;
}

std::vector<std::string> labels_of(const HeapOfFile& heap) {
    std::vector<std::string> labels;
    for (const Entry& entry : heap.recipe->asked.problem.entries)
        labels.push_back(entry.label);
    return labels;
}

void add_size(const HeapOfFile& heap, UnitSystem units, Lines& lines) {
    const HeapLayers& layers = *heap.layers;
    const std::string side = length_text(metres(layers.side_m), units);
    const std::string least = length_text(metres(std::cbrt(least_hot_heap_m3)), units);
    switch (layers.size) {
        case HeapSize::heats:
            lines.push_back({"Build a heap " + side + " each way: it should get hot."});
            break;
        case HeapSize::too_small:
            lines.push_back({"Too small to get hot: a heap about " + side + " each way."});
            lines.push_back({"One that heats is at least " + least + " each way, " +
                                 significant(least_hot_heap_m3 / layers.volume_m3, 2) +
                                 " times as much.",
                             HeapLine::next});
            break;
        case HeapSize::too_large:
            lines.push_back({"Build two or more heaps: one would be " + side + " each way."});
            lines.push_back({"Higher than " +
                             length_text(metres(std::cbrt(heap_limits::most_m3)), units) +
                             " a heap presses its own air out."});
            break;
    }
}

std::size_t portions_in(const BalanceAnswer& answer) {
    return static_cast<std::size_t>(
        std::count_if(answer.portions.begin(), answer.portions.end(),
                      [](const Portion& one) { return one.wet_mass.in_kilograms() > 0.0; }));
}

/// What does not go on this heap: on a tight screen the first ones by name.
std::string leave_out_text(std::vector<std::string> names, bool tight) {
    constexpr std::size_t named_when_tight = 3;
    if (tight && names.size() > named_when_tight + 1) {
        const std::size_t others = names.size() - named_when_tight;
        names.resize(named_when_tight);
        names.push_back(std::to_string(others) + " more");
    }
    return "Leave out " + joined(names) + ".";
}

void add_amounts(const HeapOfFile& heap, UnitSystem units, bool tight, Lines& lines) {
    const BalanceOfFile& recipe = *heap.recipe;
    // Where much goes in there is no room for the weights: feed balance has them.
    const std::size_t lines_for_portions = tight ? 2 : 4;
    const bool many = portions_in(recipe.answer) > lines_for_portions;
    std::vector<std::string> amounts;
    std::vector<std::string> none;
    for (std::size_t i = 0; i < recipe.answer.portions.size(); ++i) {
        const Portion& one = recipe.answer.portions[i];
        const Feedstock& f = *one.feedstock;
        const std::string name = plain_name(recipe.asked.problem.entries[i].label, f);
        if (one.wet_mass.in_kilograms() > 0.0)
            amounts.push_back(
                name + ", " +
                (many ? measure_text(one.wet_mass, f, recipe.asked.amounts[i], units)
                      : measure_and_weight_text(one.wet_mass, f, recipe.asked.amounts[i], units)) +
                ".");
        else if (!barred_in(f, feed::Place::heap) && heap_role(f) != HeapRole::water)
            none.push_back(name);  // the fist says whether it wants water
    }
    if (!many) {
        for (const std::string& one : amounts)
            lines.push_back({"  " + one});
    } else {
        std::string all;
        for (const std::string& one : amounts)
            all += (all.empty() ? "  " : " ") + one;
        lines.push_back({all});
    }
    if (!none.empty()) lines.push_back({leave_out_text(std::move(none), tight)});
}

/// What finds too little dry stuff, and what all of it takes.
void add_kept_back(const HeapOfFile& heap, UnitSystem units, Lines& lines) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < heap.kept_back_kg.size(); ++i) {
        if (!(heap.kept_back_kg[i] > 0.0)) continue;
        const Feedstock& f = *heap.recipe->answer.portions[i].feedstock;
        names.push_back(words::mass(heap.kept_back_kg[i], units) + " of " +
                        plain_name(heap.recipe->asked.problem.entries[i].label, f));
    }
    if (names.empty()) return;
    lines.push_back({"Keep back " + joined(names) + ": there is too little dry stuff."});
    if (!heap.all_of_it || !heap.all_of_it->answer.mend) return;
    const Mend& mend = *heap.all_of_it->answer.mend;
    lines.push_back({"For all of it add " +
                         measure_and_weight_text(mend.add, *mend.feedstock, std::nullopt, units) +
                         " of " + plain_name(mend.label, *mend.feedstock) + ".",
                     HeapLine::next});
}

/// "half", "a third": the plainest part that is nearest.
std::string_view part_text(double share) {
    constexpr std::pair<double, std::string_view> parts[] = {
        {0.5, "half"},          {1.0 / 3.0, "a third"}, {0.25, "a quarter"}, {0.2, "a fifth"},
        {1.0 / 6.0, "a sixth"}, {0.1, "a tenth"},       {0.05, "a little"},
    };
    const auto* nearest = &parts[0];
    for (const auto& part : parts)
        if (std::abs(part.first - share) < std::abs(nearest->first - share)) nearest = &part;
    return nearest->second;
}

void add_layers(const HeapOfFile& heap, Lines& lines) {
    const HeapLayers& layers = *heap.layers;
    const auto chunky = names_of(heap, {HeapRole::chunky});
    const auto below = chunky.empty() ? names_of(heap, {HeapRole::brown}) : chunky;
    const auto greens = names_of(heap, {HeapRole::green, HeapRole::sprinkle});
    const auto cover = names_of(heap, {HeapRole::chunky, HeapRole::brown});
    std::string lay;
    if (!below.empty()) {
        const double share =
            *std::max_element(layers.bottom_share.begin(), layers.bottom_share.end());
        lay = "First lay " + std::string(part_text(share)) + " of the " + joined(below) + ".";
    }
    const std::string rounds = layers.rounds == 1
                                   ? "Then all the rest"
                                   : "Then " + significant(layers.rounds, 2) + " equal rounds";
    // Long lists are said in short: what is green and what is dry everybody sees.
    const bool few = greens.size() + cover.size() <= 3;
    if (!greens.empty() && !cover.empty())
        lay += (lay.empty() ? "" : " ") + rounds + ": " + (few ? joined(greens) : "green") +
               " below, " + (few ? joined(cover) : "dry") + " on top.";
    lines.push_back({lay});
    const bool watered = !names_of(heap, {HeapRole::water}).empty();
    lines.push_back({watered ? "Mix and wet each: a squeezed handful is damp, not dripping."
                             : "Mix each. A squeezed handful is damp, not dripping: wet only what "
                               "is dry."});
}

void add_care(const HeapOfFile& heap, Lines& lines) {
    const auto labels = labels_of(heap);
    for (const CautionFinding& one : cautions_of(heap.recipe->answer.portions, labels))
        if (hurts_people(one.caution)) lines.push_back({"Take care: " + one.text});
}

void add_never(const HeapOfFile& heap, bool tight, Lines& lines) {
    for (ScreenLine& line : take_out_lines(heap.recipe->answer.take_out, tight, HeapLine::instead))
        lines.push_back(std::move(line));
    const auto& portions = heap.recipe->answer.portions;
    for (std::size_t i = 0; i < portions.size(); ++i) {
        const Feedstock& f = *portions[i].feedstock;
        if (f.stance_lifted)
            lines.push_back({lifted_text(heap.recipe->asked.problem.entries[i].label, f)});
    }
}

void add_recipe(const HeapOfFile& heap, UnitSystem units, bool tight, Lines& lines) {
    const BalanceAnswer& answer = heap.recipe->answer;
    add_never(heap, tight, lines);
    if (heap.layers) {
        add_size(heap, units, lines);
        add_amounts(heap, units, tight, lines);
        add_kept_back(heap, units, lines);
        add_layers(heap, lines);
        lines.push_back({"Note how warm it gets: feed note " + file_word(heap) + " " +
                             words::temperature(50.0, units) + " middle",
                         HeapLine::note});
        return add_care(heap, lines);
    }
    if (answer.status == BalanceStatus::unbounded) {
        lines.push_back(
            {"Say how much " + answer.unbounded_entry + " there is: nothing limits it."});
        return;
    }
    lines.push_back({"These do not make a heap that gets hot."});
    const BalanceOfFile& asked = heap.all_of_it ? *heap.all_of_it : *heap.recipe;
    if (asked.answer.mend) lines.push_back({mend_text(*asked.answer.mend, asked.asked, units)});
    for (const std::string& one : asked.answer.advice)
        lines.push_back({"- " + one, HeapLine::next});
    if (!heap.file.empty())
        lines.push_back({"What conflicts: feed balance " + heap.file + " --why", HeapLine::note});
}

constexpr std::string_view fire_words =
    "Smoke or a burning smell: leave it closed and call the fire service.";
void add_turn(const HeapLog& log, UnitSystem units, Lines& lines) {
    const double now = log.last.hottest_c.value_or(0.0);
    if (now > heap_limits::warm_enough_c) {
        lines.push_back({"Turn it today: " + words::temperature(now, units) +
                         place_text(log.last.place) + " is too hot."});
    } else if (log.last.inside_c && log.peak_c && *log.peak_c >= heap_limits::heating_c) {
        lines.push_back({"Turn it: it has cooled from " + words::temperature(*log.peak_c, units) +
                         " to " + words::temperature(*log.last.inside_c, units) + "."});
    } else {
        lines.push_back({"Turn it once: it has cooled, and air may heat it again."});
    }
    lines.push_back(
        {"The outside goes to the middle. Water what is dry as you turn.", HeapLine::next});
}

void add_mend(const HeapLog& log, UnitSystem units, Lines& lines) {
    lines.push_back(
        {"It has not got hot: " + words::temperature(log.last.inside_c.value_or(0.0), units) +
         " at most a week on. Squeeze a handful."});
    lines.push_back({"Dry: turn it and water it."});
    lines.push_back({"Dripping: turn in dry leaves, straw or chips."});
    lines.push_back({"Damp and cool: turn in grass or scraps, or build it bigger, " +
                     length_text(metres(std::cbrt(least_hot_heap_m3)), units) + " each way."});
}

void add_end(const HeapLog& log, UnitSystem units, Lines& lines) {
    if (log.step == HeapStep::cooled) {
        lines.push_back(
            {"It has cooled for good: " + words::temperature(*log.last.inside_c, units) +
             " inside, " + words::temperature(*log.air_c, units) + " in the air."});
        lines.push_back(
            {"Keep it damp until it is dark, crumbly and smells of earth.", HeapLine::next});
        return;
    }
    lines.push_back({"Let it ripen: it no longer heats after turning."});
    lines.push_back({"It has cooled for good three weeks on, when it is as cool as the air."});
    if (!log.air_c)
        lines.push_back(
            {"Note the air too: air " + words::temperature(12.0, units), HeapLine::note});
}

/// What a smell asks for: brown stuff where nitrogen goes off as ammonia, air where it rots
/// (Cornell, odor management). Empty where it smells of nothing bad.
std::string smell_text(const HeapLog& log) {
    if (log.ammonia) return "Fork in dry leaves or torn cardboard: it smells of ammonia.";
    if (log.foul) return "Fork in twigs or chips, and loosen it: it smells short of air.";
    return "";
}

void add_step(const HeapOfFile& heap, UnitSystem units, Lines& lines) {
    const HeapLog& log = *heap.log;
    const std::string smell = smell_text(log);
    const bool hot = log.step == HeapStep::stand_back || log.step == HeapStep::cool;
    if (!smell.empty() && !hot) {
        lines.push_back({smell});
        if (log.ammonia) lines.push_back({"Keep lime and ash off it, and stand upwind."});
    }
    const std::string now = log.last.hottest_c ? words::temperature(*log.last.hottest_c, units) +
                                                     place_text(log.last.place)
                                               : "";
    switch (log.step) {
        case HeapStep::measure:
            lines.push_back({"Take its temperature in the middle first."});
            lines.push_back({"Then note it: feed note " + file_word(heap) + " " +
                             words::temperature(50.0, units) + " middle"});
            return;
        case HeapStep::stand_back:
            lines.push_back({"Do not open it: " +
                             (log.last.hottest_c.value_or(0.0) >= heap_limits::burning_c
                                  ? now
                                  : std::string("smoke")) +
                             " is a risk of fire."});
            lines.push_back({"Ask the fire service before anybody opens it. Keep people away."});
            lines.push_back({std::string(fire_words)});
            return;
        case HeapStep::cool:
            lines.push_back({"Cool it today: " + now + " is far too hot."});
            lines.push_back({"Have a hose ready. Turn it bit by bit, and water it as you go."});
            lines.push_back({std::string(fire_words)});
            lines.push_back({std::string(turning_care)});
            return;
        case HeapStep::turn:
            add_turn(log, units, lines);
            lines.push_back({std::string(turning_care)});
            lines.push_back({std::string(who_turns), HeapLine::next});
            return;
        case HeapStep::leave:
            if (!smell.empty()) return lines.push_back({"Measure it again tomorrow."});
            lines.push_back({log.turned && *log.turned >= log.last.day
                                 ? "Leave it alone: it was turned. Measure it tomorrow."
                                 : "Leave it alone: " + now + ". Measure it again tomorrow."});
            return;
        case HeapStep::mend:
            add_mend(log, units, lines);
            lines.push_back({std::string(turning_care)});
            return;
        case HeapStep::water:
            lines.push_back({"Water it and turn it: it has cooled because it is dry."});
            lines.push_back({"Stop when a squeezed handful is damp: at most a drop or two."});
            lines.push_back({std::string(turning_care)});
            return;
        case HeapStep::ripen:
        case HeapStep::cooled:
            return add_end(log, units, lines);
    }
}

/// What may go on to the worms, where the recipe and the log are both known.
void add_worms(const HeapOfFile& heap, UnitSystem units, Lines& lines) {
    const HeapStep step = heap.log->step;
    if (!heap.for_worms || step == HeapStep::stand_back || step == HeapStep::cool) return;
    const auto& entries = heap.recipe->asked.problem.entries;
    const auto& portions = heap.recipe->answer.portions;
    if (!heap.for_worms->barred.empty()) {
        const std::size_t i = heap.for_worms->barred.front();
        lines.push_back({"Keep this heap off the worms: " +
                         plain_name(entries[i].label, *portions[i].feedstock) + " is in it."});
        return;
    }
    if (!heap.cool_for_worms) {
        const double warmest = in_celsius(limits_of(Species::eisenia_fetida).warmest);
        lines.push_back({"Not for the worms yet: it must heat, lie two weeks, and cool below " +
                             words::temperature(warmest, units) + ".",
                         HeapLine::worms});
        return;
    }
    lines.push_back(
        {"For the worms: spread some thin for two days, until it is cool and has no "
         "sharp smell."});
    const double most = heap.for_worms->week_kg_per_kg_worms;
    if (most < solver::infinity) {
        const double kg = heap.worms ? heap.worms->in_kilograms() : 1.0;
        lines.push_back({"They bear at most " + words::mass(most * kg, units) +
                         " of it a week for " + words::mass(kg, units) + " of worms."});
    }
    lines.push_back({"What the bin takes on a day: ask feed ration.", HeapLine::worms});
}

Lines screen_of_heap(const HeapOfFile& heap, UnitSystem units, bool tight) {
    Lines lines;
    if (heap.log) {
        add_step(heap, units, lines);
        add_worms(heap, units, lines);
    } else {
        add_recipe(heap, units, tight, lines);
    }
    return lines;
}

}  // namespace

std::vector<std::string> heap_lines(const HeapOfFile& heap, UnitSystem units, ScreenRoom room) {
    return texts_of(
        fitting_or_tight([&](bool tight) { return screen_of_heap(heap, units, tight); }, room));
}

}  // namespace feed::io
