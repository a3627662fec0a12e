#pragma once
#include <optional>
#include <string>
#include <vector>

#include "feed/io/feed_file.hpp"
#include "feed/io/human_text.hpp"
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

/// The stock on a day.
struct StockAnswer {
    Date today;
    std::vector<StockItem> items;
    std::optional<int> feed_on;  ///< day of the next feeding, from today; nothing: none is known
    std::vector<Thaw> thaw;
    std::vector<BeddingLeft> bedding;
};

/// Answers `feed stock`. Errors: missing_value without a day.
/// Threads: pure.
Result<StockAnswer> stock_of(const FeedFile& file, UnitSystem units);

/// What to thaw and use first, then what there is and how long it lasts.
std::string stock_text(const StockAnswer& answer, UnitSystem units, bool why = false);

/// The answer in JSON: `items`, `thaw`, `bedding`.
std::string to_json(const StockAnswer& answer, UnitSystem units);

}  // namespace feed::io
