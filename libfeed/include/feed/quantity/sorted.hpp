#pragma once
#include <algorithm>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

// Sorting by a number. The algorithm of the standard library is compiled once, for numbers, and not
// again for each kind of thing that is sorted.
namespace feed::detail {

/// The places of numbers, least number first; equal ones stay in their order.
/// Allocates. Time: n log n.
inline std::vector<std::size_t> ascending(std::span<const double> keys) {
    std::vector<std::size_t> order(keys.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [keys](std::size_t a, std::size_t b) { return keys[a] < keys[b]; });
    return order;
}

/// The places of things, least `key(thing)` first; equal ones stay in their order.
/// @param key  gives a number: days, shares, ranks. Whole numbers up to 2^53 are told apart.
template <class Item, class Key>
std::vector<std::size_t> order_by(const std::vector<Item>& items, Key key) {
    std::vector<double> keys;
    keys.reserve(items.size());
    for (const Item& item : items)
        keys.push_back(static_cast<double>(key(item)));
    return ascending(keys);
}

/// Sorts things, least `key(thing)` first; equal ones stay in their order. See order_by.
template <class Item, class Key>
void sort_by(std::vector<Item>& items, Key key) {
    const std::vector<std::size_t> order = order_by(items, key);
    std::vector<Item> sorted;
    sorted.reserve(items.size());
    for (const std::size_t at : order)
        sorted.push_back(std::move(items[at]));
    items = std::move(sorted);
}

}  // namespace feed::detail
