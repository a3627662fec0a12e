#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/bed/advice.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/forecast/forecast_result.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/ration/check.hpp"
#include "feed/ration/harvest.hpp"
#include "feed/ration/refresh.hpp"

// The answers to a feed file: what each verb of the command says of it. Every binding that takes a
// file or its text goes through here.
namespace feed::io {

/// Days in a forecast for which nobody said how long, day 0 included.
inline constexpr std::size_t usual_forecast_days = 28;

/// The blend of a file, its portions and the keeper's measure of each.
struct BlendOfFile {
    std::vector<Portion> portions;
    std::vector<std::string> measures;
    BlendProperties properties;
};

/// The balance of a file and the keeper's measure of each portion.
struct BalanceOfFile {
    BalanceAnswer answer;
    std::vector<std::string> measures;
    /// What was asked: the file's, with house bedding and water where it lists no bedding.
    WrittenBalance asked;
};

/// The problem of a file that lacks a section. example: a line that would do.
Errors missing_section(const FeedFile& file, std::string_view section, std::string_view example);

/// Answers `feed blend`. Errors: missing_value when the file has no blend. Threads: pure.
Result<BlendOfFile> blend_of(const FeedFile& file, UnitSystem units);
/// Answers `feed balance` for a file without a bed (with one, the answer is `ration_of`). Errors:
/// missing_value, and those of feed::balance. Threads: pure.
Result<BalanceOfFile> balance_of(const FeedFile& file, UnitSystem units);
/// The addition that mends a balance in words, with what goes with it. Threads: pure.
std::string mend_text(const Mend& mend, const WrittenBalance& asked, UnitSystem units);
/// What a ration of a file is decided from: the bed on day 0 with what was seen, and as things at
/// hand what the blend and the planned feeding of day 0 name, then what the balance lists. One
/// reading for every verb. Threads: pure.
RationInput ration_input(const FeedFile& file, UnitSystem units = UnitSystem::metric);
/// Answers `feed ration`. Threads: pure.
Ration ration_of(const FeedFile& file, UnitSystem units = UnitSystem::metric);
/// Answers `feed check`: the planned feeding judged as written, and the ration. A file that plans
/// nothing is judged without food. Threads: pure.
CheckResult check_of(const FeedFile& file, UnitSystem units = UnitSystem::metric);
/// What a keeper is told beside the hazards.
struct KeeperAdvice {
    std::optional<AwayAdvice> away;                ///< where a time away was asked for
    std::optional<TemperatureAdvice> temperature;  ///< where the bed is said to be cold or warm
    /// In the first weeks of a bed whose age is said; `first_weeks_text` is the same in words.
    std::optional<std::array<RampWeek, 13>> first_weeks;
    std::string first_weeks_text;
};

/// A check with the advice beside it.
struct CheckOfFile {
    CheckResult check;
    KeeperAdvice advice;
};
/// The same with advice for the bed as it is today and for what the ration puts in: where its
/// temperature is outside what its worms like, where it is younger than three months, and for a
/// time away.
/// @param away  above 0; worked out up to 12 weeks. Threads: pure.
CheckOfFile check_and_advice_of(const FeedFile& file, std::optional<Duration> away = std::nullopt,
                                UnitSystem units = UnitSystem::metric);

/// Answers `feed forecast` with the bin's own rates where its diary tells them, and with what the
/// ration puts in today. days: 2 to 366, day 0 included.
/// Threads: pure.
Forecast forecast_of(const FeedFile& file, std::size_t days, UnitSystem units = UnitSystem::metric);
/// A forecast and the ration that it follows.
struct ForecastOfFile {
    Ration ration;
    Forecast forecast;
};
/// The same with the ration: today's feeding is what the ration puts in, later ones are as written.
ForecastOfFile forecast_and_ration_of(const FeedFile& file, std::size_t days,
                                      UnitSystem units = UnitSystem::metric);

/// Answers `feed harvest`: the diary's own harvests set the amount. Threads: pure.
HarvestAnswer harvest_of(const FeedFile& file, std::optional<HarvestWay> way = std::nullopt,
                         UnitSystem units = UnitSystem::metric);
/// Answers `feed refresh` for any change but a time away, which is a check's. Threads: pure.
RefreshAnswer refresh_of(const FeedFile& file, RefreshChange change,
                         const RefreshOptions& options = {}, UnitSystem units = UnitSystem::metric);

/// What a page beside an answer is made as.
enum class SheetForm : std::uint8_t { none, text, html, svg };

/// What may be asked of a verb beyond its file; each verb looks at its own.
struct AnswerOptions {
    UnitSystem units = UnitSystem::metric;
    std::size_t days = usual_forecast_days;  ///< of a forecast, 2 to 366
    std::optional<Duration> away;            ///< of a check
    bool svg = false;                        ///< a picture of a forecast or of a trial read
    SheetForm sheet = SheetForm::none;       ///< of a forecast (text, html) or a plan (html, svg)
    bool letter = false;                     ///< paper of a plan's sheet; else A4
    bool yaml = false;                       ///< a plan as part of a feed file
    std::optional<HarvestWay> way;           ///< of a harvest
    std::optional<RefreshChange> change;     ///< of a refresh
    RefreshOptions refresh;                  ///< the same
};

/// The options of work on a bed in words, "" where left out; each verb looks at its own.
struct WorkWords {
    std::string way;          ///< "light"
    std::string change;       ///< "bedding"
    std::string share;        ///< "a third"
    std::string temperature;  ///< "4 C"
    std::string away;         ///< "3 weeks"
};
/// Reads them into options. @param verb  "harvest" or "refresh". @param prefix  of the names that
/// errors say: "--" or "". Nothing where all can be used. Errors: those of each; missing_value for
/// a refresh without a change, a time away without its time, a winter without its cold.
std::optional<Errors> read_work(std::string_view verb, const WorkWords& words,
                                std::string_view prefix, AnswerOptions& options);

/// The JSON answer of a verb ("blend", "balance", "ration", "check", "forecast", "harvest",
/// "refresh", "trial plan",
/// "trial read") to a file; pictures and pages stand in it as texts under `svg`, `sheet`, `yaml`.
/// Errors: out_of_range for another verb; those of the verb; missing_value for a sheet of a file
/// without a day. Threads: pure.
Result<std::string> answer_json(std::string_view verb, const FeedFile& file,
                                const AnswerOptions& options = {});

/// A time away in words: "3 weeks". field: what errors call it. Errors: those of parse_quantity;
/// out_of_range outside 1 day to 12 weeks.
Result<Duration> time_away(std::string_view words, std::string_view field);

/// The picture of a forecast of a file.
std::string forecast_picture(const FeedFile& file, const ForecastOfFile& answer, UnitSystem units);
/// The page that hangs beside the bin of a file. Errors: missing_value where the file names no day.
Result<std::string> forecast_sheet(const FeedFile& file, const Ration& ration, SheetForm form,
                                   UnitSystem units);

/// The rows of the table whose names fit the words; all for "". Errors: unknown_feedstock with the
/// nearest names.
Result<std::vector<Feedstock>> feedstocks_for(std::string_view words);
/// The same in short, as JSON.
Result<std::string> table_json(std::string_view words);
/// The versions of the library and of its table, as JSON.
std::string version_json();

}  // namespace feed::io
