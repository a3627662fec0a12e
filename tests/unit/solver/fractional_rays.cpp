// Whether a blend is best at a point or only approached by ever more of something, held against a
// plain search in two numbers: how much is added, and which share of it is the first feedstock.
#include <algorithm>
#include <array>
#include <vector>

#include "catch2.hpp"
#include "feed/solver/fractional.hpp"
#include "solver_problems.hpp"

using feed::solver::fractional;
using feed::solver::FractionalResult;
using feed::solver::FractionalStatus;
using feed::solver::infinity;
using feed::solver::Workspace;
using feed_test::Approx;
using Numbers = std::vector<double>;

namespace {

/// Per wet kilogram.
struct Material {
    double carbon, nitrogen, salt;
};

/// A kilogram of scraps and two feedstocks of which any amount may be added. C:N is aimed at 30, in
/// units of 20 upwards and 10 downwards; salt at none, in units of half a per cent.
struct Kitchen {
    std::array<Material, 3> materials;

    double deviation(const std::array<double, 3>& kilograms) const {
        Material whole{0, 0, 0};
        double mass = 0;
        for (std::size_t j = 0; j < 3; ++j) {
            whole.carbon += materials[j].carbon * kilograms[j];
            whole.nitrogen += materials[j].nitrogen * kilograms[j];
            whole.salt += materials[j].salt * kilograms[j];
            mass += kilograms[j];
        }
        const double ratio = whole.carbon / whole.nitrogen;
        return std::max({(ratio - 30) / 20, (30 - ratio) / 10, whole.salt / mass / 0.005});
    }

    FractionalResult solve(Workspace& workspace) {
        numerators.clear();
        denominators.clear();
        const auto ratio = [&](auto above, auto below) {
            for (const Material& m : materials) {
                numerators.push_back(above(m));
                denominators.push_back(below(m));
            }
        };
        const auto by_nitrogen = [](const Material& m) { return m.nitrogen; };
        ratio([](const Material& m) { return (m.carbon - 30 * m.nitrogen) / 20; }, by_nitrogen);
        ratio([](const Material& m) { return (30 * m.nitrogen - m.carbon) / 10; }, by_nitrogen);
        ratio([](const Material& m) { return m.salt / 0.005; },
              [](const Material&) { return 1.0; });
        return fractional({lower, upper, {}, {}, {}}, {numerators, {}, denominators, {}}, added,
                          workspace);
    }

    Numbers lower{1, 0, 0};
    Numbers upper{1, infinity, infinity};
    Numbers added{0, 1, 1};
    Numbers numerators, denominators;
};

/// The least value of a function with one valley between two ends.
template <typename Function>
double least(double from, double to, Function value) {
    for (int step = 0; step < 90; ++step) {
        const double third = (to - from) / 3;
        if (value(from + third) < value(to - third)) {
            to -= third;
        } else {
            from += third;
        }
    }
    return value((from + to) / 2);
}

double least_along_rays(const Kitchen& kitchen) {
    return least(0, 1, [&](double share) { return kitchen.deviation({0, share, 1 - share}); });
}

double least_at_points(const Kitchen& kitchen) {
    return least(0, 1e6, [&](double mass) {
        return least(0, 1, [&](double share) {
            return kitchen.deviation({1, mass * share, mass * (1 - share)});
        });
    });
}

}  // namespace

TEST_CASE("a point that is better than every ray is found, and what only rays reach is unbounded") {
    feed_test::Random random(2026);
    Workspace workspace(3, 3);
    int at_points = 0;
    int along_rays = 0;
    for (int round = 0; round < 200; ++round) {
        Kitchen kitchen;
        for (Material& m : kitchen.materials) {
            m.carbon = random.between(0.05, 0.45);
            m.nitrogen = m.carbon / random.between(12, 80);
            m.salt = random.between(0.0001, 0.004);
        }
        const double rays = least_along_rays(kitchen);
        const double points = least_at_points(kitchen);
        CAPTURE(round, rays, points);
        if (points < rays - 1e-7) {
            const FractionalResult result = kitchen.solve(workspace);
            REQUIRE(result.status == FractionalStatus::solved);
            CHECK(result.value == Approx(points).margin(1e-7));
            CHECK(kitchen.deviation({1, result.x[1], result.x[2]}) ==
                  Approx(result.value).margin(1e-12));
            ++at_points;
        } else if (points > rays) {
            const FractionalResult result = kitchen.solve(workspace);
            REQUIRE(result.status == FractionalStatus::unbounded);
            CHECK(result.value == Approx(rays).margin(1e-7));
            CHECK(kitchen.deviation({0, result.ray[1], result.ray[2]}) ==
                  Approx(result.value).margin(1e-9));
            ++along_rays;
        }
    }
    CHECK(at_points > 50);
    CHECK(along_rays > 50);
}

TEST_CASE("a point that is as good as the best ray is an answer") {
    // The scraps are the first feedstock too, so that more of it changes nothing: the least that
    // has to be added is the answer, and what a ray reaches is no better.
    Kitchen kitchen;
    kitchen.materials = {{{0.40, 0.02, 0.002}, {0.40, 0.02, 0.002}, {0.30, 0.03, 0.003}}};
    Workspace workspace(3, 3);
    const FractionalResult result = kitchen.solve(workspace);
    REQUIRE(result.status == FractionalStatus::solved);
    CHECK(result.value == Approx(1.0));
    CHECK(result.x[1] == Approx(0).margin(1e-9));
    CHECK(result.x[2] == Approx(0).margin(1e-9));
}

// Two amounts exchanged one for the other leave a denominator as it is and lower the numerator for
// ever; rays close to that one lower it towards ever lower limits instead.
TEST_CASE("a ratio that falls without any end is told from one that falls towards a limit") {
    const Numbers lower{-3.75, -infinity, -0.25, -infinity, -3.5, -infinity, -infinity, -2.75};
    const Numbers upper{infinity, 3.75, -0.25, infinity, infinity, infinity, infinity, -1.25};
    const Numbers numerator{-1.25, 2, 2, 2.5, -0.25, 3.25, 3.5, -3.25};
    const Numbers denominator(8, 1.0);
    const Numbers constant{64};
    Numbers rows{2, 3.75, -2.75, 1.5, 1.5, 2, 2, 2};
    rows.resize(rows.size() + 8, 2.0);
    const Numbers row_lower{2, 2};
    const Numbers row_upper{infinity, infinity};
    Workspace workspace(8, 3);
    const FractionalResult result =
        fractional({lower, upper, rows, row_lower, row_upper},
                   {numerator, {}, denominator, constant}, {}, workspace);
    REQUIRE(result.status == FractionalStatus::unbounded);
    CHECK(result.value == -infinity);
    double falls = 0;
    double grows = 0;
    for (std::size_t j = 0; j < 8; ++j) {
        falls += numerator[j] * result.ray[j];
        grows += result.ray[j];
        if (lower[j] > -infinity) CHECK(result.ray[j] >= 0);
        if (upper[j] < infinity) CHECK(result.ray[j] <= 0);
    }
    CHECK(falls < 0);
    CHECK(grows == Approx(0).margin(1e-9 * -falls));
}
