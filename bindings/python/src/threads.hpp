#pragma once
// Work on rows that do not depend on one another, by several threads.
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace feed::python {

/// Calls work(first, last) for parts of 0..count, one part a thread; the first exception of any
/// part is thrown again when all are done. The parts do not depend on timing, so neither do the
/// results. The caller has released the GIL.
template <class Work>
void in_threads(std::size_t count, std::size_t threads, const Work& work) {
    if (threads > count) threads = count;
    if (threads <= 1) {
        work(std::size_t{0}, count);
        return;
    }
    std::exception_ptr problem;
    std::mutex one_at_a_time;
    const auto guarded = [&](std::size_t first, std::size_t last) {
        try {
            work(first, last);
        } catch (...) {
            const std::lock_guard<std::mutex> lock(one_at_a_time);
            if (!problem) problem = std::current_exception();
        }
    };
    const auto end_of = [&](std::size_t part) { return count * part / threads; };
    std::vector<std::thread> workers;
    workers.reserve(threads - 1);
    for (std::size_t part = 1; part < threads; ++part)
        workers.emplace_back(guarded, end_of(part), end_of(part + 1));
    guarded(0, end_of(1));
    for (auto& worker : workers)
        worker.join();
    if (problem) std::rethrow_exception(problem);
}

}  // namespace feed::python
