#pragma once
// Diaries in every style that YAML allows, made from a source of choices: random numbers in a
// property test, the bytes of the input in a fuzz target.
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <utility>

#include "feed/io/yaml_tree.hpp"

namespace feed_test {

/// What a text reads as, aliases written out: one line a word, indented by depth.
inline void write_reading(const feed::io::YamlTree& tree, std::uint32_t node, std::size_t depth,
                          std::string& out) {
    const auto& written = tree.node(node);
    const auto& one = tree.node(written.alias_of != 0 ? written.alias_of : node);
    out.append(depth, ' ');
    out += "?=[{"[static_cast<std::size_t>(one.kind)];
    out += one.text;
    out += '\x01';
    for (auto at = one.first; at != 0; at = tree.node(at).next)
        write_reading(tree, at, depth + 1, out);
}

/// The reading of a diary whose `section` list has lost its last item: what stood there before.
/// `last` gets the reading of that item, if asked for.
inline std::string reading_without_last(const feed::io::YamlTree& tree, std::string_view section,
                                        std::string* last = nullptr) {
    std::string out;
    for (auto key = tree.node(1).first; key != 0;) {
        const auto value = tree.node(key).next;
        const auto& list = tree.node(value);
        if (tree.node(key).text == section && list.first != 0) {
            std::string items;
            auto at = list.first;
            for (; tree.node(at).next != 0; at = tree.node(at).next)
                write_reading(tree, at, 2, items);
            if (last != nullptr) write_reading(tree, at, 2, *last);
            if (!items.empty()) out += "section\x01" + items;
        } else {
            write_reading(tree, key, 0, out);
            write_reading(tree, value, 1, out);
        }
        key = tree.node(value).next;
    }
    return out;
}

/// The same for a diary as it stood: an empty section counts like none.
inline std::string reading_of(const feed::io::YamlTree& tree, std::string_view section) {
    std::string out;
    for (auto key = tree.node(1).first; key != 0;) {
        const auto value = tree.node(key).next;
        if (tree.node(key).text == section) {
            std::string items;
            for (auto at = tree.node(value).first; at != 0; at = tree.node(at).next)
                write_reading(tree, at, 2, items);
            if (!items.empty()) out += "section\x01" + items;
        } else {
            write_reading(tree, key, 0, out);
            write_reading(tree, value, 1, out);
        }
        key = tree.node(value).next;
    }
    return out;
}

/// Writes diaries; `choose(n)` gives a number below n.
class RandomDiary {
public:
    explicit RandomDiary(std::function<std::size_t(std::size_t)> choose)
        : choose_(std::move(choose)) {}

    std::string write() {
        end_ = choose_(4) == 0 ? "\r\n" : "\n";
        text_.clear();
        if (choose_(8) == 0) text_ += "# my bin" + end_;
        if (choose_(8) == 0) text_ += "---" + end_;
        text_ += "libfeed: 1" + end_;
        const std::size_t order = choose_(3);
        if (order == 0) observations();
        if (choose_(2) == 0) other_section(true);
        if (order == 1) observations();
        if (choose_(2) == 0) other_section(choose_(20) == 0);
        if (order == 2) observations();
        if (choose_(20) == 0) observations();  // a second time: a slip
        remarks(0);
        if (choose_(16) == 0) text_ += "..." + end_;
        if (choose_(4) == 0)
            while (!text_.empty() && (text_.back() == '\n' || text_.back() == '\r'))
                text_.pop_back();
        return text_;
    }

private:
    void line(std::size_t indent, const std::string& words) {
        text_ += std::string(indent, ' ') + words + end_;
    }
    /// Blank lines and remarks at any depth.
    void remarks(std::size_t indent) {
        for (std::size_t i = choose_(3); i > 0; --i) {
            if (choose_(2) == 0)
                line(choose_(2) == 0 ? 0 : indent, "");
            else
                line(choose_(2) == 0 ? 0 : indent + choose_(5), "# remark");
        }
    }
    std::string key(const std::string& name) {
        switch (choose_(8)) {
            case 0:
                return "\"" + name + "\"";
            case 1:
                return "'" + name + "'";
            case 2:
                return "\"\\x" + hex(name[0]) + name.substr(1) + "\"";
            case 3:
                return name + " ";
            default:
                return name;
        }
    }
    static std::string hex(char c) {
        constexpr std::string_view digits = "0123456789abcdef";
        const auto byte = static_cast<unsigned char>(c);
        return {digits[byte >> 4U], digits[byte & 0xFU]};
    }
    /// "note: ..." in one of the styles of YAML; block texts may end in lines like remarks.
    void note(std::size_t indent) {
        const std::string anchor = choose_(10) == 0 ? "&n" + std::to_string(++anchors_) + " " : "";
        const std::size_t style = choose_(8);
        if (style <= 3) {
            constexpr std::string_view marks[] = {"|", ">", "|-", "|+", ">+", "|2"};
            const std::size_t mark = choose_(6);
            const std::size_t deeper = mark == 5 ? 2 : 1 + choose_(4);
            line(indent, "note: " + anchor + std::string(marks[mark]));
            for (std::size_t i = 1 + choose_(4); i > 0; --i) {
                constexpr std::string_view words[] = {"some words", "# 3 cups", "- like an item",
                                                      "key: value", "",         "observations:"};
                const auto word = words[choose_(6)];
                line(word.empty() ? 0 : indent + deeper, std::string(word));
            }
            line(indent + deeper, choose_(2) == 0 ? "# the last line" : "the last line");
            for (std::size_t i = choose_(3); i > 0; --i)
                line(0, "");
            return;
        }
        if (style == 4) {
            line(indent, "note: " + anchor + "\"two lines");
            line(indent + 2, choose_(2) == 0 ? "# and more\"" : "and \\\"more\\\"\"");
        } else if (style == 5) {
            line(indent, "note: " + anchor + "'it''s fine'  # said so");
        } else if (style == 6) {
            line(indent, "note: " + anchor + "plain words");
            line(indent + 3, "that go on");
        } else {
            line(indent, anchors_ > 0 && choose_(2) == 0
                             ? "note: *n" + std::to_string(1 + choose_(anchors_))
                             : std::string("note:"));
        }
    }
    void observations() {
        remarks(0);
        const std::string anchor = choose_(16) == 0 ? " &all" : "";
        const std::string name = key("observations") + ":" + anchor;
        switch (choose_(10)) {
            case 0:
                return line(0, name);
            case 1:
                return line(0, name + " []");
            case 2:
                return line(0, name + " [ ] # none yet");
            case 3:
                return line(0, name + " ~");
            case 4:
                return line(0, name + " [{date: 2026-03-01}]");
            default:
                break;
        }
        line(0, name + (choose_(4) == 0 ? " # what I saw" : ""));
        const std::size_t indent = choose_(4);
        for (std::size_t i = 1 + choose_(3); i > 0; --i) {
            remarks(indent);
            if (choose_(6) == 0) {
                line(indent, "- {date: 2026-03-01, gone: no}");
                continue;
            }
            line(indent, "- date: 2026-03-01");
            if (choose_(2) == 0) line(indent + 2, "gone: no");
            note(indent + 2);
        }
        remarks(indent);
        if (!anchor.empty() && choose_(2) == 0) line(0, "again: *all");
    }
    void other_section(bool title) {
        remarks(0);
        if (title) {
            line(0, key("title") + ": >");
            line(2, "a bin");
            line(2, "# of mine");
        } else {
            line(0, key("bed") + ":");
            line(2, "squeeze: damp");
            line(2, "worms: {weight: 1 lb}");
        }
    }

    std::function<std::size_t(std::size_t)> choose_;
    std::string text_;
    std::string end_;
    std::size_t anchors_ = 0;
};

}  // namespace feed_test
