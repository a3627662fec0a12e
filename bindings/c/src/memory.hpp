#pragma once
// Handles live in memory from the caller's allocator; each remembers how to give it back.
#include <cstdlib>
#include <new>
#include <utility>

#include "bounded.hpp"
#include "feed/feed.h"

namespace feed::c {

inline void* default_allocate(void*, std::size_t size, std::size_t) {
    return std::malloc(size);
}
inline void default_release(void*, void* memory) {
    std::free(memory);
}

inline feed_allocator usable(const feed_allocator* allocator) noexcept {
    constexpr feed_allocator none = FEED_ALLOCATOR_INIT;
    if (allocator != nullptr) return taken(*allocator, none);
    return {sizeof(feed_allocator), nullptr, default_allocate, default_release};
}

inline bool is_valid(const feed_allocator* allocator) noexcept {
    return allocator == nullptr ||
           (has_room(allocator) && allocator->allocate != nullptr && allocator->release != nullptr);
}

/// Makes a handle of type Handle, which has a member `feed_allocator memory`. Throws bad_alloc.
template <class Handle, class... Arguments>
Handle* make_handle(const feed_allocator* allocator, Arguments&&... arguments) {
    static_assert(alignof(Handle) <= alignof(std::max_align_t));
    const feed_allocator memory = usable(allocator);
    void* place = memory.allocate(memory.user, sizeof(Handle), alignof(Handle));
    if (place == nullptr) throw std::bad_alloc();
    try {
        return ::new (place) Handle{memory, std::forward<Arguments>(arguments)...};
    } catch (...) {
        memory.release(memory.user, place);
        throw;
    }
}

template <class Handle>
void free_handle(Handle* handle) noexcept {
    if (handle == nullptr) return;
    const feed_allocator memory = handle->memory;
    handle->~Handle();
    memory.release(memory.user, handle);
}

}  // namespace feed::c
