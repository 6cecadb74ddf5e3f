#include "thread/shade_card_csv.h"

#include "base/number.h"
#include "colour/conversion.h"
#include "thread/csv_table.h"

#include <QFileInfo>
#include <QHash>

#include <algorithm>

namespace otherskein::thread {

namespace {

const QString kCode = QStringLiteral("code");
const QString kName = QStringLiteral("name");
const QString kSrgb = QStringLiteral("srgb");
const QString kL = QStringLiteral("L");
const QString kA = QStringLiteral("a");
const QString kB = QStringLiteral("b");
const QString kFibre = QStringLiteral("fibre");
const QString kFinish = QStringLiteral("finish");
const QString kStrands = QStringLiteral("strands");
const QString kLength = QStringLiteral("length_m");
const QString kStash = QStringLiteral("stash");
const QString kStock = QStringLiteral("stock");
const QString kLot = QStringLiteral("lot");
const QString kSpread = QStringLiteral("spread");
const QString kNote = QStringLiteral("note");

bool isKnown(const QString& column) {
    return std::ranges::find(knownColumns(), column) != knownColumns().end();
}

/// Turns one row into a thread. Holds what is the same for all rows.
class RowReader {
  public:
    explicit RowReader(const CsvTable& table) : m_table(table) {
        m_hasLab = table.has(kL) && table.has(kA) && table.has(kB);
        for (const QString& column : table.columns()) {
            if (!isKnown(column)) {
                m_extra.push_back(column);
            }
        }
    }

    [[nodiscard]] Thread read(const base::CsvRecord& row) const {
        Thread thread;
        thread.code = m_table.cell(row, kCode).trimmed();
        if (thread.code.isEmpty()) {
            throw badCell(m_table.place(row, kCode), QStringLiteral("a code"),
                          QStringLiteral("an empty cell"));
        }
        thread.name = m_table.cell(row, kName);
        readColour(row, thread);
        thread.fibre = m_table.cell(row, kFibre);
        thread.finish = readWord<Finish>(row, kFinish, finishOf,
                                         QStringLiteral("matt, satin, metallic or variegated"));
        thread.stock =
            readWord<Stock>(row, kStock, stockOf, QStringLiteral("in, out or discontinued"));
        if (const QString cell = trimmed(row, kStrands); !cell.isEmpty()) {
            thread.strands =
                wholeNumberIn(m_table.place(row, kStrands), cell, 1, limits::kMostStrands);
        }
        if (const QString cell = trimmed(row, kLength); !cell.isEmpty()) {
            thread.lengthM =
                numberIn(m_table.place(row, kLength), cell, 0.01, limits::kMostLengthM);
        }
        if (const QString cell = trimmed(row, kStash); !cell.isEmpty()) {
            thread.stash = numberIn(m_table.place(row, kStash), cell, 0, limits::kMostStash);
        }
        if (const QString cell = trimmed(row, kSpread); !cell.isEmpty()) {
            thread.spread = numberIn(m_table.place(row, kSpread), cell, 0, limits::kMostSpread);
        }
        thread.lot = m_table.cell(row, kLot);
        thread.note = m_table.cell(row, kNote);
        for (const QString& column : m_extra) {
            thread.extra.push_back(m_table.cell(row, column));
        }
        return thread;
    }

  private:
    const CsvTable& m_table;
    bool m_hasLab = false;
    std::vector<QString> m_extra;

    [[nodiscard]] QString trimmed(const base::CsvRecord& row, const QString& column) const {
        return m_table.cell(row, column).trimmed();
    }

    void readColour(const base::CsvRecord& row, Thread& thread) const {
        const QString hex = trimmed(row, kSrgb);
        if (!hex.isEmpty()) {
            thread.entered = colour::parseHex(hex);
            if (!thread.entered) {
                throw badCell(m_table.place(row, kSrgb), QStringLiteral("#rrggbb"),
                              base::quotedForMessage(hex));
            }
        }
        const bool labGiven =
            m_hasLab && !(trimmed(row, kL).isEmpty() && trimmed(row, kA).isEmpty() &&
                          trimmed(row, kB).isEmpty());
        if (labGiven) {
            thread.lab.L =
                numberIn(m_table.place(row, kL), trimmed(row, kL), 0, limits::kMostLightness);
            thread.lab.a = numberIn(m_table.place(row, kA), trimmed(row, kA), -limits::kMostAb,
                                    limits::kMostAb);
            thread.lab.b = numberIn(m_table.place(row, kB), trimmed(row, kB), -limits::kMostAb,
                                    limits::kMostAb);
            thread.entered.reset(); // Lab is the truth; an sRGB beside it was only for show
        } else if (thread.entered) {
            thread.lab = colour::labFromSrgb(*thread.entered);
        } else {
            throw badCell(m_table.place(row, m_table.has(kSrgb) ? kSrgb : kL),
                          m_table.has(kSrgb) ? QStringLiteral("#rrggbb")
                                             : QStringLiteral("a number from 0 to 100"),
                          QStringLiteral("an empty cell"));
        }
    }

    template <typename Value, typename Parse>
    [[nodiscard]] Value readWord(const base::CsvRecord& row, const QString& column, Parse parse,
                                 const QString& expected) const {
        const QString cell = trimmed(row, column);
        const auto value = parse(cell);
        if (!value) {
            throw badCell(m_table.place(row, column), expected, base::quotedForMessage(cell));
        }
        return *value;
    }
};

/// The cell of one known column, or nothing for an unknown one.
std::optional<QString> knownCell(const Thread& thread, const QString& column) {
    const auto number = [](double value) { return base::formatNumber(value); };
    const auto lab = [&](double value) { return thread.entered ? QString() : number(value); };
    if (column == kCode) {
        return thread.code;
    }
    if (column == kName) {
        return thread.name;
    }
    if (column == kSrgb) {
        return thread.entered ? colour::toHex(*thread.entered) : QString();
    }
    if (column == kL) {
        return lab(thread.lab.L);
    }
    if (column == kA) {
        return lab(thread.lab.a);
    }
    if (column == kB) {
        return lab(thread.lab.b);
    }
    if (column == kFibre) {
        return thread.fibre;
    }
    if (column == kFinish) {
        return wordOf(thread.finish);
    }
    if (column == kStrands) {
        return QString::number(thread.strands);
    }
    if (column == kLength) {
        return number(thread.lengthM);
    }
    if (column == kStash) {
        return number(thread.stash);
    }
    if (column == kStock) {
        return wordOf(thread.stock);
    }
    if (column == kLot) {
        return thread.lot;
    }
    if (column == kSpread) {
        return thread.spread ? number(*thread.spread) : QString();
    }
    if (column == kNote) {
        return thread.note;
    }
    return std::nullopt;
}

/// The card's own columns, and any known one that its threads now need.
std::vector<QString> columnsToWrite(const ShadeCard& card) {
    std::vector<QString> columns = card.columns;
    const Thread plain;
    for (const QString& column : knownColumns()) {
        if (std::ranges::find(columns, column) != columns.end()) {
            continue;
        }
        const QString unwritten = knownCell(plain, column).value_or(QString());
        const bool colourCell = column == kSrgb || column == kL || column == kA || column == kB;
        const bool needed = std::ranges::any_of(card.threads, [&](const Thread& thread) {
            const QString cell = knownCell(thread, column).value_or(QString());
            return colourCell ? !cell.isEmpty() : cell != unwritten;
        });
        if (needed || column == kCode || column == kName) {
            columns.push_back(column);
        }
    }
    return columns;
}

} // namespace

const std::vector<QString>& knownColumns() {
    static const std::vector<QString> columns{kCode,  kName,  kSrgb,   kL,       kA,
                                              kB,     kFibre, kFinish, kStrands, kLength,
                                              kStash, kStock, kLot,    kSpread,  kNote};
    return columns;
}

ShadeCard parseShadeCardCsv(const QByteArray& bytes, const QString& source) {
    base::CsvLimits csvLimits;
    csvLimits.mostRows = limits::kMostThreads + 1;
    const CsvTable table(bytes, source, csvLimits);
    table.require(kCode, QStringLiteral("a column named code"));
    table.require(kName, QStringLiteral("a column named name"));
    if (!table.has(kSrgb)) {
        for (const QString& column : {kL, kA, kB}) {
            table.require(column, QStringLiteral("a column named srgb, or the three L, a and b"));
        }
    }

    const RowReader reader(table);
    ShadeCard card{QFileInfo(source).completeBaseName(), {}, table.columns()};
    card.threads.reserve(table.rows().size());
    QHash<QString, int> rowOfCode;
    for (const base::CsvRecord& row : table.rows()) {
        card.threads.push_back(reader.read(row));
        const QString& code = card.threads.back().code;
        if (const auto earlier = rowOfCode.constFind(code); earlier != rowOfCode.constEnd()) {
            throw badCell(table.place(row, kCode), QStringLiteral("each code once"),
                          base::quotedForMessage(code) +
                              QStringLiteral(" again (first in row %1)").arg(*earlier));
        }
        rowOfCode.insert(code, row.row);
    }
    return card;
}

QByteArray shadeCardCsv(const ShadeCard& card) {
    const std::vector<QString> columns = columnsToWrite(card);
    QByteArray out = base::csvLine(columns);
    for (const Thread& thread : card.threads) {
        std::vector<QString> cells;
        std::size_t extra = 0;
        for (const QString& column : columns) {
            if (auto known = knownCell(thread, column)) {
                cells.push_back(std::move(*known));
            } else {
                cells.push_back(extra < thread.extra.size() ? thread.extra[extra] : QString());
                ++extra;
            }
        }
        out += base::csvLine(cells);
    }
    return out;
}

} // namespace otherskein::thread
