#pragma once
#include <optional>
#include <string>
#include <vector>

#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
#include "feed/ration/collect.hpp"
#include "feed/ration/stock.hpp"

// What is kept for later, what to thaw for the next feeding, and how long bedding lasts.
namespace feed::io {

/// Something frozen that the next feeding needs.
struct Thaw {
    PutIn put;
    int day = 0;  ///< from today: when it comes out of the freezer, the day before at the latest
    std::optional<ThawedJuice> juice;
};

/// Bedding in the stock, all of one material together.
struct BeddingLeft {
    ThingAtHand thing;
    double left_kg = 0.0;
    std::optional<double> a_day_kg;  ///< nothing: the diary does not tell yet
};

/// Something that could be collected.
struct CollectThing {
    ThingAtHand thing;
    bool bedding = false;
    double most_week_kg = 0.0;  ///< of food: the most of a week
    double kg = 0.0;            ///< of bedding: all of what is to be collected; of food: at most
};

/// What a season needs.
struct Collect {
    int days = 0;
    WeekNeed week;
    Ranged bedding_l{0.0};  ///< loose, of the whole time
    double stock_l = 0.0;   ///< of it in stock
    double collect_l = 0.0;
    std::vector<TakeOut> take_out;
    std::vector<CollectThing> things;
};

/// What is asked of a season, in words; both empty: nothing is.
struct CollectWords {
    std::string things;  ///< "coffee grounds, dry leaves"; those when left out
    std::string time;    ///< "13 weeks", a quarter, when left out; 1 week to 1 year
    [[nodiscard]] bool empty() const noexcept { return things.empty() && time.empty(); }
};

/// The stock on a day.
struct StockAnswer {
    Date today;
    std::vector<TakeOut> take_out;  ///< what is kept and never fed, each once
    std::vector<StockItem> items;
    std::optional<int> feed_on;  ///< day of the next feeding, from today; nothing: none is known
    std::vector<Thaw> thaw;
    std::vector<BeddingLeft> bedding;
    std::optional<Collect> collect;  ///< where it was asked for
};

/// Answers `feed stock`. Errors: contradiction for a file of a heap; missing_value without a day;
/// those of the words to collect, `field` is "collect" or "for". Threads: pure.
Result<StockAnswer> stock_of(const FeedFile& file, UnitSystem units,
                             const CollectWords& collect = {});

/// What to thaw and use first, then what there is and how long it lasts.
std::string stock_text(const StockAnswer& answer, UnitSystem units, bool why = false);

/// The answer in JSON: `items`, `thaw`, `bedding`, and `collect` where it was asked for.
std::string to_json(const StockAnswer& answer, UnitSystem units);

}  // namespace feed::io
