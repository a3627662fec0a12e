#include "feed/io/answers.hpp"

#include <algorithm>
#include <memory>
#include <utility>

#include "feed/balance/balance.hpp"
#include "feed/blend/blend.hpp"
#include "feed/feedstock/table.hpp"
#include "feed/forecast/forecast.hpp"
#include "feed/io/measure_text.hpp"
#include "feed/ration/from_diary.hpp"

namespace feed::io {
namespace {

/// What reading the file assumed stands before what the answer assumed.
void put_before(std::vector<Assumption>& assumed, const FeedFile& file) {
    assumed.insert(assumed.begin(), file.assumed.begin(), file.assumed.end());
}

/// The feeding that is planned for day 0.
std::vector<Portion> planned_today(const FeedFile& file) {
    for (Feeding& feeding : planned_feedings(file)) {
        if (in_days(feeding.day) < 1.0) return std::move(feeding.portions);
    }
    return {};
}

bool is_listed(const std::vector<ThingAtHand>& things, const Feedstock& feedstock) {
    return std::any_of(things.begin(), things.end(), [&](const ThingAtHand& thing) {
        return same_material(*thing.feedstock, feedstock);
    });
}

/// Adds one feedstock of the table, any amount.
void offer(WrittenBalance& balance, std::string_view id, std::string label) {
    Entry entry;
    entry.feedstock = std::make_shared<const Feedstock>(feedstock_at(*find_id(id)));
    entry.label = std::move(label);
    balance.problem.entries.push_back(std::move(entry));
    balance.amounts.emplace_back();
}

/// What every house has, for a worm bed whose file lists no bedding. Whether it was offered.
bool offer_house_bedding(WrittenBalance& balance) {
    const BalanceProblem& problem = balance.problem;
    const bool wants_bedding =
        std::any_of(problem.targets.begin(), problem.targets.end(), [](const Target& target) {
            return target.property == TargetProperty::bedding_l_per_scraps_l;
        });
    if (problem.place != Place::worm_bed || !wants_bedding) return false;
    bool water = false;
    for (const auto& entry : problem.entries) {
        if (part_of(*entry.feedstock) == Part::bedding) return false;
        water = water || is_plain_water(*entry.feedstock);
    }
    offer(balance, "cardboard-corrugated", "torn cardboard");
    if (!water) offer(balance, "water-tap", "water");
    return true;
}

/// What else a time away asks for, beside what the ration puts in before it.
AwayAdvice away_advice_of(const Bed& bed, const Ration& ration, Duration away) {
    // Of the load nothing but water, dry mass and scraps is read: no decay.
    AwayAdvice advice =
        going_away(bed, away, load_of(portions_of(ration.put_in), {}), ration.units);
    if (ration.answer == RationAnswer::act_first) {
        advice.needs_a_helper = true;
        advice.text =
            "Do not leave it so: somebody has to look tomorrow. "
            "What it needs for the time away is told when it is well.";
    }
    return advice;
}

/// What a keeper is told beside the hazards, from the bed and the ration that the verb answers
/// with.
KeeperAdvice advice_of(const Bed& bed, const Ration& ration, std::optional<Duration> away) {
    const UnitSystem units = ration.units;
    KeeperAdvice advice;
    if (away) advice.away = away_advice_of(bed, ration, *away);
    if (!std::holds_alternative<std::monostate>(bed.temperature)) {
        const CompletedBed full = completed(bed);
        const SpeciesLimits& limits = limits_of(full.species);
        std::vector<Portion> scraps;
        for (const PutIn& put : ration.put_in) {
            if (put.part == Part::scraps) scraps.push_back({put.thing.feedstock, put.wet_mass});
        }
        for (const Rest& rest : ration.rest) {
            if (part_of(*rest.thing.feedstock) == Part::scraps)
                scraps.push_back({rest.thing.feedstock, rest.wet_mass});
        }
        if (full.temperature_high > limits.optimum_high)
            advice.temperature = at_temperature(bed, full.temperature_high, scraps, units);
        else if (full.temperature_low < limits.optimum_low)
            advice.temperature = at_temperature(bed, full.temperature_low, scraps, units);
    }
    if (bed.age && in_days(*bed.age) < limits::ramp_full_days.value) {
        advice.first_weeks = first_weeks(bed, units);
        advice.first_weeks_text = first_weeks_text(*advice.first_weeks, units);
    }
    return advice;
}

/// The day of the harvest is that of `feed harvest`: a forecast of a few weeks does not know that
/// feeding goes on.
void tell_harvest(const HarvestTime& time, Forecast& forecast) {
    forecast.harvest_day.reset();
    forecast.harvest_reason = "Not within the days shown: ask feed harvest.";
    if (!time.day || *time.day > static_cast<int>(forecast.days)) return;
    forecast.harvest_day = time.day;
    forecast.harvest_reason = time.by_room
                                  ? "The bin is then full: ask feed harvest."
                                  : "Castings are then 70 % of the dry matter: ask feed harvest.";
}

/// What is in stock is at hand: its bedding always, its food where none is named. What is fresh
/// goes first, unless its days are past.
void add_stock(const FeedFile& file, RationInput& in) {
    const auto today = day_zero(file);
    if (file.stock.empty() || !today) return;
    const std::vector<ThingAtHand> named = in.things;
    const bool any_food = std::any_of(named.begin(), named.end(), [](const ThingAtHand& one) {
        return part_of(*one.feedstock) == Part::scraps;
    });
    for (StockItem& item : stock_on(file.stock, file.diary, *today)) {
        const Feedstock& f = *item.thing.feedstock;
        const bool past = item.keep == StockKeep::fresh && item.good_days < 0;
        if (past || (any_food && part_of(f) == Part::scraps) || is_listed(named, f)) continue;
        item.thing.first = item.keep == StockKeep::fresh;
        item.thing.kept = true;
        in.things.push_back(std::move(item.thing));
    }
}

/// What lies fresh in the stock and is good until the next feeding waits for it, and lime that lies
/// there always does: it is no rest.
void leave_in_stock(const FeedFile& file, Ration& answer) {
    if (file.stock.empty() || !answer.date) return;
    std::vector<Rest> rest;
    const std::vector<StockItem> stock = stock_on(file.stock, file.diary, *answer.date);
    for (Rest& one : answer.rest) {
        if (one.thing.kept && part_of(*one.thing.feedstock) != Part::scraps) continue;
        const bool waits = std::any_of(stock.begin(), stock.end(), [&](const StockItem& item) {
            if (item.thing.feedstock->id != one.thing.feedstock->id) return false;
            return answer.next_feeding && item.keep == StockKeep::fresh &&
                   item.good_days >= answer.next_feeding->day;
        });
        if (!waits) rest.push_back(std::move(one));
    }
    answer.rest = std::move(rest);
}

}  // namespace

RationInput ration_input(const FeedFile& file, UnitSystem units) {
    RationInput in = ration_input_of(file.diary, day_zero(file), units);
    if (file.blend) {
        for (const WrittenPortion& written : *file.blend)
            in.things.push_back({written.portion.feedstock, written.label, written.portion.wet_mass,
                                 written.amount});
    } else {
        for (const Portion& portion : planned_today(file))
            in.things.push_back({portion.feedstock, portion.feedstock->name, portion.wet_mass, {}});
    }
    if (file.balance) {
        const auto& entries = file.balance->problem.entries;
        for (std::size_t i = 0; i < entries.size(); ++i) {
            if (is_listed(in.things, *entries[i].feedstock)) continue;
            ThingAtHand thing{entries[i].feedstock, entries[i].label, entries[i].most,
                              file.balance->amounts[i], entries[i].use_up_priority > 0};
            in.things.push_back(std::move(thing));
        }
    }
    add_stock(file, in);
    return in;
}

Ration ration_of(const FeedFile& file, UnitSystem units) {
    Ration answer = ration(ration_input(file, units));
    put_before(answer.assumed, file);
    leave_in_stock(file, answer);
    return answer;
}

CheckOfFile check_and_advice_of(const FeedFile& file, std::optional<Duration> away,
                                UnitSystem units) {
    RationInput in = ration_input(file, units);
    in.away = away;
    CheckOfFile answer{check(in, planned_today(file)), {}};
    put_before(answer.check.assumed, file);
    put_before(answer.check.ration.assumed, file);
    leave_in_stock(file, answer.check.ration);
    answer.advice = advice_of(in.bed, answer.check.ration, away);
    return answer;
}

CheckResult check_of(const FeedFile& file, UnitSystem units) {
    return check_and_advice_of(file, std::nullopt, units).check;
}

HarvestAnswer harvest_of(const FeedFile& file, std::optional<HarvestWay> way, UnitSystem units) {
    HarvestAnswer answer = feed::harvest_of(file.diary, ration_input(file, units), way);
    put_before(answer.ration.assumed, file);
    leave_in_stock(file, answer.ration);
    put_before(answer.after.ration.assumed, file);
    return answer;
}

RefreshAnswer refresh_of(const FeedFile& file, RefreshChange change, const RefreshOptions& options,
                         UnitSystem units) {
    RefreshAnswer answer = refresh(ration_input(file, units), change, options);
    put_before(answer.today.assumed, file);
    put_before(answer.after.ration.assumed, file);
    return answer;
}

Errors missing_section(const FeedFile& file, std::string_view section, std::string_view example) {
    const std::string key(section);
    return {make_error(ErrorCode::missing_value, key, "", key + ": " + std::string(example),
                       "the file has no section \"" + key + "\"", file.name)};
}

Result<BlendOfFile> blend_of(const FeedFile& file, UnitSystem units) {
    if (!file.blend) return missing_section(file, "blend", "- 1.2 kg coffee grounds");
    BlendOfFile answer;
    for (const auto& written : *file.blend) {
        answer.portions.push_back(written.portion);
        answer.measures.push_back(measure_text(written.portion.wet_mass, *written.portion.feedstock,
                                               written.amount, units));
    }
    answer.properties = blend(answer.portions);
    for (TakeOut& one : answer.properties.take_out) {
        const auto written = std::find_if(
            file.blend->begin(), file.blend->end(),
            [&](const WrittenPortion& w) { return w.portion.feedstock->id == one.feedstock; });
        if (written != file.blend->end())
            one.label = plain_name(written->label, *written->portion.feedstock);
    }
    put_before(answer.properties.assumed, file);
    return answer;
}

Result<BalanceOfFile> balance_of(const FeedFile& file, UnitSystem units) {
    if (!file.balance)
        return missing_section(file, "balance",
                               "{at_hand: [1.2 kg coffee grounds, any shredded cardboard]}");
    WrittenBalance asked = *file.balance;
    const bool house = offer_house_bedding(asked);
    if (file.has_bed && asked.problem.place == Place::worm_bed)
        asked.problem.worms_kg = completed(bed_on_day_zero(file)).worms.value.in_kilograms();
    auto answer = balance(asked.problem);
    if (!answer) {
        Errors errors = answer.errors();
        for (auto& error : errors)
            error.file = file.name;
        return errors;
    }
    BalanceOfFile result{std::move(answer).value(), {}, std::move(asked)};
    put_before(result.answer.assumed, file);
    if (house)
        result.answer.assumed.insert(
            result.answer.assumed.begin(),
            {"the file lists no bedding: torn cardboard from the house is offered, with water from "
             "the tap",
             Grade::d});
    for (std::size_t i = 0; i < result.answer.portions.size(); ++i) {
        const Portion& portion = result.answer.portions[i];
        result.measures.push_back(
            measure_text(portion.wet_mass, *portion.feedstock, result.asked.amounts[i], units));
    }
    return result;
}

std::string mend_text(const Mend& mend, const WrittenBalance& asked, UnitSystem units) {
    std::string with;
    for (std::size_t i = 0; i < mend.with.size(); ++i) {
        const auto& portion = mend.with[i];
        if (!(portion.wet_mass.in_kilograms() > 0.0)) continue;
        with += (with.empty() ? "" : ", ") +
                measure_text(portion.wet_mass, *portion.feedstock, asked.amounts[i], units) + " " +
                asked.problem.entries[i].label;
    }
    return "To mend it, add " +
           measure_and_weight_text(mend.add, *mend.feedstock, std::nullopt, units) + " of " +
           plain_name(mend.label, *mend.feedstock) + "." +
           (with.empty() ? "" : " With it go " + with + ".");
}

Forecast forecast_of(const FeedFile& file, std::size_t days, UnitSystem units) {
    return forecast_and_ration_of(file, days, units).forecast;
}

ForecastOfFile forecast_and_ration_of(const FeedFile& file, std::size_t days, UnitSystem units) {
    const RationInput in = ration_input(file, units);
    ForecastOfFile answer{ration(in), {}};
    put_before(answer.ration.assumed, file);
    leave_in_stock(file, answer.ration);
    ForecastOptions options;
    options.days = days - 1;
    options.units = units;
    options.ranges = in.ranges;
    options.new_food = in.new_food;
    // What is followed is what should be done: today's ration, and later feedings as they are
    // written.
    std::vector<Feeding> feedings;
    if (!in.things.empty() || answer.ration.answer == RationAnswer::act_first) {
        Feeding today{feed::days(0), portions_of(answer.ration.put_in), {}, {}};
        if (!today.portions.empty()) feedings.push_back(std::move(today));
    }
    for (Feeding& later : planned_feedings(file)) {
        if (in_days(later.day) >= 1.0) feedings.push_back(std::move(later));
    }
    answer.forecast = forecast(in.bed, feedings, options);
    if (in.looks_learned_from > 0) {
        answer.forecast.assumed.insert(
            answer.forecast.assumed.begin(),
            {"The rates are this bin's own, learned from " +
                 counted(in.looks_learned_from, "look") + " at its food.",
             Grade::b});
    }
    put_before(answer.forecast.assumed, file);
    // A harvest later than the last day shown is not told, so it is not looked for.
    tell_harvest(harvest_time(in, answer.forecast.days + 1), answer.forecast);
    return answer;
}

}  // namespace feed::io
