#include "trace/detail/group_joining.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace otherskein::trace::detail;

namespace {

constexpr int kDriftSide = 22;
constexpr int kDriftColumns = 60;
constexpr int kDriftRows = 8;

/// A ring or, where `isFilled`, a disc of this radius, with noise of 4 grey levels.
cv::Mat drawnRound(double radius, bool isFilled, std::mt19937& random) {
    std::normal_distribution<double> noise(0, 4);
    cv::Mat row =
        cv::Mat::zeros(1, kDriftSide * kDriftSide + 2 * kPictureTints * kPictureTints, CV_32F);
    for (int y = 0; y < kDriftSide; ++y) {
        for (int x = 0; x < kDriftSide; ++x) {
            const double far = std::hypot(x - 10.5, y - 10.5) - radius;
            const double beside = isFilled ? std::max(0.0, far) : far;
            row.at<float>(y * kDriftSide + x) =
                static_cast<float>(-180 * std::exp(-beside * beside / 2) + noise(random));
        }
    }
    return row;
}

struct Drift {
    Pictures pictures;
    std::vector<Group> groups;
};

/// Two symbols in turn that grow from column to column; each in three groups, a third of the page
/// each. `leap`: by how much they grow at once where the second third begins.
Drift growing(double leap) {
    std::mt19937 random(5);
    Drift result;
    result.pictures.side = kDriftSide;
    result.groups.resize(6);
    for (int row = 0; row < kDriftRows; ++row) {
        for (int column = 0; column < kDriftColumns; ++column) {
            const bool isFilled = (column + row) % 2 == 0;
            const double radius = 5 + column * 0.016 + (column >= kDriftColumns / 3 ? leap : 0);
            result.groups[static_cast<std::size_t>(3 * column / kDriftColumns + (isFilled ? 3 : 0))]
                .members.push_back(result.pictures.rows.rows);
            result.pictures.rows.push_back(drawnRound(radius, isFilled, random));
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
    const Drift drift = growing(0);
    const std::vector<Group> joined =
        joinedGroups(drift.groups, drift.pictures.rows, drift.pictures, {});
    CHECK(joined.size() == 2);
    for (const Group& one : joined) {
        CHECK(one.members.size() == kDriftColumns * kDriftRows / 2);
    }
}

TEST_CASE("groups that differ where they meet are two symbols") {
    const Drift step = growing(1);
    CHECK(joinedGroups(step.groups, step.pictures.rows, step.pictures, {}).size() == 4);
}

TEST_CASE("two like symbols are two, also where each keeps mostly to phases of its own") {
    std::mt19937 random(9);
    std::normal_distribution<double> noise(0, 3);
    Drift drift;
    drift.pictures.side = kDriftSide;
    drift.groups.resize(2);
    for (int row = 0; row < kDriftRows; ++row) {
        for (int column = 0; column < kDriftColumns; ++column) {
            // In bands, so that a slowly drifting phase says which band it is; some stand
            // elsewhere.
            const bool isStraight = (column / 5 % 2 == 0) != ((column + 3 * row) % 9 == 0);
            cv::Mat cell = cv::Mat::zeros(
                1, kDriftSide * kDriftSide + 2 * kPictureTints * kPictureTints, CV_32F);
            for (int y = 0; y < kDriftSide; ++y) {
                for (int x = 0; x < kDriftSide; ++x) {
                    const double far = isStraight ? std::abs(x - 10.5) + std::abs(y - 10.5) - 7
                                                  : std::hypot(x - 10.5, y - 10.5) - 5.6;
                    cell.at<float>(y * kDriftSide + x) =
                        static_cast<float>(-70 / (1 + std::exp(far)) + noise(random));
                }
            }
            drift.groups[isStraight ? 1 : 0].members.push_back(drift.pictures.rows.rows);
            drift.pictures.rows.push_back(cell);
            drift.pictures.phases.emplace_back(static_cast<float>(column % 10) / 10, 0.0F);
            drift.pictures.places.emplace_back(static_cast<float>(column), static_cast<float>(row));
        }
    }
    for (Group& one : drift.groups) {
        settle(one, drift.pictures.rows);
    }
    CHECK(joinedGroups(drift.groups, drift.pictures.rows, drift.pictures, {}).size() == 2);
}
