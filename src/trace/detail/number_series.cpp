#include "trace/detail/number_series.h"

#include <algorithm>
#include <cmath>

namespace otherskein::trace::detail {

namespace {

constexpr double kOff = 0.2;      // of a cell, that a number may stand beside its place
constexpr double kOffPx = 4;      // and px, since words of more digits have other middles
constexpr double kLeastPitch = 4; // px
constexpr int kNext = 4;          // numbers after one, of which one goes on its series

/// A number: where it stands along, and from where to where the other way.
struct Number {
    double at = 0;
    double from = 0;
    double to = 0;
    int number = 0;
    QRectF box;
};

std::vector<Number> numbersOf(const std::vector<Word>& words, bool alongX) {
    std::vector<Number> result;
    for (const Word& word : words) {
        bool isNumber = false;
        const int number = word.text.toInt(&isNumber);
        if (isNumber && number >= 0 && word.text[0].isDigit()) {
            const QRectF& box = word.box;
            result.push_back(alongX
                                 ? Number{box.center().x(), box.top(), box.bottom(), number, box}
                                 : Number{box.center().y(), box.left(), box.right(), number, box});
        }
    }
    std::ranges::stable_sort(result, {}, &Number::at);
    return result;
}

/// Whether they stand in one row: the smaller lies within the other.
bool areInRow(const Number& one, const Number& other) {
    constexpr double kMost = 0.7; // of the smaller
    const double shared = std::min(one.to, other.to) - std::max(one.from, other.from);
    return shared >= kMost * std::min(one.to - one.from, other.to - other.from);
}

/// Numbers before a 0 in their row become negative.
void signNumbers(std::vector<Number>& all) {
    std::vector<std::size_t> before;
    for (const Number& zero : all) {
        for (std::size_t i = 0; zero.number == 0 && i < all.size(); ++i) {
            if (all[i].at < zero.at && areInRow(all[i], zero)) {
                before.push_back(i);
            }
        }
    }
    for (const std::size_t i : before) {
        all[i].number = -std::abs(all[i].number);
    }
}

/// Those in a row with these two that stand where these foretell, in order.
std::vector<std::size_t> agreeing(const std::vector<Number>& all, const std::vector<char>& used,
                                  std::size_t i, std::size_t j) {
    const double pitch = (all[j].at - all[i].at) / (all[j].number - all[i].number);
    const double most = std::min(kOff * pitch, kOffPx);
    std::vector<std::size_t> result;
    for (std::size_t k = 0; k < all.size(); ++k) {
        const double off = all[k].at - all[i].at - pitch * (all[k].number - all[i].number);
        if (used[k] == 0 && areInRow(all[i], all[k]) && std::abs(off) < most &&
            (result.empty() || all[result.back()].number < all[k].number)) {
            result.push_back(k);
        }
    }
    return result;
}

NumberSeries seriesOf(const std::vector<Number>& all, const std::vector<std::size_t>& members) {
    NumberSeries series;
    const auto count = static_cast<double>(members.size());
    double x = 0;
    double y = 0;
    for (const std::size_t k : members) {
        x += all[k].number / count;
        y += all[k].at / count;
        series.across += (all[k].from + all[k].to) / 2 / count;
        series.boxes.push_back(all[k].box);
    }
    double xx = 0;
    double xy = 0;
    for (const std::size_t k : members) {
        xx += (all[k].number - x) * (all[k].number - x);
        xy += (all[k].number - x) * (all[k].at - y);
    }
    series.pitch = xy / xx;
    series.origin = y - series.pitch * x;
    series.first = all[members.front()].number;
    series.last = all[members.back()].number;
    return series;
}

} // namespace

cv::Rect2d inCells(const Lattice& lattice, const QRectF& box) {
    const cv::Matx33d toCells = lattice.toPage.inv();
    const cv::Vec3d from = toCells * cv::Vec3d(box.left(), box.top(), 1);
    const cv::Vec3d to = toCells * cv::Vec3d(box.right(), box.bottom(), 1);
    return {cv::Point2d(from[0] / from[2], from[1] / from[2]),
            cv::Point2d(to[0] / to[2], to[1] / to[2])};
}

std::vector<NumberSeries> numberSeriesOf(const std::vector<Word>& words, bool alongX,
                                         std::size_t fewest) {
    std::vector<Number> all = numbersOf(words, alongX);
    signNumbers(all);
    std::vector<char> used(all.size(), 0);
    std::vector<NumberSeries> result;
    while (true) {
        std::vector<std::size_t> best;
        for (std::size_t i = 0; i < all.size(); ++i) {
            int next = 0;
            for (std::size_t j = i + 1; used[i] == 0 && j < all.size() && next < kNext; ++j) {
                if (used[j] != 0 || all[j].number <= all[i].number || !areInRow(all[i], all[j]) ||
                    all[j].at - all[i].at < kLeastPitch * (all[j].number - all[i].number)) {
                    continue;
                }
                auto members = agreeing(all, used, i, j);
                if (members.size() > best.size()) {
                    best = std::move(members);
                }
                ++next;
            }
        }
        if (best.size() < fewest) {
            return result;
        }
        for (const std::size_t k : best) {
            used[k] = 1;
        }
        result.push_back(seriesOf(all, best));
    }
}

} // namespace otherskein::trace::detail
