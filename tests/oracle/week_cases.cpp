// Prints random weeks over several bins as JSON, one a line, for week_reference.py: what is there,
// what each bin may have on each of its days, and how the library shares it. Where the shares are
// scarce, and where they are ample.
// Usage: oracle_week_cases COUNT [BINS THINGS]
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <week_kitchen.hpp>

#include "feed/ration/week_plan.hpp"

using namespace feed;

namespace {

void print(double number) {
    if (std::isfinite(number))
        std::printf("%.17g", number);
    else
        std::printf("null");
}

void print_list(const char* key, std::span<const double> numbers) {
    std::printf("\"%s\":[", key);
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        if (i > 0) std::printf(",");
        print(numbers[i]);
    }
    std::printf("],");
}

void print_number(const char* key, double number) {
    std::printf("\"%s\":", key);
    print(number);
    std::printf(",");
}

const char* part_name(const Feedstock& f) {
    switch (part_of(f)) {
        case Part::scraps:
            return "scraps";
        case Part::bedding:
            return "bedding";
        case Part::amendment:
            return "amendment";
        case Part::poured_water:
            break;
    }
    return "water";
}

std::string key_of(const Feedstock& f) {
    return f.id + "/" + f.prepared_as;
}

/// What a rule needs to know of a material.
void print_material(const Feedstock& f) {
    std::printf("{\"key\":\"%s\",\"part\":\"%s\",\"kinds\":[", key_of(f).c_str(), part_name(f));
    bool first = true;
    for (std::size_t kind = 0; kind < capped_together.size(); ++kind) {
        if (!f.has(capped_together[kind])) continue;
        std::printf("%s%zu", first ? "" : ",", kind);
        first = false;
    }
    std::printf("],");
    print_number("loose_kg_per_m3", detail::loose_kg_per_m3(f));
    print_number("cap_kg_per_kg_worms", detail::week_cap_kg(f, 1.0));
    std::printf("\"barred\":%s}", barred_in(f, Place::worm_bed) ? "true" : "false");
}

void print_thing(const WeekThing& one) {
    std::printf("{\"from\":%d,\"until\":%d,\"first\":%s,\"keeps\":%s,", one.from, one.until,
                one.thing.first ? "true" : "false", one.kept ? "true" : "false");
    print_number("there_kg", one.thing.most ? one.thing.most->in_kilograms() : solver::infinity);
    std::printf("\"material\":");
    print_material(*one.thing.feedstock);
    std::printf("}");
}

/// A bin on one of its days: its materials, its own limits, and the lines of its hazards.
void print_opening(const detail::OpeningWork& opening) {
    const PlanProblem& problem = opening.problem;
    const BedNumbers& bed = *problem.place.bed;
    std::printf("{\"day\":%d,\"materials\":[", opening.day);
    for (std::size_t j = 0; j < problem.things.size(); ++j) {
        if (j > 0) std::printf(",");
        print_material(*problem.things[j].feedstock);
    }
    std::printf("],");
    std::vector<double> settled;
    std::vector<double> given;
    for (std::size_t j = 0; j < problem.things.size(); ++j) {
        settled.push_back(problem.per_kg[j].settled_m3);
        given.push_back(problem.caps[j].given_kg);
    }
    print_list("settled_m3_per_kg", settled);
    print_list("given_kg", given);
    print_list("given_of_kind", problem.given_of_kind);
    print_number("worms_kg", bed.worms_kg.value);
    print_number("most_scraps_kg", problem.most_scraps_kg);
    print_number("free_room_m3", problem.free_room_m3);
    print_number("most_lime_kg", problem.most_lime_kg);
    print_number("contents_m3", bed.contents_m3);
    print_number("horizon_days", bed.horizon_days);
    print_number("rate_window_days", bed.rate_window_days);
    print_number("recent_scraps_kg", bed.recent_scraps_kg);
    print_number("soft_kg", opening.work->soft_kg);
    print_number("week_kg", opening.work->week_kg);
    print_number("allowed", opening.work->allowed);
    std::vector<double> course;
    for (const auto& share : opening.in.new_food)
        course.push_back(share.value);
    print_list("course", course);
    detail::PlanRows rows(problem, problem.things.size() + 1);
    rows.restart(0.0, solver::infinity);
    std::printf("\"hazards\":[");
    for (std::size_t h = 0; h < detail::hazard_row_count; ++h) {
        std::printf("%s{", h > 0 ? "," : "");
        print_list("per_kg", rows.row(h));
        std::printf("\"most\":");
        print(rows.upper_of(h));
        std::printf("}");
    }
    std::printf("]}");
}

/// What the library gives to each column, and what that reaches.
void print_answer(const detail::WeekProblem& problem, const detail::WeekShares& shares) {
    std::printf("\"given\":[");
    for (std::size_t b = 0; b < problem.blocks.size(); ++b) {
        std::printf("%s[", b > 0 ? "," : "");
        const auto& columns = problem.blocks[b].columns;
        for (std::size_t c = 0; c < columns.size(); ++c) {
            std::printf("%s[%zu,%zu,%d,", c > 0 ? "," : "", columns[c].opening, columns[c].thing,
                        columns[c].shared ? static_cast<int>(*columns[c].shared) : -1);
            print(shares.kg[b][c]);
            std::printf("]");
        }
        std::printf("]");
    }
    std::printf("],");
    print_list("most_kg", shares.most_kg);
    std::printf("\"verified\":%s", shares.verified ? "true" : "false");
}

/// Processor time of this process: others on the machine do not count.
double processor_seconds() {
    timespec time{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

void print_week(const WeekInput& in, bool timed) {
    std::vector<detail::Openings> openings;
    detail::BedsOfWeek beds(in);
    for (std::size_t b = 0; b < in.bins.size(); ++b) {
        RationInput today = beds.on(b, {}, 0);
        for (const WeekThing& one : in.things) {
            if (detail::is_usable(one, 0)) today.things.push_back(one.thing);
        }
        openings.push_back(detail::openings_of(in, beds, b, ration(today)));
    }
    const auto problem = detail::week_problem(in, openings);
    double start = processor_seconds();
    const auto shares = detail::WeekSolver(problem).solve();
    std::printf("{");
    print_number("solver_s", processor_seconds() - start);
    start = processor_seconds();
    if (timed) static_cast<void>(plan_week(in));
    print_number("plan_s", processor_seconds() - start);
    std::printf("\"things\":[");
    for (std::size_t i = 0; i < in.things.size(); ++i) {
        if (i > 0) std::printf(",");
        print_thing(in.things[i]);
    }
    std::printf("],\"bins\":[");
    for (std::size_t b = 0; b < openings.size(); ++b) {
        std::printf("%s[", b > 0 ? "," : "");
        for (std::size_t o = 0; o < openings[b].size(); ++o) {
            if (o > 0) std::printf(",");
            print_opening(*openings[b][o]);
        }
        std::printf("]");
    }
    std::printf("],");
    print_answer(problem, shares);
    std::printf("}\n");
}

}  // namespace

int main(int argc, char** argv) {
    const auto number = [&](int at, std::size_t usual) {
        return argc > at ? static_cast<std::size_t>(std::strtoul(argv[at], nullptr, 10)) : usual;
    };
    const std::size_t count = number(1, 10);
    const std::size_t bins = number(2, 0);
    const std::size_t things = number(3, 0);
    kitchen::Dice dice(4711);
    const auto table = kitchen::whole_table();
    for (std::size_t i = 0; i < count; ++i) {
        WeekInput in = kitchen::random_week(dice, table, bins > 0 ? bins : 1 + dice.below(6),
                                            things > 0 ? things : 4 + dice.below(20));
        if (bins > 0) in.most_openings = 2;
        print_week(in, bins > 0);
    }
    return 0;
}
