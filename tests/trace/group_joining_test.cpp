#include "trace/detail/group_joining.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
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

std::vector<Group> joinedOf(Drift drift, bool mayMove = false) {
    int byPhase = 0;
    return joinedGroups(drift.groups, drift.pictures.rows, drift.pictures, {}, byPhase, mayMove);
}

} // namespace

TEST_CASE("groups of a symbol that changes little by little over the page are one") {
    const Drift drift = growing(0);
    const std::vector<Group> joined = joinedOf(drift);
    CHECK(joined.size() == 2);
    for (const Group& one : joined) {
        CHECK(one.members.size() == kDriftColumns * kDriftRows / 2);
    }
}

TEST_CASE("groups that differ where they meet are two symbols") {
    const Drift step = growing(1);
    CHECK(joinedOf(step).size() == 4);
}

namespace {

/// Rings with sharp edges in two groups, far apart on the page: the second are sharper still and
/// moved, more than noise explains; with a dot of so many grey levels in them.
Drift sharpRings(double dot) {
    std::mt19937 random(7);
    std::normal_distribution<double> noise(0, 2);
    Drift drift;
    drift.pictures.side = kDriftSide;
    drift.groups.resize(2);
    for (int i = 0; i < 24; ++i) {
        const bool isSecond = i % 2 != 0;
        const double middle = isSecond ? 11.6 : 10.5;
        cv::Mat cell =
            cv::Mat::zeros(1, kDriftSide * kDriftSide + 2 * kPictureTints * kPictureTints, CV_32F);
        for (int y = 0; y < kDriftSide; ++y) {
            for (int x = 0; x < kDriftSide; ++x) {
                const double far = std::hypot(x - middle, y - 10.5);
                const double edge = isSecond ? 0.3 : 0.4;
                const double ring = 1 / (1 + std::exp((std::abs(far - 6) - 1.5) / edge));
                cell.at<float>(y * kDriftSide + x) = static_cast<float>(
                    -200 * ring - (isSecond && far < 1.6 ? dot : 0) + noise(random));
            }
        }
        drift.groups[isSecond ? 1 : 0].members.push_back(i);
        drift.pictures.rows.push_back(cell);
        drift.pictures.phases.emplace_back(0.0F, 0.0F);
        drift.pictures.places.emplace_back(isSecond ? 50.0F : 0.0F, static_cast<float>(i));
    }
    for (Group& one : drift.groups) {
        settle(one, drift.pictures.rows);
    }
    return drift;
}

} // namespace

TEST_CASE("groups of sharp signs that no mark parts are one, those with a dot are not") {
    CHECK(joinedOf(sharpRings(0)).size() == 1);
    CHECK(joinedOf(sharpRings(40)).size() == 2);
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
    CHECK(joinedOf(drift).size() == 2);
}

namespace {

constexpr PrintNoise kDrawnNoise{0.3, 0.7, 0.7, 0.3, 0.02, 0.12, true};

/// Frames of two sizes, their sides drawn to whole pixels: uprights 2 px wide and a pixel more in
/// every other column or, if `byColumn` is not set, wherever chance has it.
Drift frames(bool byColumn, int kinds) {
    std::mt19937 random(3);
    std::normal_distribution<double> noise(0, 0.4);
    Drift drift;
    drift.pictures.side = kDriftSide;
    drift.groups.resize(static_cast<std::size_t>(2 * kinds));
    for (int row = 0; row < kDriftRows; ++row) {
        for (int column = 0; column < kDriftColumns; ++column) {
            const int kind = static_cast<int>(random() % static_cast<unsigned>(kinds));
            const bool isWide = byColumn ? column % 2 == 1 : random() % 2 == 1;
            const int right = 15 + 3 * kind;
            const int upright = isWide ? 3 : 2;
            cv::Mat cell = cv::Mat::zeros(
                1, kDriftSide * kDriftSide + 2 * kPictureTints * kPictureTints, CV_32F);
            for (int y = 0; y < kDriftSide; ++y) {
                for (int x = 0; x < kDriftSide; ++x) {
                    const bool isIn = x >= 4 && x < right && y >= 4 && y < 18;
                    const bool isHole = x >= 4 + upright && x < right - upright && y >= 6 && y < 16;
                    cell.at<float>(y * kDriftSide + x) =
                        static_cast<float>((isIn && !isHole ? -230 : 0) + noise(random));
                }
            }
            drift.groups[static_cast<std::size_t>(2 * kind + (isWide ? 1 : 0))].members.push_back(
                drift.pictures.rows.rows);
            drift.pictures.rows.push_back(cell);
            drift.pictures.phases.emplace_back(column % 2 == 0 ? 0.2F : 0.7F, 0.4F);
            drift.pictures.finePhases.push_back(drift.pictures.phases.back());
            drift.pictures.places.emplace_back(static_cast<float>(column), static_cast<float>(row));
        }
    }
    for (Group& one : drift.groups) {
        settle(one, drift.pictures.rows);
    }
    return drift;
}

} // namespace

TEST_CASE("a symbol that the page's pixels make two pictures of is one") {
    Drift drift = frames(true, 2);
    int byPhase = 0;
    CHECK(
        joinedGroups(drift.groups, drift.pictures.rows, drift.pictures, kDrawnNoise, byPhase, false)
            .size() == 2);
    CHECK(byPhase == 2);
}

TEST_CASE("pictures that differ by a pixel where cells lie alike on the pixels are two symbols") {
    Drift drift = frames(false, 1);
    int byPhase = 0;
    CHECK(
        joinedGroups(drift.groups, drift.pictures.rows, drift.pictures, kDrawnNoise, byPhase, false)
            .size() == 2);
    CHECK(byPhase == 0);
}

namespace {

/// A sharp dark shape; `outside`: how far a place is out of it, px.
cv::Mat sharpShape(const std::function<double(int x, int y)>& outside, std::mt19937& random) {
    std::normal_distribution<double> noise(0, 3);
    cv::Mat cell =
        cv::Mat::zeros(1, kDriftSide * kDriftSide + 2 * kPictureTints * kPictureTints, CV_32F);
    for (int y = 0; y < kDriftSide; ++y) {
        for (int x = 0; x < kDriftSide; ++x) {
            cell.at<float>(y * kDriftSide + x) =
                static_cast<float>(-200 / (1 + std::exp(2.5 * outside(x, y))) + noise(random));
        }
    }
    return cell;
}

/// A triangle, its point up or down, this far from the cell's middle.
cv::Mat triangleAt(double dx, double dy, bool isUp, std::mt19937& random) {
    const auto outside = [=](int x, int y) {
        const double down = (y - 10.5 - dy) * (isUp ? 1 : -1);
        return std::max({std::abs(x - 10.5 - dx) - (down + 5) * 0.6, down - 5, -5 - down});
    };
    return sharpShape(outside, random);
}

/// An upright that goes on beyond the cell, maybe with a bar over it.
cv::Mat uprightAt(double dx, double dy, bool hasBar, std::mt19937& random) {
    const auto outside = [=](int x, int y) {
        const double top = dy + 4;
        const double stem = std::max(std::abs(x - 10.5 - dx) - 1.5, top - y);
        const double bar = std::max(std::abs(x - 10.5 - dx) - 7, std::abs(y - top) - 1.5);
        return hasBar ? std::min(stem, bar) : stem;
    };
    return sharpShape(outside, random);
}

/// Two groups of cells, 12 each, far from each other on the page.
Drift twoGroups(const std::function<cv::Mat(bool isSecond)>& cell) {
    Drift drift;
    drift.pictures.side = kDriftSide;
    drift.groups.resize(2);
    for (int i = 0; i < 24; ++i) {
        const bool isSecond = i % 2 != 0;
        drift.groups[isSecond ? 1 : 0].members.push_back(i);
        drift.pictures.rows.push_back(cell(isSecond));
        drift.pictures.phases.emplace_back(0.0F, 0.0F);
        drift.pictures.places.emplace_back(isSecond ? 50.0F : 0.0F, static_cast<float>(i));
    }
    for (Group& one : drift.groups) {
        settle(one, drift.pictures.rows);
    }
    return drift;
}

/// Of triangles, the second moved and maybe turned over.
Drift triangles(double dx, double dy, bool isTurned) {
    std::mt19937 random(3);
    return twoGroups([&](bool isSecond) {
        return triangleAt(isSecond ? dx : 0, isSecond ? dy : 0, !(isSecond && isTurned), random);
    });
}

/// Of uprights with a bar, the second moved and maybe without.
Drift uprights(double dy, bool isBare) {
    std::mt19937 random(4);
    return twoGroups([&](bool isSecond) {
        return uprightAt(isSecond ? 1.1 : 0, isSecond ? dy : 0, !(isSecond && isBare), random);
    });
}

/// Of blocks low in their cells, the second moved.
Drift blocks(double dy) {
    std::mt19937 random(6);
    return twoGroups([&](bool isSecond) {
        std::normal_distribution<double> noise(0, 3);
        cv::Mat cell =
            cv::Mat::zeros(1, kDriftSide * kDriftSide + 2 * kPictureTints * kPictureTints, CV_32F);
        for (int y = 0; y < kDriftSide; ++y) {
            for (int x = 0; x < kDriftSide; ++x) {
                const double outside =
                    std::max(std::abs(x - 10.5) - 5, std::abs(y - 16 - (isSecond ? dy : 0)) - 4);
                cell.at<float>(y * kDriftSide + x) =
                    static_cast<float>(-200 / (1 + std::exp(2.5 * outside)) + noise(random));
            }
        }
        return cell;
    });
}

} // namespace

TEST_CASE("a symbol that lies elsewhere in its cells is the same, another is not") {
    CHECK(joinedOf(triangles(2.4, -1.3, false), false).size() == 2);
    CHECK(joinedOf(triangles(2.4, -1.3, false), true).size() == 1);
    CHECK(joinedOf(triangles(2.4, -1.3, true), true).size() == 2);
    // No paper curls that far.
    CHECK(joinedOf(triangles(5, 5, false), true).size() == 2);
}

TEST_CASE("what a picture does not show of a moved symbol tells nothing, what it shows does") {
    CHECK(joinedOf(blocks(3), true).size() == 1); // whose foot is beyond the picture
    CHECK(joinedOf(uprights(2.5, false), true).size() == 1);
    CHECK(joinedOf(uprights(-3, true), true).size() == 2);
    CHECK(joinedOf(uprights(-6, true), true).size() == 2);
}
