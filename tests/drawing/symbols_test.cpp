#include <catch2/catch.hpp>

#include "colour/contrast.h"
#include "drawing/samples.h"
#include "drawing/symbols.h"

#include <QRegularExpression>
#include <QSet>

#include <array>

using namespace otherskein;
using namespace otherskein::drawing;

namespace {

constexpr int kFrame = 16; // a cell of 12 px with room to be shifted
using Ink = std::array<double, kFrame * kFrame>;

double at(const Ink& ink, int x, int y) {
    return x < 0 || y < 0 || x >= kFrame || y >= kFrame
               ? 0
               : ink[static_cast<std::size_t>(y * kFrame + x)];
}

/// The symbol as it lands on a 12 px cell, a little blurred as a printer or an eye does.
Ink inkOf(int symbol) {
    QImage image(kFrame, kFrame, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    paintSymbol(painter, symbol, QRectF(2, 2, 12, 12), Qt::black);
    painter.end();
    Ink sharp{};
    for (int i = 0; i < kFrame * kFrame; ++i) {
        sharp[static_cast<std::size_t>(i)] = 1 - qGray(image.pixel(i % kFrame, i / kFrame)) / 255.0;
    }
    Ink ink{};
    const std::array<double, 3> kernel{1.0 / 6, 4.0 / 6, 1.0 / 6};
    for (int i = 0; i < kFrame * kFrame; ++i) {
        for (int dy = 0; dy < 3; ++dy) {
            for (int dx = 0; dx < 3; ++dx) {
                ink[static_cast<std::size_t>(i)] +=
                    kernel[static_cast<std::size_t>(dx)] * kernel[static_cast<std::size_t>(dy)] *
                    at(sharp, i % kFrame + dx - 1, i / kFrame + dy - 1);
            }
        }
    }
    return ink;
}

double sum(const Ink& ink) {
    double total = 0;
    for (const double one : ink) {
        total += one;
    }
    return total;
}

/// The ink in which two symbols differ, as a share of what they hold, wherever one is pushed to.
double distance(const Ink& one, const Ink& other) {
    double least = 1e9;
    for (int dy = -1; dy <= 1; ++dy) {
        for (int dx = -1; dx <= 1; ++dx) {
            double differing = 0;
            for (int y = 0; y < kFrame; ++y) {
                for (int x = 0; x < kFrame; ++x) {
                    differing += std::abs(at(one, x, y) - at(other, x + dx, y + dy));
                }
            }
            least = std::min(least, differing);
        }
    }
    return least / std::sqrt(sum(one) * sum(other));
}

chart::Key keyOf(const QStringList& symbols) {
    chart::Key key(static_cast<std::size_t>(symbols.size()));
    for (std::size_t i = 0; i < key.size(); ++i) {
        key[i].symbol = symbols[static_cast<qsizetype>(i)];
    }
    return key;
}

} // namespace

TEST_CASE("symbols stay apart from each other at 12 px") {
    // Chosen by looking: at 0.15 (a disc and a plump diamond) the eye had to search for the
    // difference, at 0.176 (a wheel and a dotted ring) it had not.
    constexpr double kFloor = 0.17;
    std::vector<Ink> inks;
    for (int i = 0; i < symbolCount(); ++i) {
        inks.push_back(inkOf(i));
    }
    for (int i = 0; i < symbolCount(); ++i) {
        for (int j = 0; j < i; ++j) {
            const double apart =
                distance(inks[static_cast<std::size_t>(i)], inks[static_cast<std::size_t>(j)]);
            CAPTURE(symbolName(i).toStdString(), symbolName(j).toStdString());
            CHECK(apart > kFloor);
        }
    }
}

TEST_CASE("symbols weigh enough to be seen, not so much as to fill the cell, and sit in it") {
    for (int i = 0; i < symbolCount(); ++i) {
        const Ink ink = inkOf(i);
        double x = 0;
        double y = 0;
        for (int p = 0; p < kFrame * kFrame; ++p) {
            x += ink[static_cast<std::size_t>(p)] * (p % kFrame + 0.5 - kFrame / 2.0);
            y += ink[static_cast<std::size_t>(p)] * (p / kFrame + 0.5 - kFrame / 2.0);
        }
        CAPTURE(symbolName(i).toStdString(), sum(ink), x / sum(ink), y / sum(ink));
        CHECK(sum(ink) > 0.08 * 144);
        CHECK(sum(ink) < 0.65 * 144);
        CHECK(std::abs(x / sum(ink)) < 1.5);
        CHECK(std::abs(y / sum(ink)) < 1.5);
    }
}

TEST_CASE("there are enough symbols, named in plain words that lead back to them") {
    CHECK(symbolCount() >= 72);
    const QRegularExpression plain(QStringLiteral("^[a-z]+([ -][a-z]+)*$"));
    for (int i = 0; i < symbolCount(); ++i) {
        CAPTURE(symbolName(i).toStdString());
        CHECK(plain.match(symbolName(i)).hasMatch());
        CHECK(symbolNamed(symbolName(i)) == i);
    }
    CHECK_FALSE(symbolNamed(QStringLiteral("nothing of ours")).has_value());
}

TEST_CASE("a row keeps the symbol it names and the letters it holds") {
    const auto marks = marksOf(keyOf({QStringLiteral("heart"), QStringLiteral("Q"),
                                      QStringLiteral("ABCDE"), QStringLiteral("*7*")}));
    CHECK(marks[0].symbol == symbolNamed(QStringLiteral("heart")));
    CHECK(marks[1] == Mark{std::nullopt, QStringLiteral("Q")});
    CHECK(marks[2].letters == QStringLiteral("ABC"));
    CHECK(marks[3].letters == QStringLiteral("7"));
}

TEST_CASE("no two rows get the same drawn symbol or the same letters, however many there are") {
    QStringList symbols{QStringLiteral("disc"),
                        QStringLiteral("disc"),
                        QStringLiteral("aa"),
                        QStringLiteral("aa"),
                        QString(),
                        QStringLiteral("heart")};
    while (symbols.size() < static_cast<qsizetype>(chart::kMostKeyRows)) {
        symbols << QString();
    }
    QSet<int> drawn;
    QSet<QString> written;
    for (const Mark& mark : marksOf(keyOf(symbols))) {
        if (mark.symbol) {
            CHECK_FALSE(drawn.contains(*mark.symbol));
            drawn.insert(*mark.symbol);
        } else {
            CHECK_FALSE(mark.letters.isEmpty());
            CHECK_FALSE(written.contains(mark.letters));
            written.insert(mark.letters);
        }
    }
    CHECK(drawn.size() == symbolCount());
}

TEST_CASE("ink is the one of black and near-white that stands off more") {
    CHECK(inkOn(qRgb(255, 255, 255)) == QColor(0, 0, 0));
    CHECK(inkOn(qRgb(20, 22, 40)).lightness() > 240);
    for (int grey = 0; grey < 256; grey += 5) {
        const auto step = static_cast<std::uint8_t>(grey);
        const QColor ink = inkOn(qRgb(grey, grey, grey));
        const auto level = static_cast<std::uint8_t>(ink.red());
        CAPTURE(grey);
        CHECK(colour::contrastRatio(colour::Srgb8{step, step, step},
                                    colour::Srgb8{level, level, level}) >= 4.4);
    }
}

TEST_CASE("letters are shrunk into their cell") {
    QImage image(60, 60, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    paintMark(painter, {std::nullopt, QStringLiteral("WMW")}, QRectF(20, 20, 20, 20), Qt::black);
    painter.end();
    int inside = 0;
    int outside = 0;
    for (int y = 0; y < 60; ++y) {
        for (int x = 0; x < 60; ++x) {
            const bool inked = qGray(image.pixel(x, y)) < 200;
            (QRect(20, 20, 20, 20).contains(x, y) ? inside : outside) += inked ? 1 : 0;
        }
    }
    CHECK(inside > 20);
    CHECK(outside == 0);
}
