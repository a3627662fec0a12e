#pragma once
#include <cstdint>
#include <vector>

#include "feed/io/yaml_tree.hpp"

namespace feed::io {

/// Compares two texts by what they read as: every word, list, mapping and alias, in order.
class SameReading {
public:
    SameReading(const YamlTree& before, const YamlTree& after)
        : before_(before), after_(after), place_of_(before.size(), 0) {}

    /// Lets one node of the first text be longer by one item in the second: a list by one item, an
    /// empty value by becoming a list of one, a mapping by one pair.
    void let_grow(std::uint32_t node) noexcept { grown_ = node; }
    /// Lets the last word of the first text have a line end more: the file had none.
    void let_last_word_end_its_line() noexcept { last_ = before_.size() - 1; }

    /// Does the second text read as the first, but for what may grow? Nodes are 1 for the root.
    bool same(std::uint32_t a = 1, std::uint32_t b = 1);
    /// What the second text has more: the first node added, or 0.
    std::uint32_t added() const noexcept { return added_; }

private:
    bool same_word(std::uint32_t a, std::uint32_t b) const;

    const YamlTree& before_;
    const YamlTree& after_;
    std::vector<std::uint32_t> place_of_;  ///< of each node of the first text in the second
    std::uint32_t grown_ = 0;
    std::uint32_t added_ = 0;
    std::size_t last_ = 0;
};

}  // namespace feed::io
