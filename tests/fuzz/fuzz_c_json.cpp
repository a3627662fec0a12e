// JSON in, JSON out through the C interface: the first byte picks the verb, the rest is the text.
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <string>

#include "feed/feed.h"

namespace {

void expect(bool holds) {
    if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    constexpr std::array<const char*, 6> verbs{"blend",    "balance", "check",
                                               "forecast", "show",    "nothing"};
    if (size == 0) return 0;
    const char* verb = verbs[data[0] % verbs.size()];
    const std::string text(reinterpret_cast<const char*>(data + 1), size - 1);
    feed_error error;
    error.struct_size = sizeof error;
    feed_text* out = nullptr;
    const feed_code code = feed_json(verb, text.c_str(), "fuzzed", nullptr, &out, &error);
    const char* json = nullptr;
    std::size_t length = 0;
    expect(out != nullptr && feed_text_get(out, &json, &length, nullptr) == FEED_OK);
    expect(std::strlen(json) == length && json[0] == '{');
    expect((code == FEED_OK) == (std::strncmp(json, "{\n  \"errors\"", 11) != 0));
    if (code != FEED_OK) expect(error.code == code && error.message[0] != '\0');
    feed_text_free(out);
    return 0;
}
