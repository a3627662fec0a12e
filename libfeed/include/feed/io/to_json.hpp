#pragma once
#include <cstdint>
#include <span>
#include <string>

#include "feed/balance/balance_answer.hpp"
#include "feed/bed/hazard.hpp"
#include "feed/bed/ranged.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/portion.hpp"
#include "feed/forecast/forecast_result.hpp"
#include "feed/io/answers.hpp"
#include "feed/io/diary_news.hpp"
#include "feed/io/json_writer.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/estimate.hpp"
#include "feed/ration/check.hpp"
#include "feed/ration/signs.hpp"

// The JSON forms of answers. Keys are stable; masses are kilograms or grams as the key says,
// volumes litres, temperatures degrees C, times days, fractions 0 to 1. A computed quantity is
// {value, low, high, grade}, or {at_least, covered, grade}, or null with its key in `unknown`.
namespace feed::io {

/// {"errors": [{field, value, allowed, message, file, line, column}]}
std::string to_json(const Errors& errors);

/// A blend and its portions.
/// measures: the keeper's measure of each portion, in order (see measure_text.hpp).
std::string to_json(const BlendProperties& blend, std::span<const Portion> portions,
                    std::span<const std::string> measures);

/// The answer of a balance. measures: of each portion, in order.
std::string to_json(const BalanceAnswer& answer, std::span<const std::string> measures);

/// The answer of a balance for a file with a bed: the ration is the balance.
std::string balance_with_bed_json(const Ration& ration);
/// A ration: what to put in today, and when again.
std::string to_json(const Ration& ration);

/// The answer of a check with the advice beside it. Values and limits are in the `unit` beside
/// them.
std::string to_json(const CheckResult& result, const KeeperAdvice& advice = {});

/// The answer of a forecast: `days` entries in every array, the first for day 0.
/// ration: what it follows; its next feeding is then the one that is given.
std::string to_json(const Forecast& forecast, const Ration* ration = nullptr);

/// The answer of a harvest, with the ration of the bed as it stands and of the bed after.
std::string to_json(const HarvestAnswer& answer);
/// The answer of a refresh, the same.
std::string to_json(const RefreshAnswer& answer, const RefreshOptions& options);

/// What a diary teaches.
std::string to_json(const DiaryNews& news);
/// What may be behind some signs, likeliest first; `steps` are indices into `causes`.
std::string to_json(const SignsAnswer& answer);

/// Everything known of one feedstock.
std::string to_json(const Feedstock& feedstock);
/// A list of feedstocks in short: {"feedstocks": [{id, name, group, stance, moisture, cn_ratio}]}.
std::string to_json(std::span<const Feedstock> feedstocks);

/// Writes what is never fed under the key "take_out".
void write_take_out(JsonWriter& json, std::span<const TakeOut> take_out);
/// Writes the answer of a balance as a value of `json`.
void write_balance(JsonWriter& json, const BalanceAnswer& answer,
                   std::span<const std::string> measures);
/// Writes a ration as a value of `json`.
void write_ration(JsonWriter& json, const Ration& ration);
/// Writes the members of so much of a thing: its feedstock, what the keeper calls it, its mass.
void write_thing(JsonWriter& json, const ThingAtHand& thing, double wet_kg);
/// What goes in as a list of a key, each in the measures of its own units.
void write_put_in(JsonWriter& json, std::string_view key, std::span<const PutIn> put_in);
/// Writes the day of the next feeding under the key "next_feeding".
void write_next_feeding(JsonWriter& json, const Ration& ration);
/// Writes the cautions of a feeding under the key "cautions".
void write_caution_findings(JsonWriter& json, std::span<const CautionFinding> cautions);
/// Writes one computed number as a value of `json`; `scale` turns it into the unit of its key.
void write_quantity(JsonWriter& json, const Estimate<double>& quantity, double scale = 1.0);
/// Writes a key and a number with its range, a judgement.
void write_range(JsonWriter& json, std::string_view key, const Ranged& range);
/// Writes the words of some caution bits as an array.
void write_cautions(JsonWriter& json, std::uint32_t cautions);
/// Writes a key and an array of texts.
void write_texts(JsonWriter& json, std::string_view key, std::span<const std::string> texts);
/// Writes what was assumed as an array of sentences.
void write_assumed(JsonWriter& json, std::span<const Assumption> assumed);
/// Writes portions as [{feedstock, wet_mass_kg, measure}].
void write_portions(JsonWriter& json, std::span<const Portion> portions,
                    std::span<const std::string> measures);

}  // namespace feed::io
