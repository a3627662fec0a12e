// The course learned from looks. Truths are simulated, or follow from the definition.
#include "feed/diary/own_course.hpp"

#include "catch2.hpp"

using namespace feed;
using feed_test::Approx;

namespace {

constexpr std::array<double, 3> soft_food{0.70, 0.25, 0.05};

CourseLook seen(std::size_t feeding, double days, double left) {
    CourseLook look;
    look.feeding = feeding;
    look.days = days;
    look.effective_days = 0.7 * days;
    look.low = left < 0.05 ? -1.0 : left - 0.05;
    look.high = left > 0.95 ? 2.0 : left + 0.05;
    return look;
}

}  // namespace

TEST_CASE("before any look the course is the published one") {
    const OwnCourse course({{soft_food, 0.0}}, {});
    // A quarter of the soft part is left after ln 4 / 0.30 effective days.
    CHECK(course.effective_days_until(0.25, 0.7).value ==
          Approx(std::log(4.0) / 0.30).epsilon(0.10));
    CHECK(course.rate_per_day().value == Approx(0.30).epsilon(0.10));
    const CourseLeft fresh = course.left(0, 0.0, 0.0);
    CHECK(fresh.share.value == Approx(1.0).margin(0.01));
}

TEST_CASE("a slow bin and a fast bin are told apart, and more looks narrow the interval") {
    std::vector<CourseFeeding> feedings;
    std::vector<CourseLook> slow;
    std::vector<CourseLook> fast;
    for (std::size_t i = 0; i < 8; ++i) {
        feedings.push_back({soft_food, 0.0});
        slow.push_back(seen(i, 6.0, 0.8));
        fast.push_back(seen(i, 6.0, 0.2));
    }
    const OwnCourse slow_bin(feedings, slow);
    const OwnCourse fast_bin(feedings, fast);
    CHECK(slow_bin.rate_per_day().high < fast_bin.rate_per_day().low);
    CHECK(slow_bin.rate_per_day().value < 0.2);
    CHECK(fast_bin.rate_per_day().value > 0.3);
    const OwnCourse one(feedings, {slow[0]});
    const auto width = [](const CourseLeft& left) { return left.share.high - left.share.low; };
    CHECK(width(slow_bin.left(7, 4.0, 2.8)) < width(one.left(7, 4.0, 2.8)));
    CHECK(slow_bin.effective_points() > 100.0);
}

TEST_CASE("what is left never grows with the days, and the interval holds the middle") {
    const OwnCourse course({{soft_food, 0.0}, {soft_food, 0.0}},
                           {seen(0, 4.0, 0.6), seen(0, 8.0, 0.3)});
    double before = 1.1;
    for (double day = 1.0; day < 30.0; day += 1.0) {
        const CourseLeft left = course.left(1, day, 0.7 * day);
        CHECK(left.share.low <= left.share.value);
        CHECK(left.share.value <= left.share.high);
        CHECK(left.share.value <= before);
        before = left.share.value;
    }
}

TEST_CASE("the same looks give the same bits") {
    const std::vector<CourseFeeding> feedings{{soft_food, 0.0}};
    const std::vector<CourseLook> looks{seen(0, 5.0, 0.5)};
    const OwnCourse first(feedings, looks);
    const OwnCourse second(feedings, looks);
    CHECK(first.left(0, 7.0, 5.0).share.value == second.left(0, 7.0, 5.0).share.value);
    CHECK(first.rate_per_day().high == second.rate_per_day().high);
}
