#include "app/recolour/colourway_model.h"

#include "app/recolour/part_words.h"

#include <QLocale>

#include <algorithm>

namespace otherskein::app {

QString changeText(const ColourwayRow& row) {
    return ColourwayModel::tr("ΔE %1").arg(QLocale().toString(row.de00, 'f', 1));
}

QString ownText(const colourway::Choice& choice) {
    return choice.isInStash() ? ColourwayModel::tr("own") : ColourwayModel::tr("buy");
}

void ColourwayModel::setRows(std::vector<ColourwayRow> rows) {
    // A colourway of the same parts keeps the place in the table, and the scroll bar with it.
    const bool sameParts =
        std::ranges::equal(rows, m_rows, [](const ColourwayRow& a, const ColourwayRow& b) {
            return a.parts == b.parts;
        });
    if (sameParts) {
        m_rows = std::move(rows);
        if (!m_rows.empty()) {
            Q_EMIT dataChanged(index(0), index(rowCount() - 1));
        }
        return;
    }
    beginResetModel();
    m_rows = std::move(rows);
    endResetModel();
}

int ColourwayModel::rowOfPart(std::size_t part) const {
    const auto found = std::ranges::find_if(m_rows, [&](const ColourwayRow& row) {
        return std::ranges::find(row.parts, part) != row.parts.end();
    });
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

int ColourwayModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant ColourwayModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const ColourwayRow& one = row(index.row());
    switch (role) {
    case Qt::DisplayRole:
        return threadText(one.now);
    case Qt::ToolTipRole:
        return tr("%1: %2 instead of %3\n%4, ΔE00 %5\n%6, %n stitches", nullptr, one.stitches)
            .arg(one.label, threadText(one.now), threadText(one.was), one.words,
                 QLocale().toString(one.de00, 'f', 1), one.now.card());
    case Qt::AccessibleTextRole: {
        const QString text =
            tr("%1: %2 instead of %3, ΔE00 %4, %5. %n stitches, %6", nullptr, one.stitches)
                .arg(one.label, threadText(one.now), threadText(one.was),
                     QLocale().toString(one.de00, 'f', 1), one.words, ownText(one.now));
        return one.isLocked() ? tr("%1. Locked.").arg(text) : text;
    }
    default:
        return {};
    }
}

} // namespace otherskein::app
