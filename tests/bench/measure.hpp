#pragma once
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <vector>

namespace feed_bench {

/// Keeps a result alive so that the work is not optimised away.
template <class T>
inline void keep(const T& value) {
    asm volatile("" : : "g"(&value) : "memory");
}

/// Processor time of this process: for calls so long that others on the machine would be counted.
struct ProcessorClock {
    static std::chrono::nanoseconds now() {
        timespec time{};
        clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
        return std::chrono::seconds(time.tv_sec) + std::chrono::nanoseconds(time.tv_nsec);
    }
};

/// Median nanoseconds of one call of `work`, over 101 batches of at least about 20 microseconds.
template <class clock = std::chrono::steady_clock, class Work>
double median_nanoseconds(Work work) {
    const auto batch = [&](long calls) {
        const auto start = clock::now();
        for (long i = 0; i < calls; ++i)
            work();
        return std::chrono::duration<double, std::nano>(clock::now() - start).count() /
               static_cast<double>(calls);
    };
    long calls = 1;
    while (batch(calls) * static_cast<double>(calls) < 20000.0 && calls < 100000000)
        calls *= 2;
    std::vector<double> times;
    for (int i = 0; i < 101; ++i)
        times.push_back(batch(calls));
    std::nth_element(times.begin(), times.begin() + 50, times.end());
    return times[50];
}

/// One line of the report: name, median, and the ratio to a reference of the same run.
inline void report(const char* name, double nanoseconds, double reference) {
    std::printf("%-44s %12.1f ns %10.3f\n", name, nanoseconds, nanoseconds / reference);
}

}  // namespace feed_bench
