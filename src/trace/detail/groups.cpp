#include "trace/detail/groups.h"

#include "trace/detail/cell_light.h"
#include "trace/detail/group_joining.h"
#include "trace/detail/group_sureness.h"
#include "trace/detail/hidden_cells.h"
#include "trace/detail/placing.h"
#include "trace/detail/print_noise.h"
#include "trace/detail/rounded_symbols.h"

#include <algorithm>
#include <random>

namespace otherskein::trace::detail {

namespace {

constexpr int kComponents = 48;
constexpr int kSample = 2400;    // looks that the components are found from
constexpr float kLeastNoise = 4; // grey levels; below, printing is as good as exact
constexpr std::size_t kMostAtoms = 260;
// Px of a picture's side: less shows too little of a symbol to follow it.
constexpr int kLeastMoved = 16;
constexpr int kInPlace = 3; // rounds of joining what lies alike in its cells
constexpr int kRounds = 3;  // groups that phase parted, of a page that is drawn at whole pixels
constexpr float kAtomReach = 11; // in noise; beyond it a look starts an atom of its own

/// Rows in blocks, at the same time where there are cores for it.
template <typename Each>
void inBlocks(int rows, const Each& each) {
    constexpr int kBlock = 1024;
    cv::parallel_for_({0, (rows + kBlock - 1) / kBlock}, [&](const cv::Range& range) {
        for (int block = range.start; block < range.end; ++block) {
            each(block * kBlock, std::min(rows, (block + 1) * kBlock));
        }
    });
}

std::vector<int> shuffled(const std::vector<int>& all, std::size_t most) {
    std::vector<int> result = all;
    std::mt19937 random(17);
    std::ranges::shuffle(result, random);
    result.resize(std::min(result.size(), most));
    return result;
}

cv::Mat rowsOf(const cv::Mat& from, const std::vector<int>& rows) {
    cv::Mat result(static_cast<int>(rows.size()), from.cols, CV_32F);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        from.row(rows[i]).copyTo(result.row(static_cast<int>(i)));
    }
    return result;
}

/// What printing and scanning do to cells that are the same, by component: from each look to the
/// one most like it.
cv::Mat noiseOf(const cv::Mat& parts) {
    const int asked = std::min(500, parts.rows);
    std::vector<std::vector<float>> squares(static_cast<std::size_t>(parts.cols));
    const cv::Mat products = parts.rowRange(0, asked) * parts.t();
    cv::Mat lengths;
    cv::reduce(parts.mul(parts), lengths, 1, cv::REDUCE_SUM);
    for (int i = 0; i < asked; ++i) {
        int nearest = -1;
        float least = 0;
        for (int k = 0; k < parts.rows; ++k) {
            const float distance = lengths.at<float>(k) - 2 * products.at<float>(i, k);
            if (k != i && (nearest < 0 || distance < least)) {
                least = distance;
                nearest = k;
            }
        }
        if (nearest < 0) {
            continue;
        }
        for (int c = 0; c < parts.cols; ++c) {
            const float step = parts.at<float>(i, c) - parts.at<float>(nearest, c);
            squares[static_cast<std::size_t>(c)].push_back(step * step / 2);
        }
    }
    cv::Mat noise(1, parts.cols, CV_32F, cv::Scalar(kLeastNoise));
    for (int c = 0; c < parts.cols; ++c) {
        auto& all = squares[static_cast<std::size_t>(c)];
        if (all.empty()) {
            continue;
        }
        // The quarter above the middle: nearest ones are nearer than chance would have it.
        const auto high = all.begin() + static_cast<std::ptrdiff_t>(all.size() * 3 / 4);
        std::ranges::nth_element(all, high);
        noise.at<float>(c) = std::max(kLeastNoise, std::sqrt(*high));
    }
    return noise;
}

/// The half of the looks that are least like the usual one. Bare cells, often most of a chart, say
/// nothing of how a symbol's edges vary.
std::vector<int> unusual(const cv::Mat& parts) {
    cv::Mat middle(1, parts.cols, CV_32F);
    for (int c = 0; c < parts.cols; ++c) {
        std::vector<float> column;
        for (int i = 0; i < parts.rows; ++i) {
            column.push_back(parts.at<float>(i, c));
        }
        const auto half = column.begin() + static_cast<std::ptrdiff_t>(column.size() / 2);
        std::ranges::nth_element(column, half);
        middle.at<float>(c) = *half;
    }
    std::vector<std::pair<double, int>> far;
    for (int i = 0; i < parts.rows; ++i) {
        far.emplace_back(-cv::norm(parts.row(i), middle, cv::NORM_L2SQR), i);
    }
    std::ranges::sort(far);
    // Where most cells are bare, those that are not are fewer than half.
    const double limit = far[far.size() / 50].first * 0.04;
    std::vector<int> rows;
    for (std::size_t i = 0; i < far.size() && (rows.size() < 30 || far[i].first < limit); ++i) {
        rows.push_back(far[i].second);
    }
    return rows;
}

/// What half a pixel of misplacement does to these looks: its covariance, by component.
cv::Mat shiftNoise(const cv::Mat& looks, const cv::PCA& axes, int cell) {
    constexpr double kShift = 0.42; // px of the straightened grid
    const auto step = static_cast<float>(kShift * kLookSide / ((1 - 2 * kLookInset) * cell));
    cv::Mat squares = cv::Mat::zeros(axes.eigenvectors.rows, axes.eigenvectors.rows, CV_32F);
    for (int i = 0; i < looks.rows; ++i) {
        const cv::Mat light(kLookSide, kLookSide, CV_32F, const_cast<float*>(looks.ptr<float>(i)));
        for (const auto& [dx, dy] : {std::pair{1, 0}, {0, 1}}) {
            cv::Mat change = cv::Mat::zeros(1, looks.cols, CV_32F);
            for (int y = 0; y < kLookSide; ++y) {
                for (int x = 0; x < kLookSide; ++x) {
                    const auto at = [&](int sign) {
                        return light.at<float>(std::clamp(y + sign * dy, 0, kLookSide - 1),
                                               std::clamp(x + sign * dx, 0, kLookSide - 1));
                    };
                    change.at<float>(y * kLookSide + x) = (at(1) - at(-1)) / 2 * step;
                }
            }
            const cv::Mat along = change * axes.eigenvectors.t();
            squares += along.t() * along / static_cast<double>(looks.rows);
        }
    }
    return squares;
}

struct Space {
    cv::PCA axes;
    cv::Mat whitener; ///< components to units of noise

    [[nodiscard]] cv::Mat placed(const cv::Mat& looks) const {
        const cv::Mat directions = axes.eigenvectors.t() * whitener;
        const cv::Mat middle = axes.mean * directions;
        cv::Mat places(looks.rows, directions.cols, CV_32F);
        inBlocks(looks.rows, [&](int from, int to) {
            cv::Mat part = looks.rowRange(from, to) * directions;
            for (int i = 0; i < part.rows; ++i) {
                part.row(i) -= middle;
            }
            part.copyTo(places.rowRange(from, to));
        });
        return places;
    }
};

Space spaceOf(const cv::Mat& looks, const std::vector<int>& members, int cell) {
    const cv::Mat sample = rowsOf(looks, shuffled(members, kSample));
    Space space;
    space.axes = cv::PCA(sample, cv::Mat(), cv::PCA::DATA_AS_ROW,
                         std::min({kComponents, sample.rows, sample.cols}));
    const cv::Mat parts = space.axes.project(sample);
    const std::vector<int> telling = unusual(parts);
    const cv::Mat noise = noiseOf(rowsOf(parts, telling));
    const cv::Mat shift = shiftNoise(rowsOf(sample, telling), space.axes, cell);
    const cv::Mat covariance = shift + cv::Mat::diag(cv::Mat(noise.mul(noise)).t());
    cv::Mat variances;
    cv::Mat directions; // rows
    cv::eigen(covariance, variances, directions);
    cv::Mat scales;
    cv::sqrt(cv::max(variances, 1.0), scales);
    space.whitener = directions.t() * cv::Mat::diag(1.0 / scales);
    return space;
}

/// Starts of atoms: each the look farthest from all so far (Gonzalez 1985), until none is far.
cv::Mat farthestFirst(const cv::Mat& places) {
    std::vector<int> chosen{0};
    std::vector<float> nearest(static_cast<std::size_t>(places.rows), 1e30F);
    while (chosen.size() < kMostAtoms) {
        const float* last = places.ptr<float>(chosen.back());
        inBlocks(places.rows, [&](int from, int to) {
            for (int i = from; i < to; ++i) {
                const float* one = places.ptr<float>(i);
                float sum = 0;
                for (int k = 0; k < places.cols; ++k) {
                    sum += (one[k] - last[k]) * (one[k] - last[k]);
                }
                float& known = nearest[static_cast<std::size_t>(i)];
                known = std::min(known, sum);
            }
        });
        const auto farthest = static_cast<int>(std::ranges::max_element(nearest) - nearest.begin());
        if (nearest[static_cast<std::size_t>(farthest)] < kAtomReach * kAtomReach) {
            break;
        }
        chosen.push_back(farthest);
    }
    return rowsOf(places, chosen);
}

std::vector<int> nearestOf(const cv::Mat& places, const cv::Mat& centres) {
    cv::Mat lengths;
    cv::reduce(centres.mul(centres), lengths, 1, cv::REDUCE_SUM);
    std::vector<int> result(static_cast<std::size_t>(places.rows));
    inBlocks(places.rows, [&](int from, int to) {
        const cv::Mat products = places.rowRange(from, to) * centres.t();
        for (int i = from; i < to; ++i) {
            const float* row = products.ptr<float>(i - from);
            int best = 0;
            for (int k = 1; k < centres.rows; ++k) {
                if (lengths.at<float>(k) - 2 * row[k] < lengths.at<float>(best) - 2 * row[best]) {
                    best = k;
                }
            }
            result[static_cast<std::size_t>(i)] = best;
        }
    });
    return result;
}

std::vector<Group> atomsOf(const cv::Mat& places) {
    cv::Mat centres = farthestFirst(places);
    std::vector<int> of;
    for (int round = 0; round < 3; ++round) {
        of = nearestOf(places, centres);
        centres = meansOf(places, of, centres.rows);
    }
    of = nearestOf(places, centres);
    std::vector<Group> atoms(static_cast<std::size_t>(centres.rows));
    for (int i = 0; i < places.rows; ++i) {
        atoms[static_cast<std::size_t>(of[static_cast<std::size_t>(i)])].members.push_back(i);
    }
    std::erase_if(atoms, [](const Group& one) { return one.members.empty(); });
    for (Group& one : atoms) {
        settle(one, places);
    }
    return atoms;
}

} // namespace

Groups groupsOf(const cv::Mat& looks, const Pictures& pictures, int cell,
                const std::vector<char>& masked, const cv::Mat& visible) {
    std::vector<int> members;
    for (int i = 0; i < looks.rows; ++i) {
        if (masked.empty() || masked[static_cast<std::size_t>(i)] == 0) {
            members.push_back(i);
        }
    }
    Groups groups;
    groups.of.assign(static_cast<std::size_t>(looks.rows), 0);
    groups.confidence.assign(static_cast<std::size_t>(looks.rows), 0);
    if (members.size() < 2) {
        groups.count = looks.rows > 0 ? 1 : 0;
        return groups;
    }
    const Space space = spaceOf(looks, members, cell);
    const cv::Mat places = space.placed(rowsOf(looks, members));
    Pictures whole{rowsOf(pictures.rows, members), pictures.side, {}, {}, {}};
    for (const int i : members) {
        whole.phases.push_back(pictures.phases[static_cast<std::size_t>(i)]);
        whole.finePhases.push_back(pictures.finePhases[static_cast<std::size_t>(i)]);
        whole.places.push_back(pictures.places[static_cast<std::size_t>(i)]);
    }
    std::vector<Group> found = atomsOf(places);
    PrintNoise noise = printNoiseOf(found, whole);
    const PrintNoise narrow = noise;
    int byPhase = 0;
    for (int round = 0; round < kInPlace; ++round) {
        found = joinedGroups(std::move(found), places, whole, noise, byPhase, false);
        // Groups of the first round are narrower than symbols: noise is asked anew. But colours
        // that were joined by mistake must not make room for the next.
        noise = printNoiseOf(found, whole);
        noise.isDrawn = narrow.isDrawn;
        noise.ground = std::min(noise.ground, 1.6 * narrow.ground);
        noise.tint = std::min(noise.tint, 1.6 * narrow.tint);
        noise.ink = std::min(noise.ink, 1.6 * narrow.ink);
        noise.tints = std::min(noise.tints, 1.6 * narrow.tints);
    }
    const bool mayMove = !noise.isDrawn && whole.side >= kLeastMoved;
    for (std::size_t before = 0; mayMove && before != found.size();) {
        before = found.size();
        found = joinedGroups(std::move(found), places, whole, noise, byPhase, true);
        const PrintNoise after = printNoiseOf(found, whole);
        noise.step = after.step;
        if (noise.step > PrintNoise{}.step) { // symbols do lie elsewhere
            noise.edge = std::max(noise.edge, after.edge);
            noise.plain = std::max(noise.plain, after.plain);
            noise.tints = std::max(noise.tints, std::min(after.tints, 1.6 * narrow.tints));
            for (const Group& one : found) {
                placeMembers(one, whole, noise);
            }
        }
    }
    std::vector<int> strays;
    if (byPhase >= kRounds) {
        found = joinedUnproven(std::move(found), whole, noise, strays);
    }
    // A few strays prove nothing of symbols that lie elsewhere.
    const bool doMove = mayMove && noise.step > PrintNoise{}.step;
    found = withoutStrays(std::move(found), whole, noise, strays, doMove);
    std::vector<float> sure = surenessOf(found, whole, noise);
    std::vector<char> isStray(members.size(), 0);
    for (const int i : strays) {
        isStray[static_cast<std::size_t>(i)] = 1;
    }
    groups.count = static_cast<int>(found.size());
    for (int g = 0; g < groups.count; ++g) {
        for (const int i : found[static_cast<std::size_t>(g)].members) {
            const auto look = static_cast<std::size_t>(members[static_cast<std::size_t>(i)]);
            groups.of[look] = g;
            groups.confidence[look] =
                std::min(sure[static_cast<std::size_t>(i)],
                         isStray[static_cast<std::size_t>(i)] != 0 ? 0.3F : 1);
        }
    }
    std::vector<int> hidden;
    for (int i = 0; i < looks.rows; ++i) {
        if (!masked.empty() && masked[static_cast<std::size_t>(i)] != 0) {
            hidden.push_back(i);
        }
    }
    const std::vector<Belonging> belongings =
        belongingsOf(rowsOf(pictures.rows, hidden), rowsOf(visible, hidden), found, whole, noise);
    for (std::size_t i = 0; i < hidden.size(); ++i) {
        const auto look = static_cast<std::size_t>(hidden[i]);
        groups.of[look] = belongings[i].group;
        groups.confidence[look] = belongings[i].sure;
        groups.count = std::max(groups.count, belongings[i].group + 1);
    }
    return groups;
}

} // namespace otherskein::trace::detail
