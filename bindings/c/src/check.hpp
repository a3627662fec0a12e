#pragma once
// A judgement becomes a handle in one place, whether a bed or a diary was judged.
#include "handles.hpp"

namespace feed::c {

/// A handle with the words of the ration beside it, in metric units. Throws bad_alloc.
feed_check_result* make_check_result(const feed_allocator* allocator, CheckResult content);

}  // namespace feed::c
