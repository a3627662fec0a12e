// More worms, bedding, room or things at hand never feed less: exactly so before rounding, and
// after it by no more than the rounding.
#include <algorithm>
#include <array>
#include <catch2.hpp>
#include <long_forms.hpp>
#include <optional>
#include <ration_kitchen.hpp>
#include <string_view>

using namespace feed;
using kitchen::Case;

namespace {

/// The plan before it is rounded.
struct Unrounded {
    double scraps_kg = 0.0;
    bool heats = false;  ///< heat, which is no line, takes some of it away again
};

/// Nothing where the bed is not fed.
std::optional<Unrounded> before_rounding(const RationInput& in) {
    Ration ration;
    detail::RationWork work = detail::work_of(in, ration);
    if (detail::act_first(work, ration) || detail::must_wait(work, ration)) return std::nullopt;
    const PlanProblem problem = detail::plan_problem(work, ration);
    detail::PlanSolver solver(problem);
    std::array<double, detail::hazard_row_count> pull{};
    const auto x = solver.solve(0.0, solver::infinity, pull);
    if (!x) return Unrounded{};
    const std::vector<double> kg(x->begin(),
                                 x->begin() + static_cast<std::ptrdiff_t>(problem.things.size()));
    const HazardNumbers after =
        hazard_numbers(problem.place, solver.load_of_plan(kg, (*x)[problem.things.size()]));
    return Unrounded{solver.scraps_in(kg),
                     after[Hazard::hot].level > problem.idle[Hazard::hot].level};
}

/// What rounding may take: two figures, half of a kind under 20 g, and limits drawn in by 6 %.
double rounding_of(const RationInput& in, double kg) {
    const auto kinds = static_cast<double>(in.things.size());
    return 0.16 * kg + least_portion_kg * kinds + 1e-9;
}

struct More {
    std::string_view name;
    void (*add)(Case&, kitchen::Dice&);
};

constexpr std::array<More, 5> all_more{{
    {"worms",
     [](Case& c, kitchen::Dice& dice) {
         c.bed.worms.wet_mass = dice.between(1.05, 2.0) * *c.bed.worms.wet_mass;
     }},
    {"bedding",
     [](Case& c, kitchen::Dice& dice) {
         for (ThingAtHand& thing : c.things) {
             if (part_of(*thing.feedstock) == Part::bedding && thing.most)
                 thing.most = dice.between(1.1, 4.0) * *thing.most;
         }
     }},
    {"room",
     [](Case& c, kitchen::Dice& dice) {
         c.bed.container.inside->depth =
             c.bed.container.inside->depth + metres(dice.between(0.02, 0.3));
     }},
    {"of one kind of scraps",
     [](Case& c, kitchen::Dice& dice) {
         if (c.things.empty()) return;
         ThingAtHand& thing = c.things[dice.below(c.things.size())];
         if (part_of(*thing.feedstock) == Part::scraps && thing.most)
             thing.most = dice.between(1.1, 4.0) * *thing.most;
     }},
    {"kinds of scraps",
     [](Case& c, kitchen::Dice& dice) {
         const auto f = kitchen::from_table(dice.below(2) == 0 ? "carrot" : "apple-pomace");
         c.things.push_back({f, f->name, wet_kilograms(dice.between(0.05, 0.8)), {}});
     }},
}};

}  // namespace

namespace {

/// What goes in of the scraps that are there.
double at_hand_kg(const Ration& r) {
    double kg = 0.0;
    for (const PutIn& put : r.put_in)
        if (put.part == Part::scraps && put.thing.at_hand) kg += put.wet_mass.in_kilograms();
    return kg;
}

}  // namespace

TEST_CASE("more of what helps never feeds less") {
    const auto table = kitchen::whole_table();
    for (const More& more : all_more) {
        kitchen::Dice dice(101);
        int compared = 0;
        int grew = 0;
        for (int i = 0; i < feed_test::draws(1500); ++i) {
            Case c = kitchen::random_case(dice, table);
            // Sizes that do not follow one another, so that only one thing changes.
            if (!c.bed.container.inside)
                c.bed.container.inside = InsideSize{metres(0.5), metres(0.4), metres(0.4)};
            c.bed.depth_of_contents = dice.between(0.5, 0.99) * c.bed.container.inside->depth;
            Case with = c;
            more.add(with, dice);
            // Without scraps the ration is for soft mixed ones without limit: no less than of any.
            const bool scraps = std::any_of(c.things.begin(), c.things.end(), [](const auto& t) {
                return part_of(*t.feedstock) == Part::scraps &&
                       !barred_in(*t.feedstock, Place::worm_bed);
            });
            if (!scraps) continue;
            const RationInput in = kitchen::input_of(c);
            const RationInput more_in = kitchen::input_of(with);
            const auto before = before_rounding(in);
            const auto after = before_rounding(more_in);
            INFO("more " << more.name << ", household " << i);
            if (before) {
                // What was fed is fed with more, too.
                REQUIRE(after.has_value());
                ++compared;
                if (after->scraps_kg > before->scraps_kg + 1e-6) ++grew;
                CAPTURE(before->scraps_kg, after->scraps_kg);
                REQUIRE(after->scraps_kg >= before->scraps_kg * (1.0 - 1e-6) - 1e-7);
            }
            const Ration first = ration(in);
            const Ration second = ration(more_in);
            INFO(kitchen::told(first) << " -> " << kitchen::told(second));
            // Touchy things of which next to none may go in are left out, and other scraps told.
            const double first_kg = at_hand_kg(first);
            REQUIRE(at_hand_kg(second) >= first_kg - rounding_of(in, first_kg));
        }
        INFO(more.name);
        CHECK(feed_test::enough(compared, 300));
        // Room is seldom what keeps food out.
        CHECK(feed_test::enough(grew, (more.name == "room" ? 0 : 20)));
    }
}

TEST_CASE("rounding does not decide whether a bed is fed") {
    const auto table = kitchen::whole_table();
    kitchen::Dice dice(77);
    int small = 0;
    for (int i = 0; i < feed_test::draws(6000); ++i) {
        const Case c = kitchen::random_case(dice, table);
        const RationInput in = kitchen::input_of(c);
        const auto before = before_rounding(in);
        // Where heat decides, it is the limit.
        if (!before || before->heats || before->scraps_kg < least_ration_kg) continue;
        const Ration r = ration(in);
        INFO("household " << i << ", " << before->scraps_kg << " kg: " << kitchen::told(r));
        const bool eats = r.answer == RationAnswer::feed || r.answer == RationAnswer::feed_less;
        REQUIRE(eats);
        // Two figures, a twentieth for what is left out, and 3 % where what was balanced shifts.
        CHECK(r.scraps.in_kilograms() >= 0.8 * before->scraps_kg);
        if (before->scraps_kg < 0.1) ++small;
    }
    CHECK(feed_test::enough(small, 50));
}
