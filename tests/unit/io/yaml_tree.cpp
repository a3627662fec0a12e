#include "feed/io/yaml_tree.hpp"

#include <string>

#include "catch2.hpp"

using feed::ErrorCode;
using feed::io::NodeKind;
using feed::io::parse_yaml;
using feed::io::YamlView;

namespace {

/// The code of the only error of a text that must be refused.
ErrorCode refusal(const std::string& text) {
    const auto tree = parse_yaml(text, "test.yaml");
    REQUIRE_FALSE(tree);
    REQUIRE(tree.errors().size() == 1);
    return tree.errors().front().code;
}

std::string flat(YamlView node) {
    std::string text;
    switch (node.kind()) {
        case NodeKind::null:
            return "~";
        case NodeKind::scalar:
            return (node.quoted() ? "'" : "") + std::string(node.text()) +
                   (node.quoted() ? "'" : "");
        case NodeKind::sequence:
            node.for_each_item([&](YamlView item) { text += flat(item) + ","; });
            return "[" + text + "]";
        case NodeKind::mapping:
            node.for_each_pair(
                [&](YamlView key, YamlView value) { text += flat(key) + ":" + flat(value) + ","; });
            return "{" + text + "}";
    }
    return "";
}

std::string flat(const std::string& text) {
    const auto tree = parse_yaml(text, "test.yaml");
    REQUIRE(tree);
    return flat(tree->root());
}

}  // namespace

TEST_CASE("scalars keep their text and JSON is read as YAML") {
    CHECK(flat("a: 1.50\nb: 'x'\nc:\nd: [1, ~, {e: no}]\n") ==
          "{a:1.50,b:'x',c:~,d:[1,~,{e:no,},],}");
    CHECK(flat(R"({"a": [1, "two"], "b": null})") == "{'a':[1,'two',],'b':~,}");
    CHECK(flat("\xEF\xBB\xBF"
               "a: \xC2\xBD L\n") == "{a:\xC2\xBD L,}");
}

TEST_CASE("places count lines and columns from one") {
    const auto tree = parse_yaml("a: 1\nb:\n  - x\n  - yy: 2\n", "test.yaml");
    REQUIRE(tree);
    int seen = 0;
    tree->root().for_each_pair([&](YamlView key, YamlView value) {
        if (key.text() != "b") return;
        value.for_each_item([&](YamlView item) {
            if (!item.is_mapping()) return;
            item.for_each_pair([&](YamlView, YamlView two) {
                CHECK(two.place().line == 4);
                CHECK(two.place().column == 9);
                ++seen;
            });
        });
    });
    CHECK(seen == 1);
}

TEST_CASE("aliases refer to what they name") {
    CHECK(flat("a: &x [1, 2]\nb: *x\n") == "{a:[1,2,],b:[1,2,],}");
}

TEST_CASE("duplicate keys are found wherever they are") {
    const auto tree = parse_yaml("a: 1\nb:\n  c: 1\n  d: 2\n  c: 3\na: 2\n", "test.yaml");
    REQUIRE(tree);
    const auto& problems = tree->problems();
    REQUIRE(problems.size() == 2);
    CHECK(problems[0].code == ErrorCode::duplicate_entry);
    CHECK(problems[0].line == 5);
    CHECK(problems[0].message == "this key stands here twice; the first is in line 3");
    CHECK(problems[1].line == 6);
}

TEST_CASE("an anchor bomb is refused by its expanded size") {
    std::string bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n";
    for (int level = 1; level < 30; ++level) {
        const auto name = "a" + std::to_string(level);
        const auto below = "*a" + std::to_string(level - 1);
        bomb += name + ": &" + name + " [" + below;
        for (int i = 1; i < 10; ++i)
            bomb += ", " + below;
        bomb += "]\n";
    }
    CHECK(refusal(bomb) == ErrorCode::too_large);
}

TEST_CASE("an alias inside what it names is refused") {
    CHECK(refusal("a: &a [1, *a]\n") == ErrorCode::syntax);
}

TEST_CASE("deep nesting is refused, in flow and in block form") {
    CHECK(refusal("a: " + std::string(5000, '[') + std::string(5000, ']')) == ErrorCode::too_large);
    CHECK(refusal("a: " + std::string(100000, '{')) == ErrorCode::too_large);
    std::string block;
    for (int level = 0; level < 200; ++level)
        block += std::string(static_cast<std::size_t>(level), ' ') + "a:\n";
    CHECK(refusal(block) == ErrorCode::too_large);
}

TEST_CASE("what is not one YAML text in UTF-8 is refused") {
    CHECK(refusal("") == ErrorCode::empty);
    CHECK(refusal("# only a remark\n\n") == ErrorCode::empty);
    CHECK(refusal("---\n") == ErrorCode::empty);
    CHECK(refusal(std::string("a: 1\0b", 6)) == ErrorCode::not_utf8);
    CHECK(refusal("a: caf\xE9\n") == ErrorCode::not_utf8);
    CHECK(refusal("a: \xC0\xAF\n") == ErrorCode::not_utf8);
    CHECK(refusal("a: \xED\xA0\x80\n") == ErrorCode::not_utf8);
    CHECK(refusal("a: [1, 2\n") == ErrorCode::syntax);
    CHECK(refusal("a: b: c\n") == ErrorCode::syntax);
    CHECK(refusal("a: *nothing\n") == ErrorCode::syntax);
    CHECK(refusal("a: 1\n---\nb: 2\n") == ErrorCode::syntax);
    CHECK(refusal("a: !!python/object:os.system x\n") == ErrorCode::syntax);
}

TEST_CASE("a tab is named as the likely slip") {
    const auto tree = parse_yaml("a:\n\t- b\n", "test.yaml");
    REQUIRE_FALSE(tree);
    CHECK(tree.errors()[0].message.find("tab") != std::string::npos);
    CHECK(tree.errors()[0].line == 2);
}
