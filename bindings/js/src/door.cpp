#include <cstdint>
#include <cstdlib>
#include <new>
#include <string>
#include <string_view>

#include "feed/io/door.hpp"

// libfeed as one WebAssembly module: the door, and nothing beside it. libfeed.js is its only
// caller. No exceptions: where memory ends the module stops, and libfeed.js says so and begins a
// new one.
namespace {
std::string answer;    // of the last call, until the next
bool ran_out = false;  // of memory; asked after the module has stopped
}  // namespace

// Of the library: all that asks for memory comes through here.
void* operator new(std::size_t bytes) {
    if (void* room = std::malloc(bytes == 0 ? 1 : bytes)) return room;
    ran_out = true;
    __builtin_trap();
}

extern "C" {

/// Room for a request of so many bytes, or null. The next feed_call takes it over.
__attribute__((export_name("feed_allocate"))) char* feed_allocate(std::uint32_t bytes) {
    return static_cast<char*>(std::malloc(bytes == 0 ? 1 : bytes));
}

/// Answers a request (docs/door.md) and frees it. Returns the answer, which stays until the next
/// call and is feed_answer_length() bytes long.
__attribute__((export_name("feed_call"))) const char* feed_call(char* request,
                                                                std::uint32_t bytes) {
    answer = feed::call(std::string_view(request, bytes));
    std::free(request);
    return answer.data();
}

/// The bytes of the last answer.
__attribute__((export_name("feed_answer_length"))) std::uint32_t feed_answer_length() {
    return static_cast<std::uint32_t>(answer.size());
}

/// Whether the module stopped because memory ended.
__attribute__((export_name("feed_ran_out"))) std::int32_t feed_ran_out() {
    return ran_out ? 1 : 0;
}

}  // extern "C"
