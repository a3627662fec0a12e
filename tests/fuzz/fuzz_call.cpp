// Requests through the one door: whatever comes in, an answer in JSON goes out, the same each time;
// and what is read as JSON is written and read again as the same.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "feed/io/door.hpp"
#include "feed/io/json_tree.hpp"

namespace {

void expect(bool holds) {
    if (!holds) std::abort();
}

std::string written(const feed::io::YamlTree& tree) {
    feed::io::JsonWriter json;
    feed::io::write_node(json, tree.root(), true);
    return json.take();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size > 4000) return 0;
    const std::string_view request(reinterpret_cast<const char*>(data), size);
    const auto tree = feed::io::parse_json(request, "fuzzed");
    if (tree && tree->problems().empty()) {
        const std::string once = written(*tree);
        const auto again = feed::io::parse_json(once, "fuzzed");
        expect(again.has_value() && written(*again) == once);
    }
    const auto answer = feed::io::answer_request(request);
    if (!tree) expect(!answer);
    if (!answer) {
        for (const auto& error : answer.errors())
            expect(!error.message.empty());
        return 0;
    }
    expect(feed::io::parse_json(*answer, "answer").has_value());
    expect(feed::call(request) == *answer);
    return 0;
}
