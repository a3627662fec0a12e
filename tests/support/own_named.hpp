#pragma once
#include <string>
#include <utility>

#include "feed/feedstock/own_feedstock.hpp"

namespace feed_test {

/// A feedstock of a keeper's own of which only the name is known.
inline feed::OwnFeedstock own_named(std::string name) {
    feed::OwnFeedstock own;
    own.name = std::move(name);
    return own;
}

}  // namespace feed_test
