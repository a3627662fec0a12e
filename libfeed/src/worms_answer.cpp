#include "feed/io/worms_answer.hpp"
#include "feed/io/file_kind.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/amount_mass.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/quantity_text.hpp"

namespace feed::io {
namespace {

constexpr std::array<std::string_view, 5> of_a_week{" a week", " per week", " each week",
                                                    " every week", " weekly"};
constexpr std::array<std::string_view, 5> of_a_day{" a day", " per day", " each day", " every day",
                                                   " daily"};

/// A text without what people say of how often, cut from each part.
std::string without_tails(std::string text, const std::array<std::string_view, 5>& tails) {
    for (const std::string_view tail : tails) {
        for (auto at = text.find(tail); at != std::string::npos; at = text.find(tail, at)) {
            const auto end = at + tail.size();
            if (end < text.size() && text[end] != ',' && text[end] != ';' && text[end] != '.') {
                at = end;
                continue;
            }
            text.erase(at, tail.size());
        }
    }
    return text;
}

/// The scraps of a week as what is fed is read.
Result<std::vector<ThingAtHand>> read_scraps(const std::vector<std::string>& texts,
                                             std::vector<Assumption>& assumed) {
    const bool one_sentence = std::all_of(texts.begin(), texts.end(), [](const std::string& text) {
        return text.find(' ') == std::string::npos;
    });
    std::string all;
    for (const std::string& text : texts)
        all += (all.empty() ? "" : one_sentence ? " " : ", ") + text;
    // Scraps are those of a week, unless they are said to be of a day.
    const std::string by_day = without_tails(all, of_a_day);
    const std::string by_week = without_tails(all, of_a_week);
    if (by_day != all && by_week != all)
        return make_error(ErrorCode::contradiction, "scraps", all, "all of a day, or all of a week",
                          "some of these scraps are of a day and some of a week");
    const double days = by_day != all ? 7.0 : 1.0;
    all = by_day != all ? by_day : by_week;
    std::vector<ThingAtHand> things;
    if (all.find_first_not_of(" ,") == std::string::npos) return things;
    auto file = read_portions({all});
    if (!file) return file.errors();
    assumed.insert(assumed.end(), file->assumed.begin(), file->assumed.end());
    for (const WrittenPortion& one : file->blend.value_or(std::vector<WrittenPortion>()))
        things.push_back({one.portion.feedstock, one.label,
                          wet_kilograms(days * one.portion.wet_mass.in_kilograms()),
                          days > 1.0 ? std::optional<Amount>() : one.amount});
    detail::join_repeated(things);
    return things;
}

/// A number of people, meals or cups; 0 where nothing is said. @param least  0 for what a household
/// may well not have.
Result<double> read_heads(const std::string& text, std::string_view field, int least = 1) {
    if (text.empty()) return 0.0;
    const auto number = parse_whole(text, least, most_of_household);
    if (number) return static_cast<double>(*number);
    return about(number.errors(), field, text);
}

Result<std::optional<HouseholdScraps>> read_household(const WormsAsked& asked) {
    const auto people = read_heads(asked.people, "people");
    const auto meals = read_heads(asked.meals, "meals");
    const auto coffee = read_heads(asked.coffee, "coffee", 0);
    Errors errors;
    for (const auto* one : {&people, &meals, &coffee}) {
        if (!*one) errors.insert(errors.end(), one->errors().begin(), one->errors().end());
    }
    if (!errors.empty()) return errors;
    if (*people > 0.0 && *meals > 0.0)
        return make_error(ErrorCode::contradiction, "meals", asked.meals, "people or meals",
                          "people stand for all their meals; say one of the two");
    const Household who{*people, *meals, *coffee};
    if (!who.any()) return std::optional<HouseholdScraps>();
    return std::optional(household_scraps(who));
}

constexpr std::size_t most_samples = 1000;
constexpr double most_in_sample = 100000.0;

Result<std::vector<double>> read_counts(const std::string& text) {
    std::vector<double> counts;
    std::string word;
    const std::string all = text + ",";
    for (const char c : all) {
        if (c != ',' && c != ' ' && c != ';') {
            word += c;
            continue;
        }
        if (word.empty()) continue;
        const auto number = parse_whole(word, 0, static_cast<int>(most_in_sample));
        if (!number)
            return make_error(ErrorCode::not_a_number, "census", word,
                              "whole numbers from 0 to 100000, one a sample, such as "
                              "\"12, 30, 7, 18\"",
                              "\"" + word + "\" is no count of worms");
        counts.push_back(static_cast<double>(*number));
        word.clear();
    }
    if (counts.size() < 2 || counts.size() > most_samples)
        return make_error(ErrorCode::out_of_range, "census", text,
                          "2 to 1000 counts, such as \"12, 30, 7, 18\"",
                          "one sample does not tell how much samples differ; take four or more");
    return counts;
}

/// A volume with its range: as written, or a handful.
Result<Ranged> read_litres(std::string_view text, std::string_view whole) {
    const auto wrong = [&](std::string message) {
        return make_error(ErrorCode::unit_unknown, "sample", std::string(whole),
                          "a volume such as \"2 L\", \"a cup\" or \"2 L of 40 L\"",
                          std::move(message));
    };
    const auto amount = parse_amount(text);
    if (!amount) return wrong(amount.errors().front().message);
    if (amount->kind == AmountKind::measure && amount->measure == Measure::handful)
        return amount->count * Ranged(default_handful_litres, default_handful_litres_low,
                                      default_handful_litres_high);
    const double litres = in_litres(amount->volume);
    if (amount->kind == AmountKind::mass || !(litres > 0.0))
        return wrong("how much room does a sample take?");
    const double off = census::measured_cup;
    return Ranged(litres, litres * std::min(amount->low_share, 1.0 / off),
                  litres * std::max(amount->high_share, off));
}

Result<CensusInput> read_census(const WormsAsked& asked, const std::optional<Bed>& bed) {
    auto counts = read_counts(asked.census);
    if (!counts) return counts.errors();
    CensusInput in;
    in.counts = std::move(counts).value();
    if (asked.sample.empty())
        return make_error(ErrorCode::missing_value, "sample", "",
                          bed ? "the size of each sample, such as \"500 ml\""
                              : "the size of each sample and of the bed, such as \"2 L of 40 L\"",
                          "how large was each sample?");
    const std::string_view said = asked.sample;
    const auto of = said.find(" of ");
    const auto sample = read_litres(said.substr(0, of), said);
    if (!sample) return sample.errors();
    in.sample_l = *sample;
    if (of != std::string_view::npos) {
        const auto all = read_litres(said.substr(of + 4), said);
        if (!all) return all.errors();
        in.bed_l = all->value;
    }
    if (bed) {
        const CompletedBed full = completed(*bed);
        in.species = full.species;
        if (of == std::string_view::npos) in.bed_l = in_litres(full.contents);
    } else if (of == std::string_view::npos) {
        return make_error(ErrorCode::missing_value, "sample", asked.sample,
                          "the sample and the bed, such as \"" + asked.sample + " of 40 L\"",
                          "how much bed is there in all?");
    }
    if (in.sample_l.value * static_cast<double>(in.counts.size()) > in.bed_l)
        return make_error(ErrorCode::out_of_range, "sample", asked.sample,
                          "samples that are together no more than the bed",
                          "so many samples are more than the whole bed");
    return in;
}

/// The file of a call, or the bin that its words describe.
Result<std::optional<FeedFile>> read_bin_asked(const WormsAsked& asked) {
    if (asked.file && !asked.bin.empty())
        return make_error(ErrorCode::contradiction, "file", "", "a file, or the bin in words",
                          "the file says what bin it is; leave the rest out");
    if (asked.file || asked.bin.empty()) return asked.file;
    auto made = read_bin_words(asked.bin, {}, false);
    if (made) return std::optional(std::move(made).value());
    Errors errors = made.errors();
    for (Error& error : errors) {
        if (error.field == "bed: container") error.field = "bin";
        for (const std::string_view key : {"worms", "temperature", "squeeze"})
            if (error.field == "bed: " + std::string(key)) error.field = key;
    }
    return errors;
}

}  // namespace

Result<WormsAnswer> worms_of(const WormsAsked& asked) {
    if (asked.file) {
        if (const auto refused = wrong_kind(*asked.file, "worms")) return *refused;
    }
    WormsAnswer answer;
    answer.units = asked.units;
    auto file = read_bin_asked(asked);
    auto household = read_household(asked);
    auto things = read_scraps(asked.scraps, answer.assumed);
    Errors errors;
    const auto collect = [&](const auto& read) {
        if (!read) errors.insert(errors.end(), read.errors().begin(), read.errors().end());
    };
    collect(file);
    collect(household);
    collect(things);
    if (!errors.empty()) return errors;
    std::optional<FeedFile> bin = std::move(file).value();
    if (bin && asked.today) bin->today = asked.today;
    const bool stands = asked.file || !asked.bin.container.empty();
    answer.expected = *household;
    std::vector<ThingAtHand> scraps = std::move(things).value();
    if (answer.expected) {
        for (ThingAtHand& thing : things_of(*answer.expected))
            scraps.push_back(std::move(thing));
    }
    if (!asked.census.empty() || !asked.sample.empty()) {
        auto counted = read_census(
            asked, stands ? std::optional(bed_on_day_zero(*bin)) : std::optional<Bed>());
        if (!counted) return counted.errors();
        answer.counted = std::move(counted).value();
        answer.census = worm_census(*answer.counted);
    }
    if (stands) {
        const RationInput in = ration_input(*bin, asked.units);
        answer.bin = bin_now(in, bin->diary, scraps);
    } else if (!scraps.empty()) {
        answer.need = worm_need(scraps, bin ? bin->diary.bed : Bed{});
    } else if (!answer.census) {
        return make_error(ErrorCode::missing_value, "scraps", "",
                          "a file, the scraps of a week, people, meals, coffee or a census",
                          "how many worms for what? Say for instance 2 kg apples a week");
    }
    return answer;
}

}  // namespace feed::io
