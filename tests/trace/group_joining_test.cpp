#include "trace/detail/group_joining.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace otherskein::trace::detail;

namespace {

constexpr int kSide = 22;
constexpr int kColumns = 60;
constexpr int kRows = 8;

/// A ring or, where `isFilled`, a disc of this radius, with noise of 4 grey levels.
cv::Mat pictureOf(double radius, bool isFilled, std::mt19937& random) {
    std::normal_distribution<double> noise(0, 4);
    cv::Mat row = cv::Mat::zeros(1, kSide * kSide + 2 * kPictureTints * kPictureTints, CV_32F);
    for (int y = 0; y < kSide; ++y) {
        for (int x = 0; x < kSide; ++x) {
            const double far = std::hypot(x - 10.5, y - 10.5) - radius;
            const double beside = isFilled ? std::max(0.0, far) : far;
            row.at<float>(y * kSide + x) =
                static_cast<float>(-180 * std::exp(-beside * beside / 2) + noise(random));
        }
    }
    return row;
}

struct Case {
    Pictures pictures;
    std::vector<Group> groups;
};

/// Two symbols in turn that grow from column to column; each in three groups, a third of the page
/// each. `leap`: by how much they grow at once where the second third begins.
Case growing(double leap) {
    std::mt19937 random(5);
    Case result;
    result.pictures.side = kSide;
    result.groups.resize(6);
    for (int row = 0; row < kRows; ++row) {
        for (int column = 0; column < kColumns; ++column) {
            const bool isFilled = (column + row) % 2 == 0;
            const double radius = 5 + column * 0.016 + (column >= kColumns / 3 ? leap : 0);
            result.groups[static_cast<std::size_t>(3 * column / kColumns + (isFilled ? 3 : 0))]
                .members.push_back(result.pictures.rows.rows);
            result.pictures.rows.push_back(pictureOf(radius, isFilled, random));
            result.pictures.phases.emplace_back(0.0F, 0.0F);
            result.pictures.places.emplace_back(static_cast<float>(column),
                                                static_cast<float>(row));
        }
    }
    for (Group& one : result.groups) {
        settle(one, result.pictures.rows);
    }
    return result;
}

} // namespace

TEST_CASE("groups of a symbol that changes little by little over the page are one") {
    const Case drift = growing(0);
    const std::vector<Group> joined =
        joinedGroups(drift.groups, drift.pictures.rows, drift.pictures, {});
    CHECK(joined.size() == 2);
    for (const Group& one : joined) {
        CHECK(one.members.size() == kColumns * kRows / 2);
    }
}

TEST_CASE("groups that differ where they meet are two symbols") {
    const Case step = growing(1);
    CHECK(joinedGroups(step.groups, step.pictures.rows, step.pictures, {}).size() == 4);
}
