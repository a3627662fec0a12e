#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "feed/quantity/error.hpp"

namespace feed::io {

enum class NodeKind : std::uint8_t { null, scalar, sequence, mapping };

/// Line and column of a node in its file, from 1; the column counts bytes.
struct Place {
    int line = 0;
    int column = 0;
};

/// What a text may cost before it is refused: hostile input stays cheap.
struct YamlLimits {
    std::size_t nodes = 400000;  ///< counted as if every alias were written out
    int depth = 32;
};

/// One node as stored; use YamlView.
struct YamlNode {
    std::string text;
    Place place;
    std::uint32_t first = 0;  ///< index of the first child, 0 for none (the root is never a child)
    std::uint32_t next = 0;   ///< index of the next sibling, 0 for none
    std::uint32_t alias_of = 0;
    NodeKind kind = NodeKind::null;
    bool quoted = false;
    bool flow = false;  ///< a list or mapping between brackets
};

/// Problems of one file that are told in full; of the others only the number.
inline constexpr std::size_t most_problems = 20;

class YamlView;

/// A YAML document read safely: scalars stay text, aliases are references with a bounded expanded
/// size, duplicate keys are found. Owns its nodes.
class YamlTree {
public:
    YamlView root() const noexcept;
    const YamlNode& node(std::uint32_t index) const noexcept { return nodes_[index]; }
    /// One more than the largest index of a node; nodes stand in the order of the text.
    std::size_t size() const noexcept { return nodes_.size(); }
    /// Content problems that belong to the text itself: duplicate keys, keys that are not text. The
    /// first `most_problems` of them.
    const Errors& problems() const noexcept { return problems_; }
    /// How many more there are.
    std::size_t more_problems() const noexcept { return more_problems_; }

private:
    friend class YamlTreeBuilder;
    friend class JsonTreeReader;
    friend struct TreeProblems;
    std::vector<YamlNode> nodes_;
    Errors problems_;
    std::size_t more_problems_ = 0;
};

/// A node of a YamlTree; cheap to copy; valid as long as the tree is.
class YamlView {
public:
    YamlView(const YamlTree& tree, std::uint32_t index) noexcept : tree_(&tree), written_(index) {
        const auto target = tree.node(index).alias_of;
        index_ = target != 0 ? target : index;
    }
    NodeKind kind() const noexcept { return tree_->node(index_).kind; }
    bool is_scalar() const noexcept { return kind() == NodeKind::scalar; }
    bool is_mapping() const noexcept { return kind() == NodeKind::mapping; }
    bool is_sequence() const noexcept { return kind() == NodeKind::sequence; }
    bool is_null() const noexcept { return kind() == NodeKind::null; }
    /// The text of a scalar, exactly as written; "" for the other kinds.
    std::string_view text() const noexcept { return tree_->node(index_).text; }
    /// Written between quotation marks?
    bool quoted() const noexcept { return tree_->node(index_).quoted; }
    /// Where it is written; for an alias, where the alias stands.
    Place place() const noexcept { return tree_->node(written_).place; }

    /// Calls `use(view)` for each item of a sequence.
    template <class Use>
    void for_each_item(Use&& use) const {
        if (!is_sequence()) return;
        for (auto at = tree_->node(index_).first; at != 0; at = tree_->node(at).next)
            use(YamlView(*tree_, at));
    }
    /// Calls `use(key, value)` for each pair of a mapping, in the order of the file.
    template <class Use>
    void for_each_pair(Use&& use) const {
        if (!is_mapping()) return;
        for (auto at = tree_->node(index_).first; at != 0;) {
            const auto value = tree_->node(at).next;
            use(YamlView(*tree_, at), YamlView(*tree_, value));
            at = tree_->node(value).next;
        }
    }

private:
    const YamlTree* tree_;
    std::uint32_t written_;
    std::uint32_t index_ = 0;
};

inline YamlView YamlTree::root() const noexcept {
    return YamlView(*this, 1);
}

/// Reads one YAML (or JSON) document.
/// text: UTF-8; name: what the file is called in errors.
/// Errors: empty, too_large, not_utf8, syntax (the first only). Duplicate keys are content
/// problems: they stand in `problems()` beside the ones the caller finds. Linear time. Threads:
/// pure.
Result<YamlTree> parse_yaml(std::string_view text, std::string_view name,
                            const YamlLimits& limits = {});

}  // namespace feed::io
