#pragma once
#include <span>
#include <string_view>

// What the command can do, said once: --help, the manual page and the bash completion are all made
// from this list, and the argument reader accepts exactly what stands in it.
namespace feed_command {

/// An option of a command. `argument` is empty for a switch; `choices` are its only values, parted
/// by blanks, or empty.
struct Option {
    std::string_view name;
    std::string_view argument;
    std::string_view choices;
    std::string_view text;
};

struct Command {
    std::string_view name;
    std::string_view arguments;  ///< as in the synopsis
    std::string_view summary;    ///< one line
    std::string_view text;       ///< what it does, in full
    std::span<const Option> options;
    std::string_view example;
    std::string_view example_text;
    bool reads_file;  ///< for completion
};

inline constexpr Option json{"--json", "", "", "Print JSON for programs."};
inline constexpr Option units{
    "--units", "SYSTEM", "metric us",
    "Show metric or US units; those of the file when left out, else metric."};
inline constexpr Option help{"--help", "", "", "Show this help."};

inline constexpr Option table_options[] = {
    {"--scraps", "", "", "List only what is fed as food."},
    {"--fruit", "", "", "List only fruit."},
    {"--bedding", "", "", "List only bedding."},
    {"--manure", "", "", "List only manures."},
    {"--lime", "", "", "List only lime, grit and meals, the amendments."},
    {"--little", "", "", "List only what is fed little at a time."},
    {"--never", "", "", "List only what is never fed."},
    json,
    units,
    help};
// The bin of a call without a file.
inline constexpr Option bin_option{"--bin", "WORDS", "",
                                   "Without a file: the bin, such as \"60 L tote\"."};
inline constexpr Option worms_option{"--worms", "AMOUNT", "",
                                     "Without a file: the worms, such as \"1 lb\"."};
inline constexpr Option temperature_option{"--temperature", "DEGREES", "",
                                           "Without a file: how warm it is, such as \"20 C\"."};
inline constexpr Option squeeze_option{
    "--squeeze", "WORD", "", "Without a file: what a squeezed handful does, such as damp."};
inline constexpr Option date_option{
    "--date", "DATE", "",
    "The day that counts as today: a date such as 2026-03-14, today or yesterday; today when "
    "left out."};
inline constexpr Option why{"--why", "", "", "Show everything behind the answer."};
inline constexpr Option strict{
    "--strict", "", "", "Exit with 1 when something must be taken out or a step comes first."};
inline constexpr Option blend_options[] = {
    why, {"--strict", "", "", "Exit with 1 when something is never fed."}, json, units, help};
inline constexpr Option show_options[] = {
    {"--worms", "AMOUNT", "", "Say how much for these worms, such as \"1 lb\"."},
    {"--numbers", "", "", "Show every value with its range, grade and source."},
    json,
    units,
    help};
/// Of the ration and of a balance, which with a bed is the ration.
inline constexpr Option ration_options[] = {
    bin_option, worms_option, temperature_option, squeeze_option, date_option, why, strict, json,
    units,      help};
inline constexpr Option check_options[] = {
    bin_option,
    worms_option,
    temperature_option,
    squeeze_option,
    date_option,
    why,
    {"--away", "TIME", "", "What to do before leaving it alone, such as \"3 weeks\"."},
    strict,
    json,
    units,
    help};
inline constexpr Option forecast_options[] = {
    bin_option,
    worms_option,
    temperature_option,
    squeeze_option,
    {"--days", "NUMBER", "", "Days to show, today the first: 2 to 366; 28 when left out."},
    {"--svg", "FILE", "", "Write a picture of moisture, food left and acid."},
    {"--sheet", "FILE", "", "Write a page to hang beside the bin (.html, else text)."},
    date_option,
    why,
    strict,
    json,
    units,
    help};
inline constexpr Option harvest_options[] = {
    {"--way", "WAY", "aside light trays half",
     "How to part castings and worms: aside (the food on one side), light (small heaps), trays, half."},
    date_option,
    why,
    strict,
    json,
    units,
    help};
inline constexpr Option refresh_options[] = {
    {"--change", "WHAT", "bedding flush dry split move away winter",
     "bedding: change a share of the bed. flush: wash salt out. dry: dry it out. split: make two bins. "
     "move: to another place. away: a time away. winter: outdoors."},
    {"--share", "SHARE", "", "bedding: how much of the bed, such as \"a third\" (the default)."},
    {"--temperature", "DEGREES", "",
     "move: how warm it is there; winter: how cold the bed gets, such as \"2 C\"."},
    {"--away", "TIME", "", "away: how long, such as \"3 weeks\"."},
    date_option,
    why,
    strict,
    json,
    units,
    help};
inline constexpr Option observe_options[] = {
    {"--date", "DATE", "", "Day of the look, such as 2026-03-14; today when left out."},
    {"--force", "", "", "Take a date that lies ahead."},
    json,
    units,
    help};
inline constexpr Option note_options[] = {
    {"--date", "DATE", "",
     "Day it was done or seen: a date such as 2026-03-14, yesterday, Monday; today when left out."},
    {"--by", "NAME", "", "Who did or saw it."},
    {"--force", "", "", "Take a date that lies ahead."},
    json,
    units,
    help};
inline constexpr Option start_options[] = {
    {"--bin", "WORDS", "", "The bin in words, such as \"60 L tote\"."},
    {"--container", "KIND", "", "Kind of bin, such as tote."},
    {"--size", "VOLUME", "", "What it holds, such as \"60 L\"."},
    {"--age", "TIME", "",
     "How long worms have lived in it, such as \"3 months\", or new; new where neither this nor "
     "--squeeze is given."},
    {"--worms", "AMOUNT", "", "How many worms, such as \"1 lb as bought\"."},
    {"--bedding", "WORDS", "",
     "Bedding in it, or at hand for a new bin, such as \"2 kg shredded cardboard\" or cardboard."},
    {"--squeeze", "WORD", "", "What a squeezed handful does, such as damp."},
    {"--temperature", "DEGREES", "", "How warm it is, such as \"20 C\"."},
    {"--title", "WORDS", "", "What you call the bin."},
    {"--date", "DATE", "", "Day on which this is so; today when left out."},
    {"--force", "", "", "Take a date that lies ahead."},
    json,
    units,
    help};
inline constexpr Option signs_options[] = {
    {"--bed", "FILE", "", "Order the causes for the bed of this file."},
    {"--date", "DATE", "", "Day on which this was seen; today when left out."},
    why,
    json,
    units,
    help};
inline constexpr Option trial_options[] = {
    {"--why", "", "", "Say how it was worked out, and all pairs."},
    {"--sheet", "FILE", "",
     "plan: write the sheet to hang up, with the key on a page of its own (.svg, else HTML)."},
    {"--paper", "SIZE", "a4 letter", "Paper of the sheet: a4 (the default) or letter."},
    {"--yaml", "", "", "plan: print the plan as a feed file, with seed, days and key."},
    {"--svg", "FILE", "", "read: write a picture of what was seen."},
    json,
    units,
    help};
inline constexpr Option stock_options[] = {
    {"--collect", "WORDS", "",
     "How much a season needs of what you could collect, such as \"coffee grounds, dry leaves\"."},
    {"--for", "TIME", "", "How long that is to last, 1 week to 1 year; 13 weeks when left out."},
    date_option,
    why,
    json,
    units,
    help};
inline constexpr Option totals_options[] = {
    {"--since", "DATE", "",
     "From this day on, such as 2026-03-14; all of the diary when left out."},
    {"--date", "DATE", "", "Up to this day; all of the diary when left out."},
    why,
    json,
    units,
    help};
inline constexpr Option week_options[] = {
    {"--have", "WORDS", "",
     "What is at hand and what comes, beside the stocks of the bins, such as \"2 kg coffee grounds; Thu: 3 kg "
     "lettuce\"."},
    {"--openings", "NUMBER", "1 2 3", "Most openings of a bin in the week; 2 when left out."},
    {"--sheet", "FILE", "",
     "Write the page for the wall: a row a day, a column a bin, boxes to tick (.svg, else HTML)."},
    date_option,
    why,
    strict,
    json,
    units,
    help};
inline constexpr Option worms_options[] = {
    {"--people", "NUMBER", "", "People who eat at home: scraps to expect."},
    {"--meals", "NUMBER", "", "Meals a day in all, in place of people."},
    {"--coffee", "CUPS", "", "Cups of coffee a day in all."},
    {"--census", "COUNTS", "",
     "Worms counted in each sample of the bed, such as \"12, 30, 7, 18\"."},
    {"--sample", "SIZE", "",
     "Size of each sample, such as \"500 ml\"; without a bin \"2 L of 40 L\" says the bed too."},
    {"--bin", "WORDS", "", "Without a file: a bin that stands, such as \"60 L tote\"."},
    {"--worms", "AMOUNT", "",
     "Without a file: its worms, or those to begin with, such as \"1 lb\"."},
    temperature_option,
    date_option,
    why,
    strict,
    json,
    units,
    help};
inline constexpr Option heap_options[] = {
    {"--worms", "AMOUNT", "", "Say how much of it these worms bear, such as \"1 lb\"."},
    date_option,
    why,
    {"--strict", "", "", "Exit with 1 when something is never fed or the heap is far too hot."},
    json,
    units,
    help};
inline constexpr Option call_options[] = {json, help};
inline constexpr Option version_options[] = {json, help};

inline constexpr Command commands[] = {
    {"table", "[WORDS]", "List the feedstocks of the table",
     "Lists every feedstock of the table, or those of a kind or whose names fit the words, with moisture, C:N "
     "ratio (carbon to nitrogen by mass) and how it may be fed.",
     table_options, "feed table coffee", "Everything in the table that coffee can mean.", false},
    {"show", "NAME", "Show everything known of one feedstock",
     "Says whether and how a feedstock may be fed, how much at a time, and its cautions. With --numbers "
     "every value with its range, grade and source.",
     show_options, "feed show \"banana peel\" --numbers",
     "All values of banana peel and where they come from.", false},
    {"blend", "[FILE] ENTRIES... | FILE", "Mix portions and state what the blend is",
     "Mixes the portions under blend in a file, or the entries given, and states moisture, C:N "
     "ratio, acid, salt, volume and more, each with its range. An entry is an amount and a "
     "feedstock.",
     blend_options, "feed blend \"1.2 kg coffee grounds\" \"3 L shredded office paper\"",
     "What these two make together.", true},
    {"balance", "[FILE] WORDS... | FILE", "Find amounts that meet the targets",
     "Finds how much of what is at hand makes a feeding that meets its targets, says what it "
     "reaches, what limits it and what it assumed. When the targets cannot be met it says which "
     "entries conflict, how close one can come and what would mend it.",
     ration_options, "feed balance kitchen.yaml", "A feeding from what stands in kitchen.yaml.",
     true},
    {"ration", "[FILE] WORDS... | FILE", "What to put in today, and when again",
     "The main verb. Says what to take out, whether to act first, wait, feed less or feed, what goes in "
     "with how much bedding and water, and when to look and feed again, for the bin of a file and what "
     "is at hand: the words, or without them the file's own blend and balance. Every other verb gives the "
     "same answer.",
     ration_options, "feed ration tote.yaml 3 apples, a cup of coffee grounds",
     "What of these goes into the bin of tote.yaml today; without a file: feed ration --worms \"1 lb\" 3 apples.",
     true},
    {"check", "[FILE] WORDS... | FILE", "Judge a planned feeding against this bed",
     "Judges the planned feeding of a file against its bed (sour, wet, dry, hot, cold, ammonia, salty, "
     "overfed, underfed, airless, greasy) and says what to do, as feed ration does. With --why each "
     "hazard comes with its number, its limit and the reason. A time away gets its advice.",
     check_options, "feed check tote.yaml", "Is this feeding safe for the bed in tote.yaml?", true},
    {"forecast", "[FILE] WORDS... | FILE", "Tell the days after a feeding",
     "Follows the bed day by day after the feedings of a file: moisture, food left, acid, "
     "temperature, volume; and names the day of the next feeding and what should be seen by then.",
     forecast_options, "feed forecast tote.yaml --days 28 --svg tote.svg",
     "Four weeks ahead, as text and as a picture.", true},
    {"harvest", "FILE", "When to harvest, how much to expect, and the bed after it",
     "Says when the castings are ready, how much to expect by volume and weight, how to part them from the worms, what "
     "to put back and when to feed again. Harvests that were noted set the amount.",
     harvest_options, "feed harvest tote.yaml", "Is the bin of tote.yaml ready?", true},
    {"refresh", "FILE", "Change the bedding, flush, dry, split, move, leave, winter",
     "Works out one kind of work on the bed as it is today, judges the bed before and after it, and says when "
     "feeding goes on.",
     refresh_options, "feed refresh tote.yaml --change bedding --share \"a third\"",
     "A third of the bed is changed.", true},
    {"start", "FILE", "Start a bin and its file",
     "Writes a short file for one bin, from options or, at a terminal, step by step, and says what to do: "
     "for a new bin how much bedding and water, in which order, when the worms go in and the rations of the "
     "first three weeks; for one that lives what to put in today. It never writes over a file.",
     start_options, "feed start tote.yaml --size \"60 L\" --worms \"1 lb\" --bedding cardboard",
     "A new tote of 60 litres: how to set it up, and its file.", false},
    {"note", "FILE WORDS...", "Write down what was done or seen, in your own words",
     "Adds one dated entry to the file of a bin, safely, and says what it means today. Say what was "
     "fed (fed 3 apples and a cup of coffee grounds), or seen: gone, half gone, smell sour, wet, "
     "temperature 24 C, worms 1 lb, bedding 1 kg card, harvested 5 L; several parted by commas. At the "
     "portions of a trial: plot 3 gone, plots 1-6 worms few, plot 2 half left. note, and then words "
     "of your own. Before it may stand yesterday or a date.",
     note_options, "feed note tote.yaml half gone, smell earthy", "What was seen today.", true},
    {"observe", "DIARY [KEY=VALUE...]", "Add an observation to a diary, or learn from it",
     "Adds an observation to the diary of a bin, safely: the old file stays whole until the new one "
     "is complete. Then says how this bin's own rates changed. Without a KEY=VALUE it adds nothing "
     "and only says what the diary teaches. Keys are those of observations in the file form. "
     "feed note takes the same in everyday words.",
     observe_options, "feed observe tote.yaml \"share_gone=60 %\" squeeze=drops smell=earthy",
     "What was seen today.", true},
    {"signs", "[FILE] [SIGNS...]", "What may be behind the signs of a bin",
     "Says what most likely causes the signs, one quick test and one step, then what else it may be. "
     "Without a file a step is a share of the bed. Harmless things are called harmless. Signs are said in "
     "everyday words; feed signs alone lists them.",
     signs_options, "feed signs climbing sour", "Worms climb and the bin smells sour.", false},
    {"trial", "plan | read FILE", "Plan feeds side by side, or read what was seen",
     "plan: draws the places of a trial from a seed, makes the portions equal, names the days to look and says what such a trial can tell. "
     "read: counts what was seen, and says clear, probably, or you cannot tell yet. What was seen is noted with feed note: "
     "plot 3 gone, plots 1-6 worms few.",
     trial_options, "feed trial plan rinds.yaml --sheet rinds.html",
     "A plan for the trial in rinds.yaml, and its sheet.", true},
    {"week", "BIN.yaml...", "Share a week's scraps over several bins",
     "Says which bin gets what on which day of the week from today on. Each feeding is what feed ration "
     "allows that bin on that day. What spoils first goes first, then as much as the bins may have; the "
     "rest is for the freezer, a heap or neighbours. What comes later has its day before a colon, parts "
     "are parted by a semicolon.",
     week_options,
     "feed week tote.yaml tower.yaml --have \"2 kg coffee grounds; Thu: 3 kg lettuce\"",
     "Who gets the grounds now and the lettuce on Thursday.", true},
    {"stock", "FILE", "What is kept for later, and what to thaw",
     "Says what to take out of the freezer for the next feeding and how much juice it gives, what fresh food "
     "is good until when, and how long the bedding lasts. With --collect it says how much a season needs. "
     "feed note FILE stock 2 kg frozen melon rind adds to it.",
     stock_options, "feed stock tote.yaml", "What is in stock for this bin.", true},
    {"totals", "BIN.yaml...", "What the diaries of your bins add up to",
     "Says what went in, what was kept out of the rubbish and what was harvested: in all, by bin and by "
     "month; with --why by group and by week too.",
     totals_options, "feed totals tote.yaml tower.yaml --since 2026-01-01",
     "What two bins took since New Year.", true},
    {"worms", "[FILE] [WORDS...]",
     "How many worms: to start with, in a bin now and later, by a census",
     "Says how many worms and what bin the scraps of a week need, said as words or expected from people, "
     "meals and coffee; with the file of a bin what it can take now, as feed ration has it, and when its "
     "worms will have grown to the scraps. With --census it says how many worms live in the bed, and how "
     "many samples would halve the doubt.",
     worms_options, "feed worms 2 kg apples, 500 g coffee grounds a week",
     "How many worms to start with for these scraps.", true},
    {"heap", "FILE | WORDS...", "Build a small hot heap, and turn it or leave it alone",
     "Says how much of what is at hand makes a heap that gets hot, with the amounts of feed balance, and in "
     "which layers it is laid. From the temperatures that are noted in its file (feed note heap.yaml 55 C "
     "middle) it says whether to turn it or leave it alone, when it has cooled for good, and what may go to "
     "worms. A file of a heap says kind: heap. It makes no claim about germs.",
     heap_options, "feed heap 8 buckets grass, 20 buckets leaves, wood chips",
     "A heap of what these are, as large as they allow.", true},
    {"call", "FILE | -", "Answer a request of a program, in JSON",
     "Reads a request in JSON from a file, or from standard input with -, and prints its answer in JSON, "
     "an error too. Every verb can be asked so, with the bin as part of the request.",
     call_options, "feed call request.json", "The answer to the request in request.json.", true},
    {"version", "", "Show the version of the program and of its table",
     "Shows the version of the program, the version of the table and the hash of its content.",
     version_options, "feed version --json", "Versions for a program.", false},
};

struct ExitCode {
    int code;
    std::string_view text;
};
inline constexpr ExitCode exit_codes[] = {
    {0, "Done; also when the answer is to act first or to take something out."},
    {1,
     "The targets cannot be met, or nothing limits an entry; with --strict, something is never fed or a "
     "step comes first."},
    {2, "Bad input or bad usage; nothing was written."},
    {3, "A fault of the program itself."},
};

}  // namespace feed_command
