#include "trace/detail/assignment.h"
#include "trace/tracing.h"

#include "drawn_page.h"

#include <catch2/catch.hpp>

#include <QFontMetricsF>

#include <algorithm>
#include <array>

using namespace otherskein;

namespace {

/// A chart with a key below it, whose pictures stand at a scale of their own.
struct KeyedPage {
    int kinds = 5;
    double scale = 0.7; ///< of a key's cell to a grid's
    bool isFramed = false;
    bool isTable = false; ///< with rules between its lines, which share them
    bool isAfter = false; ///< pictures stand behind the texts, in line
    std::function<void(QPainter&, int)> draw = drawShape;
    std::function<QStringList(int)> says = {}; ///< each starts a column
    std::vector<int> order{0, 1, 2, 3, 4};     ///< of the key's lines, of kinds; −1 is a stranger

    [[nodiscard]] trace::Page page() const {
        DrawnPage drawn;
        drawn.rows = 12;
        drawn.cell = [this](QPainter& painter, int column, int row) {
            if (const int kind = kindAt(column, row, kinds); kind >= 0) {
                draw(painter, kind);
            }
        };
        std::vector<trace::Word> words;
        drawn.over = [&](QPainter& painter) {
            QFont font(QStringLiteral("DejaVu Sans"));
            font.setPixelSize(20);
            const QFontMetricsF metrics(font);
            const double side = scale * drawn.pitch;
            for (std::size_t i = 0; i < order.size(); ++i) {
                const double y = 560 + 40 * static_cast<double>(i);
                const double left = isAfter ? 540 : 200;
                painter.save();
                painter.translate(left, y - side / 2);
                painter.scale(side / 100, side / 100);
                if (order[i] >= 0) {
                    draw(painter, order[i]);
                } else {
                    painter.setPen(QPen(Qt::black, 8));
                    painter.drawLine(20, 20, 80, 80);
                    painter.drawLine(20, 80, 80, 20);
                }
                painter.restore();
                painter.setPen(QPen(Qt::black, 1));
                painter.setBrush(Qt::NoBrush);
                if (isFramed) {
                    painter.drawRect(QRectF(left, y - side / 2, side, side));
                }
                if (isTable) {
                    painter.setPen(QPen(Qt::black, 2));
                    painter.drawRect(QRectF(left - 7, y - 26, side + 14, 40));
                }
                painter.setFont(font);
                double x = isAfter ? 200 : left + side + 20;
                for (const QString& text : says(static_cast<int>(i))) {
                    painter.drawText(QPointF(x, y + 7), text);
                    double at = x;
                    for (const QString& word : text.split(QLatin1Char(' '))) {
                        const QRectF ink = metrics.tightBoundingRect(word);
                        words.push_back({ink.translated(at, y + 7), word});
                        at += metrics.horizontalAdvance(word + QLatin1Char(' '));
                    }
                    x += metrics.horizontalAdvance(text) + 40;
                }
            }
        };
        trace::Page page = drawn.page();
        page.words = words;
        return page;
    }

    /// Of each kind, "code, name" as proposed, by where its cells are.
    [[nodiscard]] std::string proposals() const {
        const trace::Page one = page();
        const auto grids = trace::gridsOn(one);
        REQUIRE(grids.size() == 1);
        const std::vector<trace::Piece> pieces{{0, grids[0], {}}};
        const auto tracing = trace::traced(std::span(&one, 1), pieces);
        REQUIRE(tracing);
        QStringList result;
        for (int kind = 0; kind < kinds; ++kind) {
            result << QString();
        }
        const chart::Grid& grid = tracing->chart.grid;
        for (int row = 0; row < grid.rows(); ++row) {
            for (int column = 0; column < grid.columns(); ++column) {
                const int kind = kindAt(column, row, kinds);
                const chart::KeyIndex found = grid.at({column, row});
                if (kind >= 0 && found != chart::kBare) {
                    const chart::KeyRow& line = tracing->chart.key[found];
                    result[kind] = line.code + QStringLiteral(", ") + line.name;
                }
            }
        }
        return result.join(QLatin1Char('\n')).toStdString();
    }
};

const QStringList kNames{QStringLiteral("Brook grey"), QStringLiteral("Sorrel"),
                         QStringLiteral("Dark lamp blue"), QStringLiteral("Fern"),
                         QStringLiteral("Winter rose")};

std::string wanted(const std::vector<int>& order, const QStringList& codes) {
    QStringList result{QStringLiteral(", "), QStringLiteral(", "), QStringLiteral(", "),
                       QStringLiteral(", "), QStringLiteral(", ")};
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (order[i] >= 0) {
            const auto line = static_cast<qsizetype>(i);
            result[order[i]] = codes[line] + QStringLiteral(", ") + kNames[line];
        }
    }
    return result.join(QLatin1Char('\n')).toStdString();
}

const QStringList kNumbers{QStringLiteral("471"), QStringLiteral("82"), QStringLiteral("915"),
                           QStringLiteral("230"), QStringLiteral("664")};

} // namespace

TEST_CASE("a key's lines name the symbols beside them, at whatever scale") {
    KeyedPage keyed;
    keyed.order = {3, 0, 4, 2, 1};
    keyed.scale = GENERATE(0.7, 1.1);
    keyed.isFramed = GENERATE(false, true);
    keyed.says = [](int i) { return QStringList{kNumbers[i], kNames[i]}; };
    CHECK(keyed.proposals() == wanted(keyed.order, kNumbers));
}

TEST_CASE("a number between a key's picture and its code is neither") {
    KeyedPage keyed;
    keyed.isFramed = true;
    keyed.says = [](int i) {
        return QStringList{QString::number(1 + i % 2), QStringLiteral("VQ ") + kNumbers[i],
                           kNames[i]};
    };
    QStringList codes;
    for (const QString& number : kNumbers) {
        codes << QStringLiteral("VQ ") + number;
    }
    CHECK(keyed.proposals() == wanted(keyed.order, codes));
}

TEST_CASE("codes may follow names, strands and counts are none") {
    KeyedPage keyed;
    keyed.says = [](int i) {
        return QStringList{kNames[i], QStringLiteral("K%1").arg(kNumbers[i]), QString::number(2),
                           QString::number(20 + i)};
    };
    QStringList codes;
    for (const QString& number : kNumbers) {
        codes << QStringLiteral("K") + number;
    }
    CHECK(keyed.proposals() == wanted(keyed.order, codes));
}

TEST_CASE("codes of parted digits may follow names, lengths are none") {
    KeyedPage keyed;
    const bool areCodes = GENERATE(true, false);
    const auto parted = [areCodes](int i) {
        return areCodes ? QStringLiteral("%1/%2").arg(27 + i).arg(2 + i)
                        : QStringLiteral("%1.%2").arg(1 + i).arg(2 + i);
    };
    keyed.says = [&](int i) { return QStringList{kNames[i], parted(i)}; };
    QStringList codes;
    for (int i = 0; i < kNumbers.size(); ++i) {
        codes << (areCodes ? parted(i) : QString());
    }
    CHECK(keyed.proposals() == wanted(keyed.order, codes));
}

TEST_CASE("a key's pictures may stand after its texts") {
    KeyedPage keyed;
    keyed.order = {3, 0, 4, 2, 1};
    keyed.isAfter = true;
    keyed.isFramed = GENERATE(false, true);
    keyed.says = [](int i) { return QStringList{kNumbers[i], kNames[i]}; };
    CHECK(keyed.proposals() == wanted(keyed.order, kNumbers));
}

TEST_CASE("a key's pictures may stand in a table whose lines share their rules") {
    KeyedPage keyed;
    keyed.order = {3, 0, 4, 2, 1};
    keyed.isTable = true;
    keyed.says = [](int i) { return QStringList{kNumbers[i], kNames[i]}; };
    CHECK(keyed.proposals() == wanted(keyed.order, kNumbers));
}

TEST_CASE("how many strands, with a sign of multiplication, is no code") {
    KeyedPage keyed;
    const QString times = GENERATE(QStringLiteral("2x"), QStringLiteral("×3"));
    keyed.says = [&](int i) { return QStringList{kNames[i], kNumbers[i], times}; };
    CHECK(keyed.proposals() == wanted(keyed.order, kNumbers));
}

TEST_CASE("names and strands alone give no codes") {
    KeyedPage keyed;
    keyed.says = [](int i) { return QStringList{kNames[i], QString::number(1 + i % 3)}; };
    CHECK(keyed.proposals() == wanted(keyed.order, {{}, {}, {}, {}, {}}));
}

TEST_CASE("a key's line whose picture is no symbol of the chart names none") {
    KeyedPage keyed;
    keyed.order = {0, -1, 2, 3, 4};
    keyed.says = [](int i) { return QStringList{kNumbers[i], kNames[i]}; };
    CHECK(keyed.proposals() == wanted(keyed.order, kNumbers));
}

TEST_CASE("coloured cells are found in a key by their colours") {
    KeyedPage keyed;
    keyed.isFramed = GENERATE(false, true);
    keyed.draw = [](QPainter& painter, int kind) {
        painter.fillRect(QRectF(0, 0, 100, 100), QColor::fromHsv(20 + 40 * kind, 120, 220));
    };
    keyed.order = {1, 0, 3, 2, 4};
    keyed.says = [](int i) { return QStringList{kNumbers[i], kNames[i]}; };
    CHECK(keyed.proposals() == wanted(keyed.order, kNumbers));
}

TEST_CASE("lines and columns are assigned so that the sum is least") {
    // Taking the cheapest first would cost 1 + 9.
    const auto taken = trace::detail::assigned({{1, 2}, {1.5, 9}}, 20);
    CHECK(taken == std::vector<std::optional<std::size_t>>{1, 0});
    // More lines than columns, and a line that costs too much.
    const auto some = trace::detail::assigned({{5}, {0.5}, {0.7}}, 1);
    CHECK(some == std::vector<std::optional<std::size_t>>{std::nullopt, 0, std::nullopt});
    CHECK(trace::detail::assigned({}, 1).empty());
}

TEST_CASE("assignments cost no more than any other order") {
    std::mt19937 random(11);
    for (int turn = 0; turn < 50; ++turn) {
        std::vector<std::vector<double>> costs(4, std::vector<double>(4));
        for (auto& row : costs) {
            for (double& cost : row) {
                cost = static_cast<double>(random() % 100);
            }
        }
        const auto taken = trace::detail::assigned(costs, 1000);
        double sum = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            REQUIRE(taken[i]);
            sum += costs[i][*taken[i]];
        }
        std::array<std::size_t, 4> order{0, 1, 2, 3};
        do {
            double other = 0;
            for (std::size_t i = 0; i < 4; ++i) {
                other += costs[i][order[i]];
            }
            CHECK(sum <= other);
        } while (std::ranges::next_permutation(order).found);
    }
}
