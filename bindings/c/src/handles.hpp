#pragma once
// What stands behind the opaque handles. Every one starts with the allocator that made it.
#include <memory>
#include <string>
#include <vector>

#include "feed/balance/balance_answer.hpp"
#include "feed/bed/bed.hpp"
#include "feed/feed.h"
#include "feed/feedstock/feedstock.hpp"
#include "feed/forecast/forecast_result.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/ration/check.hpp"

struct feed_text {
    feed_allocator memory;
    std::string content;
};

struct feed_feedstock {
    feed_allocator memory;
    std::shared_ptr<const feed::Feedstock> content;
    std::string part;
};

struct feed_problem {
    feed_allocator memory;
    feed::BalanceProblem content;
    bool set_said = false;  ///< else its targets go in place of those of a worm bed
};

struct feed_answer {
    feed_allocator memory;
    /// Apart, so that no block is above what allocators keep at hand for the next call (glibc: 1032
    /// bytes); above that a call costs a sixth more.
    std::unique_ptr<const feed::BalanceAnswer> content;
    std::vector<std::string> labels;  ///< of the entries, in their order
};

struct feed_bed {
    feed_allocator memory;
    feed::Bed content;
    std::vector<feed::Feeding> planned;  ///< feedings from day 0 on, in order of their days
};

/// A judgement with the words of its ration, which callers may keep pointers to.
struct feed_check_result {
    feed_allocator memory;
    feed::CheckResult content;
    std::vector<std::string> measures;  ///< of what is put in, in its order
    std::vector<std::string> rest_measures;
    std::vector<std::string> reasons;
    std::vector<std::string> weigh;
    std::vector<std::string> lines;
};

struct feed_forecast {
    feed_allocator memory;
    feed::Forecast content;
};

struct feed_diary {
    feed_allocator memory;
    feed::io::FeedFile content;
};
