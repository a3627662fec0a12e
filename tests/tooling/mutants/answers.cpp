// Answers many feed files in one process, for tests/tooling/mutants.py.
//
//     mutant_answers record JOBS      each line "verb<TAB>file"; prints a line for each job: the
//                                     hash of its answer and the places that it reached
//     mutant_answers compare JOBS     each line "verb<TAB>file<TAB>hash"; prints the number of the
//                                     first job with another answer and ends with 1
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>

#include "feed/io/answers.hpp"
#include "feed/io/feed_file.hpp"
#include "feed/io/to_json.hpp"
#include "feed/mutant.hpp"

namespace {

std::string answer(const std::string& verb, const std::string& path) {
    const auto file = feed::io::read_feed_file(path);
    if (!file) return feed::io::to_json(file.errors());
    const auto found = feed::io::answer_json(verb, *file);
    return found ? *found : feed::io::to_json(found.errors());
}

/// FNV-1a, 64 bits.
std::string hash_of(const std::string& text) {
    std::uint64_t hash = 14695981039346656037ULL;
    for (const char c : text)
        hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
    return std::to_string(hash);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) return 2;
    const bool record = std::strcmp(argv[1], "record") == 0;
    std::ifstream jobs(argv[2]);
    std::string line;
    for (int number = 0; std::getline(jobs, line); ++number) {
        std::istringstream fields(line);
        std::string verb, path, expected;
        std::getline(fields, verb, '\t');
        std::getline(fields, path, '\t');
        std::getline(fields, expected);
        if (record) std::memset(feed_mutant::reached, 0, sizeof feed_mutant::reached);
        const std::string hash = hash_of(answer(verb, path));
        if (!record) {
            if (hash == expected) continue;
            std::printf("%d\n", number);
            return 1;
        }
        std::printf("%s", hash.c_str());
        for (int i = 0; i < FEED_MUTANT_COUNT; ++i)
            if (feed_mutant::reached[i] != 0) std::printf(" %d", i);
        std::printf("\n");
    }
    return 0;
}
