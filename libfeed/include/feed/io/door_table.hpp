#pragma once
#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

// What may be asked through the one door, said once: the check of a request, its JSON Schema
// (data/schema/request.schema.json), docs/door.md and the tests all come from this table.
namespace feed::io::door {

/// What a member of a request holds.
enum class MemberKind : std::uint8_t {
    text,    ///< one text
    texts,   ///< a text, or a list of texts
    files,   ///< a list of feed files, each as below
    file,    ///< a feed file: an object, or its text (YAML or JSON)
    date,    ///< "2026-03-14"
    whole,   ///< a whole number from `lowest` to `highest`
    truth,   ///< true or false
    choice,  ///< one of the words in `choices`
};

/// One member of a request.
struct Member {
    std::string_view name;
    MemberKind kind;
    std::string_view meaning;
    std::string_view example;    ///< as it stands in JSON
    std::string_view option{};   ///< of the command, where it has one: "--away"
    std::string_view choices{};  ///< of a choice, parted by blanks
    int lowest = 0;              ///< of a whole number
    int highest = 0;
};

/// A member of a verb, and whether the verb needs it.
struct Asked {
    const Member* member;
    bool needed = false;
};

/// Whose files a verb answers.
enum class Reads : std::uint8_t {
    bin,           ///< of worm bins, and of nothing else
    bin_or_trial,  ///< of worm bins; also a trial alone, which describes no bed
    heap,          ///< of heaps
    either,        ///< of all of them
};

/// One verb of the door; of the same name and meaning as that of the command.
struct Verb {
    std::string_view name;
    std::string_view meaning;
    std::span<const Asked> members;
    std::string_view adds{};   ///< what the answer has beyond `feed VERB --json`, in words
    Reads reads = Reads::bin;  ///< what else a verb answers has to be said
};

inline constexpr Member verb{"verb", MemberKind::text, "What is asked.", "\"ration\""};
inline constexpr Member file{
    "file", MemberKind::file,
    "The file of a bin as an object, or as its text (YAML or JSON). Its form: files.md.",
    "{\"libfeed\": 1, \"bed\": {\"container\": \"60 L tote\", \"worms\": \"1 lb\"}}"};
inline constexpr Member name{"name", MemberKind::text, "What errors call the file.",
                             "\"tote.yaml\""};
inline constexpr Member things{
    "things", MemberKind::texts,
    "What there is to feed, in everyday words. Beside a file they stand in "
    "place of its own blend and balance.",
    "[\"3 apples\", \"a cup of coffee grounds\"]", "WORDS"};
inline constexpr Member bin{"bin", MemberKind::text, "Without a file: the bin.", "\"60 L tote\"",
                            "--bin"};
inline constexpr Member worms{"worms", MemberKind::text, "The worms.", "\"1 lb\"", "--worms"};
inline constexpr Member temperature{"temperature", MemberKind::text, "How warm it is.", "\"20 C\"",
                                    "--temperature"};
inline constexpr Member squeeze{"squeeze", MemberKind::text, "What a squeezed handful does.",
                                "\"damp\"", "--squeeze"};
inline constexpr Member date{
    "date", MemberKind::date,
    "The day that counts as today. The door reads no clock: where it is not needed, it is the last "
    "day of the file when left out.",
    "\"2026-03-14\"", "--date"};
inline constexpr Member units{
    "units",
    MemberKind::choice,
    "Units of the texts in the answer; left out, those that the file names, else metric.",
    "\"us\"",
    "--units",
    "metric us"};
inline constexpr Member table_words{
    "words", MemberKind::text, "Words of a name; every row when left out.", "\"coffee\"", "WORDS"};
inline constexpr Member words{"words", MemberKind::text, "The name of a feedstock.",
                              "\"coffee grounds\"", "WORDS"};
inline constexpr Member away{"away", MemberKind::text,
                             "A time away: what to do before it. 1 day to 12 weeks.", "\"3 weeks\"",
                             "--away"};
inline constexpr Member way{"way",
                            MemberKind::choice,
                            "How castings and worms are parted; aside or trays when left out.",
                            "\"light\"",
                            "--way",
                            "aside light trays half"};
inline constexpr Member change{
    "change",      MemberKind::choice, "What is done to the bed.",
    "\"bedding\"", "--change",         "bedding flush dry split move away winter"};
inline constexpr Member share{"share", MemberKind::text,
                              "Of a change of bedding: how much of the bed; a third when left out.",
                              "\"half\"", "--share"};
inline constexpr Member there{"temperature", MemberKind::text,
                              "How warm it is where the bin goes; how cold the bed gets in winter.",
                              "\"12 C\"", "--temperature"};
inline constexpr Member days{"days",
                             MemberKind::whole,
                             "Days to show, today the first; 28 when left out.",
                             "28",
                             "--days",
                             {},
                             2,
                             366};
inline constexpr Member svg{"svg", MemberKind::truth,
                            "Whether the answer has a picture (`svg`, a text).", "true", "--svg"};
inline constexpr Member sheet{"sheet",
                              MemberKind::choice,
                              "The answer has the page to hang beside the bin (`sheet`, a text): "
                              "text or HTML.",
                              "\"html\"",
                              "--sheet",
                              "text html"};
inline constexpr Member trial_sheet{
    "sheet",
    MemberKind::choice,
    "The answer has the sheet to hang up (`sheet`): one HTML text, or a list of SVG pages of which "
    "the last is the key.",
    "\"html\"",
    "--sheet",
    "html svg"};
inline constexpr Member paper{
    "paper",      MemberKind::choice, "Paper of the sheet; a4 when left out.",
    "\"letter\"", "--paper",          "a4 letter"};
inline constexpr Member yaml{"yaml", MemberKind::truth,
                             "Whether the answer has the plan as part of a feed file (`yaml`).",
                             "true", "--yaml"};
inline constexpr Member note_words{"words", MemberKind::text,
                                   "What was done or seen, in everyday words.",
                                   "\"fed 3 apples and a cup of coffee grounds\"", "WORDS"};
inline constexpr Member by{"by", MemberKind::text, "Who did or saw it.", "\"Ada\"", "--by"};
inline constexpr Member signs{"signs", MemberKind::texts, "The signs of a bin.",
                              "[\"worms climbing\", \"sour smell\"]", "SIGNS"};
inline constexpr Member sign_file{"file", MemberKind::file, "The bin whose bed orders the causes.",
                                  "{\"libfeed\": 1, \"bed\": {\"worms\": \"1 lb\"}}", "--bed"};
inline constexpr Member container{"container", MemberKind::text, "Kind of bin.", "\"tote\"",
                                  "--container"};
inline constexpr Member size{"size", MemberKind::text, "What it holds.", "\"60 L\"", "--size"};
inline constexpr Member bedding{"bedding", MemberKind::text,
                                "Bedding in it, or at hand for a new bin (any amount without one).",
                                "\"2 kg shredded cardboard\"", "--bedding"};
inline constexpr Member age{"age", MemberKind::text,
                            "How long worms have lived in it, or new; new where neither this nor "
                            "`squeeze` is said.",
                            "\"new\"", "--age"};
inline constexpr Member title{"title", MemberKind::text, "What you call the bin.", "\"Balcony\"",
                              "--title"};

inline constexpr Member bins{
    "bins", MemberKind::files, "The file of each bin, as an object or as its text.",
    "[{\"libfeed\": 1, \"bed\": {\"date\": \"2026-03-14\", \"worms\": \"1 lb\"}, \"stock\": [{\"date\": \"2026-03-14\", "
    "\"portions\": [\"1 kg frozen melon rind\"]}]}]",
    "BIN.yaml"};
inline constexpr Member have{
    "have", MemberKind::texts,
    "What is at hand and what comes, beside the stocks of the bins; before what comes later stand "
    "its day and a colon.",
    "[\"2 kg coffee grounds\", \"Thu: 3 kg lettuce\"]", "--have"};
inline constexpr Member since{"since", MemberKind::text,
                              "From this day on; all of the diary when left out.", "\"2026-03-14\"",
                              "--since"};
inline constexpr Member until{"date", MemberKind::date,
                              "Up to this day; all of the diary when left out.", "\"2026-05-14\"",
                              "--date"};
inline constexpr Member heap_file{
    "file", MemberKind::file,
    "The file of a heap as an object, or as its text (YAML or JSON). Its form: files.md.",
    "{\"libfeed\": 1, \"kind\": \"heap\", \"balance\": {\"at_hand\": [\"9 kg grass clippings\", \"any dry leaves\"]}}"};
inline constexpr Member heap_things{
    "things", MemberKind::texts, "What is at hand for the heap. In place of a file.",
    "[\"3 buckets grass\", \"6 buckets leaves\", \"wood chips\"]", "WORDS"};
inline constexpr Member heap_worms{"worms", MemberKind::text,
                                   "The worms that it may go to: how much of it they bear.",
                                   "\"1 lb\"", "--worms"};
inline constexpr Member openings{"openings",
                                 MemberKind::whole,
                                 "Most openings of a bin in the week; 2 when left out.",
                                 "2",
                                 "--openings",
                                 {},
                                 1,
                                 3};

inline constexpr Member week_sheet{
    "sheet",
    MemberKind::choice,
    "The answer has the page for the wall (`sheet`), a row a day and a column a bin: one HTML text, "
    "or a list of SVG pages.",
    "\"html\"",
    "--sheet",
    "html svg"};

inline constexpr Member scraps{"scraps", MemberKind::texts,
                               "The scraps of a week, in everyday words.",
                               "[\"2 kg apples\", \"500 g coffee grounds\"]", "WORDS"};
inline constexpr Member people{"people",
                               MemberKind::whole,
                               "People who eat at home: scraps to expect.",
                               "4",
                               "--people",
                               {},
                               1,
                               100000};
inline constexpr Member meals{
    "meals", MemberKind::whole, "Meals a day in all, in place of people.", "30", "--meals", {}, 1,
    100000};
inline constexpr Member coffee{
    "coffee", MemberKind::whole, "Cups of coffee a day in all.", "6", "--coffee", {}, 0, 100000};
inline constexpr Member census{"census", MemberKind::text,
                               "Worms counted in each sample of the bed.", "\"12, 30, 7, 18\"",
                               "--census"};
inline constexpr Member sample{"sample", MemberKind::text,
                               "Size of each sample; without a bin that of the bed too.",
                               "\"2 L of 40 L\"", "--sample"};

inline constexpr std::array<Asked, 1> of_table{{{&table_words}}};
inline constexpr std::array<Asked, 1> of_show{{{&words, true}}};
inline constexpr std::array<Asked, 4> of_blend{{{&file}, {&name}, {&things}, {&units}}};
inline constexpr std::array<Asked, 9> of_ration{
    {{&file}, {&name}, {&things}, {&bin}, {&worms}, {&temperature}, {&squeeze}, {&date}, {&units}}};
inline constexpr std::array<Asked, 10> of_check{{{&file},
                                                 {&name},
                                                 {&things},
                                                 {&bin},
                                                 {&worms},
                                                 {&temperature},
                                                 {&squeeze},
                                                 {&date},
                                                 {&away},
                                                 {&units}}};
inline constexpr std::array<Asked, 12> of_forecast{{{&file},
                                                    {&name},
                                                    {&things},
                                                    {&bin},
                                                    {&worms},
                                                    {&temperature},
                                                    {&squeeze},
                                                    {&date},
                                                    {&days},
                                                    {&svg},
                                                    {&sheet},
                                                    {&units}}};
inline constexpr std::array<Asked, 5> of_harvest{
    {{&file, true}, {&name}, {&way}, {&date}, {&units}}};
inline constexpr std::array<Asked, 8> of_refresh{
    {{&file, true}, {&name}, {&change, true}, {&share}, {&there}, {&away}, {&date}, {&units}}};
inline constexpr std::array<Asked, 5> of_note{
    {{&file, true}, {&name}, {&note_words, true}, {&date, true}, {&by}}};
inline constexpr std::array<Asked, 2> of_observe{{{&file, true}, {&name}}};
inline constexpr std::array<Asked, 10> of_start{{{&date, true},
                                                 {&container},
                                                 {&size},
                                                 {&age},
                                                 {&worms},
                                                 {&bedding},
                                                 {&squeeze},
                                                 {&temperature},
                                                 {&title},
                                                 {&units}}};
inline constexpr std::array<Asked, 5> of_signs{
    {{&signs, true}, {&sign_file}, {&name}, {&date}, {&units}}};
inline constexpr std::array<Asked, 6> of_plan{
    {{&file, true}, {&name}, {&trial_sheet}, {&paper}, {&yaml}, {&units}}};
inline constexpr std::array<Asked, 3> of_read{{{&file, true}, {&name}, {&svg}}};

inline constexpr std::array<Asked, 6> of_week{
    {{&bins, true}, {&have}, {&openings}, {&week_sheet}, {&date}, {&units}}};

inline constexpr std::array<Asked, 4> of_totals{{{&bins, true}, {&since}, {&until}, {&units}}};
inline constexpr std::array<Asked, 13> of_worms{{{&file},
                                                 {&name},
                                                 {&scraps},
                                                 {&people},
                                                 {&meals},
                                                 {&coffee},
                                                 {&census},
                                                 {&sample},
                                                 {&bin},
                                                 {&worms},
                                                 {&temperature},
                                                 {&date},
                                                 {&units}}};

inline constexpr Member collect{
    "collect", MemberKind::text,
    "What could be collected: how much of it a season needs. Coffee grounds and dry leaves where "
    "only `for` is said.",
    "\"coffee grounds, dry leaves\"", "--collect"};
inline constexpr Member lasting{"for", MemberKind::text,
                                "How long what is collected is to last, 1 week to 1 year; 13 weeks "
                                "where only `collect` is said.",
                                "\"13 weeks\"", "--for"};
inline constexpr std::array<Asked, 6> of_stock{
    {{&file, true}, {&name}, {&collect}, {&lasting}, {&date}, {&units}}};

inline constexpr std::array<Asked, 6> of_heap{
    {{&heap_file}, {&name}, {&heap_things}, {&heap_worms}, {&date}, {&units}}};

inline constexpr std::array<Verb, 22> verbs{
    Verb{"table", "The feedstocks of the table, or those whose names fit the words.", of_table},
    Verb{"show", "Everything known of one feedstock.", of_show},
    Verb{"blend", "What portions are together.", of_blend, {}, Reads::either},
    Verb{"balance",
         "Amounts that meet the targets; with a bed it is the ration.",
         of_ration,
         {},
         Reads::either},
    Verb{"ration", "What to put in today, and when again.", of_ration},
    Verb{"check", "A planned feeding judged against the bed, and the ration.", of_check},
    Verb{"forecast", "The days after a feeding.", of_forecast, "`svg` and `sheet` where asked"},
    Verb{"harvest", "When to harvest, how much to expect, and the bed after it.", of_harvest},
    Verb{"refresh", "One kind of work on the bed, judged before and after; a time away is a check.",
         of_refresh},
    Verb{
        "note", "A file with one more entry, said in everyday words.", of_note,
        "`section` and `entry`: where the entry goes, and the entry as an object; `file_text`: the "
        "whole file with it, where `file` was a text",
        Reads::either},
    Verb{"observe", "What a diary teaches.", of_observe, {}, Reads::bin_or_trial},
    Verb{"start", "The text of a new file of one bin, and how to set a new bin up.", of_start},
    Verb{"signs", "What may be behind the signs of a bin.", of_signs},
    Verb{"trial plan", "The plan of a trial.", of_plan, "`sheet` and `yaml` where asked",
         Reads::bin_or_trial},
    Verb{"trial read", "What a trial tells.", of_read, "`svg` where asked", Reads::bin_or_trial},
    Verb{"week", "Who gets what on which day of a week, over several bins.", of_week,
         "`sheet` where asked"},
    Verb{"stock",
         "What is kept for later, what to thaw for the next feeding, and what a season needs.",
         of_stock},
    Verb{"totals", "What the diaries of some bins add up to.", of_totals},
    Verb{"worms", "How many worms: to start with, in a bin now and later, and by a census.",
         of_worms},
    Verb{"heap",
         "How to build a small hot heap, and what to do with it by its log.",
         of_heap,
         {},
         Reads::heap},
    Verb{"schema", "The JSON Schema of requests.", {}},
    Verb{"version", "Versions of the library and of its table.", {}},
};

/// The verb of this name, or null.
constexpr const Verb* find_verb(std::string_view wanted) noexcept {
    for (const Verb& known : verbs) {
        if (known.name == wanted) return &known;
    }
    return nullptr;
}

}  // namespace feed::io::door
