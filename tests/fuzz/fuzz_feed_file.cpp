// Feed files with balances, beds and diaries: any bytes give a file or errors with a place, and
// whatever was understood can be answered.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"

namespace {

void expect(bool holds) {
    if (!holds) std::abort();
}

void expect_errors(const feed::Errors& errors) {
    expect(!errors.empty());
    for (const auto& error : errors)
        expect(!error.message.empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const auto file = feed::io::read_feed_text(text, "fuzzed");
    if (!file) {
        expect_errors(file.errors());
        return 0;
    }
    for (const std::string_view verb : {"blend", "balance", "check", "forecast"}) {
        const auto answer = feed::io::answer_json(verb, *file);
        if (answer)
            expect(answer->find(": nan") == std::string::npos && answer->front() == '{');
        else
            expect_errors(answer.errors());
    }
    return 0;
}
