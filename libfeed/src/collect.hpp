#pragma once
#include <string>
#include <vector>

#include "feed/io/json_writer.hpp"
#include "feed/io/stock_answer.hpp"

// What a season needs: worked out, in lines, and in JSON.
namespace feed::io {

/// What to collect for a bin with this stock. Errors: those of the words.
Result<Collect> collect_of(const FeedFile& file, const std::vector<StockItem>& items,
                           const CollectWords& words, UnitSystem units);

/// What is never fed first, then bedding, then food.
std::vector<std::string> collect_lines(const Collect& collect, UnitSystem units);

/// Writes the member "collect".
void write_collect(JsonWriter& json, const Collect& collect, Date today);

}  // namespace feed::io
