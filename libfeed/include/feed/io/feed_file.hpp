#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "feed/balance/balance_problem.hpp"
#include "feed/bed/bed.hpp"
#include "feed/blend/blend_properties.hpp"
#include "feed/blend/portion.hpp"
#include "feed/diary/date.hpp"
#include "feed/diary/diary.hpp"
#include "feed/feedstock/amount.hpp"
#include "feed/feedstock/feedstock.hpp"
#include "feed/feedstock/things.hpp"
#include "feed/quantity/error.hpp"
#include "feed/quantity/unit_system.hpp"
#include "feed/ration/stock.hpp"
#include "feed/trial/own_feed_rate.hpp"
#include "feed/trial/trial.hpp"

namespace feed::io {

/// A portion as somebody wrote it, and what it stands for.
struct WrittenPortion {
    Portion portion;
    Amount amount;
    std::string label;  ///< the keeper's own words for the feedstock
};

/// What is at hand and what is asked for.
struct WrittenBalance {
    BalanceProblem problem;
    /// For each entry the amount whose unit the keeper used; nothing for "any" and "as much as
    /// possible".
    std::vector<std::optional<Amount>> amounts;
    /// How many of the entries, from the first, the keeper named; the others were offered. Nothing:
    /// all of them.
    std::optional<std::size_t> said_entries;
};

/// How fast a feed goes in this bin, by a trial.
struct OwnFeed {
    std::string label;  ///< the keeper's own words for it
    OwnFeedRate rate;
};

/// A feed file: every section is optional.
struct FeedFile {
    std::string name;  ///< of the file
    /// Of what was read: texts that are the same have the same. Only two numbers of one run can be
    /// compared.
    std::size_t content_hash = 0;
    std::string title;  ///< the keeper's own, or empty
    std::string group;  ///< who feeds this bin, or empty
    /// The units that its keeper reads; nothing: what the call says.
    std::optional<UnitSystem> units;
    bool heap = false;  ///< the file is of a heap (`kind: heap`), not of a bin
    std::vector<Container> containers;
    std::vector<Meaning> words;  ///< what words mean in this file
    std::vector<std::shared_ptr<const Feedstock>> own_feedstocks;
    std::optional<std::vector<WrittenPortion>> blend;
    std::optional<WrittenBalance> balance;
    bool has_bed = false;
    /// The bed (all assumed when has_bed is false), the feedings and the observations.
    Diary diary;
    std::vector<StockEntry> stock;  ///< what is kept for later, as it was written down
    std::optional<Trial> trial;
    /// For each bin of the trial its own description, with what went in; nothing: it is as `bed`.
    std::vector<std::optional<Diary>> trial_bins;
    /// The text of a file with a trial: its plan is written into it. Else empty.
    std::string trial_text;
    /// Where a key stands in the file; lines and columns from 1.
    struct KeyPlace {
        std::string key;
        int line = 0;
        int column = 0;
    };
    /// The section `trial` ("") and the keys that it has.
    std::vector<KeyPlace> trial_places;
    /// What an *alone* trial taught of its feeds; it is in the feedstocks of this file already.
    std::vector<OwnFeed> own_feeds;
    /// The day that counts as today; nothing: what `day_zero` reads from the file.
    std::optional<Date> today;
    /// What reading took for granted: which part of a fruit, how a volume became a mass.
    std::vector<Assumption> assumed;

    /// Where a key of `trial` stands; where it is missing, the section.
    KeyPlace place_in_trial(std::string_view key) const {
        KeyPlace place;
        for (const KeyPlace& known : trial_places)
            if (known.key.empty() || known.key == key) place = known;
        return place;
    }

    /// Whether what is balanced is for a heap, not for worms.
    bool for_heap() const noexcept {
        return heap || (balance && balance->problem.place == feed::Place::heap);
    }
    /// Whether the file is of a heap and of nothing else: no verb about worms answers it.
    bool is_of_a_heap() const noexcept { return for_heap() && !has_bed; }
};

/// Day 0 of a file: the day that every verb starts from. It is the day in `today`, else the last
/// day that the file names: of the bed, the feedings, the observations and the stock. What the
/// diary has on or before it is done; later feedings are planned. Nothing when the file names no
/// date. Threads: pure.
std::optional<Date> day_zero(const FeedFile& file);
/// The bed of a file on day 0 as description, feedings and looks make it, with the feedings up to
/// that day as its earlier ones. Without a date it is the description alone. Threads: pure. Up to
/// 50 ms.
Bed bed_on_day_zero(const FeedFile& file);
/// What is fed from day 0 on: the blend, on day 0, and the planned feedings. Threads: pure.
std::vector<Feeding> planned_feedings(const FeedFile& file);

/// Reads a feed file (YAML or JSON; see docs/files.md).
/// path: file of at most 8 MB. Errors: one when the file cannot be read or is not well-formed, else
/// every problem of its content, each with line and column. Threads: safe; reads the file system.
Result<FeedFile> read_feed_file(const std::string& path);

/// The same from a text; `name` is what errors call it. Threads: pure.
Result<FeedFile> read_feed_text(std::string_view text, std::string_view name);

/// What a call without a file may say of the bin.
struct BinWords {
    std::string container;    ///< "60 L tote"; the others are as in a file
    std::string worms;        ///< "1 lb"
    std::string temperature;  ///< "20 C"
    std::string squeeze;      ///< "damp"
    bool empty() const noexcept {
        return container.empty() && worms.empty() && temperature.empty() && squeeze.empty();
    }
};

/// A file of a bin in a few words and what there is for it, as on a command line.
/// texts: as for read_portions; as_balance: they are at hand, with any bedding and water, for the
/// targets of a worm bed; else they are the planned feeding.
/// Errors: all problems; `field` names the text or the member of the bin. Threads: pure.
Result<FeedFile> read_bin_words(const BinWords& bin, const std::vector<std::string>& texts,
                                bool as_balance);

/// A file of a bin with what there is for it today in words, which takes the place of the file's
/// own blend and balance: "tote.yaml", and "3 apples, a cup of coffee grounds". The file's own
/// feedstocks, containers and words count.
/// texts, as_balance: as for read_bin_words; with a bed the words are the planned feeding always.
/// Errors: all problems of the words; contradiction for a file of a heap. Threads: pure.
Result<FeedFile> with_things(FeedFile file, const std::vector<std::string>& texts, bool as_balance);

/// A file of a heap from what is at hand for it, as on a command line: "3 buckets grass, 6 buckets
/// leaves, wood chips". As much of each amount as its targets allow goes on; what has no amount,
/// and water, as needed. Errors: all problems; `field` names the text. Threads: pure.
Result<FeedFile> read_heap_words(const std::vector<std::string>& texts);

/// Reads what is written on a command line: "3 apples, a cup of coffee grounds". Texts without a
/// blank are words of one sentence; a text with blanks stands for itself.
/// Errors: all problems of all texts; `field` names the text. Threads: pure.
Result<FeedFile> read_portions(const std::vector<std::string>& texts);

}  // namespace feed::io
