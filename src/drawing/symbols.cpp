#include "drawing/symbols.h"

#include "colour/contrast.h"
#include "drawing/detail/shapes.h"
#include "drawing/detail/symbol_set.h"

#include <QFont>
#include <QFontMetricsF>
#include <QHash>
#include <QPainter>
#include <QSet>
#include <QTextBoundaryFinder>

#include <cassert>
#include <iterator>
#include <numeric>

namespace otherskein::drawing {

namespace {

/// Half of the symbol's box in shares of the cell: leaves air to the cell's edge.
constexpr double kReach = 0.4;
constexpr int kMostLetters = 3;

const std::vector<detail::Symbol>& symbols() {
    static const std::vector<detail::Symbol> all = [] {
        std::vector<detail::Symbol> made = detail::plainSymbols();
        std::vector<detail::Symbol> things = detail::thingSymbols();
        made.insert(made.end(), std::make_move_iterator(things.begin()),
                    std::make_move_iterator(things.end()));
        // Dealt out by a stride, so that rows that stand together in a key get symbols of different
        // families rather than four wedges in a row.
        std::vector<detail::Symbol> dealt;
        const std::size_t stride = 19;
        assert(std::gcd(stride, made.size()) == 1);
        for (std::size_t i = 0; i < made.size(); ++i) {
            dealt.push_back(std::move(made[i * stride % made.size()]));
        }
        return dealt;
    }();
    return all;
}

/// The first letters and numbers of a text, whole with the accents that belong to them.
QString lettersOf(const QString& text) {
    QString letters;
    int taken = 0;
    QTextBoundaryFinder finder(QTextBoundaryFinder::Grapheme, text);
    for (qsizetype start = 0, end = finder.toNextBoundary(); end > start && taken < kMostLetters;
         start = end, end = finder.toNextBoundary()) {
        const QString one = text.mid(start, end - start);
        const QList<uint> points = one.toUcs4();
        if (QChar::isLetterOrNumber(points.first())) {
            letters += one;
            ++taken;
        }
    }
    return letters;
}

/// For keys with more rows than we have symbols: aa, ab, ac …
QString letterPair(int index) {
    const auto letter = [](int i) { return QChar(static_cast<char16_t>(u'a' + i % 26)); };
    return QString(letter(index / 26)) + letter(index);
}

} // namespace

int symbolCount() {
    return static_cast<int>(symbols().size());
}

QString symbolName(int symbol) {
    return QString::fromLatin1(symbols().at(static_cast<std::size_t>(symbol)).name);
}

std::optional<int> symbolNamed(const QString& name) {
    static const QHash<QString, int> byName = [] {
        QHash<QString, int> made;
        for (int i = 0; i < symbolCount(); ++i) {
            made.insert(symbolName(i), i);
        }
        return made;
    }();
    const auto found = byName.constFind(name);
    return found == byName.cend() ? std::nullopt : std::optional(*found);
}

void paintSymbol(QPainter& painter, int symbol, const QRectF& cell, const QColor& ink) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(cell.center());
    painter.scale(kReach / detail::kUnit * cell.width(), kReach / detail::kUnit * cell.height());
    painter.fillPath(symbols().at(static_cast<std::size_t>(symbol)).shape, ink);
    painter.restore();
}

std::vector<Mark> marksOf(const chart::Key& key) {
    std::vector<Mark> marks(key.size());
    QSet<int> drawn;
    QSet<QString> written;
    for (std::size_t row = 0; row < key.size(); ++row) {
        const std::optional<int> named = symbolNamed(key[row].symbol);
        const QString letters = named ? QString() : lettersOf(key[row].symbol);
        if (named && !drawn.contains(*named)) {
            drawn.insert(*named);
            marks[row].symbol = named;
        } else if (!letters.isEmpty() && !written.contains(letters)) {
            written.insert(letters);
            marks[row].letters = letters;
        }
    }
    int next = 0;
    int nextPair = 0;
    for (Mark& mark : marks) {
        if (mark.symbol || !mark.letters.isEmpty()) {
            continue;
        }
        while (next < symbolCount() && drawn.contains(next)) {
            ++next;
        }
        if (next < symbolCount()) {
            mark.symbol = next++;
            continue;
        }
        while (written.contains(letterPair(nextPair))) {
            ++nextPair;
        }
        mark.letters = letterPair(nextPair++);
    }
    return marks;
}

void paintMark(QPainter& painter, const Mark& mark, const QRectF& cell, const QColor& ink) {
    if (mark.symbol) {
        paintSymbol(painter, *mark.symbol, cell, ink);
        return;
    }
    if (mark.letters.isEmpty()) {
        return;
    }
    painter.save();
    QFont font = painter.font();
    font.setPixelSize(qMax(4, qRound(0.74 * cell.height())));
    font.setWeight(QFont::DemiBold);
    const QFontMetricsF metrics(font);
    // The ink's own box rather than the line's, so that letters stand in the middle of the cell.
    const QRectF box = metrics.tightBoundingRect(mark.letters);
    const double room = 0.84;
    const double shrink = qMin(1.0, qMin(room * cell.width() / qMax(1.0, box.width()),
                                         room * cell.height() / qMax(1.0, box.height())));
    painter.translate(cell.center());
    painter.scale(shrink, shrink);
    painter.setFont(font);
    painter.setPen(ink);
    painter.drawText(-box.center(), mark.letters);
    painter.restore();
}

QColor inkOn(QRgb colour) {
    const colour::Srgb8 under{static_cast<std::uint8_t>(qRed(colour)),
                              static_cast<std::uint8_t>(qGreen(colour)),
                              static_cast<std::uint8_t>(qBlue(colour))};
    constexpr colour::Srgb8 dark{0, 0, 0};
    constexpr colour::Srgb8 light{250, 250, 250};
    const bool isDark = colour::contrastRatio(under, dark) >= colour::contrastRatio(under, light);
    const colour::Srgb8 ink = isDark ? dark : light;
    return QColor(ink.r, ink.g, ink.b);
}

} // namespace otherskein::drawing
