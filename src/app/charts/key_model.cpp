#include "app/charts/key_model.h"

#include "chart/mending.h"

#include <QLocale>

namespace otherskein::app {

KeyModel::KeyModel(const ChartDesk& desk, QObject* parent)
    : QAbstractTableModel(parent), m_desk(desk) {
    const auto reset = [this] {
        beginResetModel();
        load();
        endResetModel();
    };
    connect(&desk, &ChartDesk::chartReplaced, this, reset);
    connect(&desk, &ChartDesk::chartChanged, this, [this, reset] {
        if (m_desk.chart()->key.size() != m_marks.size()) {
            reset();
            return;
        }
        load();
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, kKeyColumns - 1));
    });
    load();
}

void KeyModel::load() {
    m_marks.clear();
    m_lines.clear();
    m_total = 0;
    if (m_desk.chart()) {
        m_marks = drawing::marksOf(m_desk.chart()->key);
        m_lines = chart::lineCounts(*m_desk.chart());
        for (const chart::KeyRow& row : m_desk.chart()->key) {
            m_total += row.stitches;
        }
    }
}

int KeyModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_marks.size());
}

int KeyModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kKeyColumns;
}

const chart::KeyRow& KeyModel::row(int row) const {
    return m_desk.chart()->key[static_cast<std::size_t>(row)];
}

QImage KeyModel::print(int row, int pixels) const {
    return m_prints && m_desk.page() ? m_prints(static_cast<chart::KeyIndex>(row), pixels)
                                     : QImage();
}

QString KeyModel::amount(int row) const {
    const int stitches = this->row(row).stitches;
    const int lines = m_lines[static_cast<std::size_t>(row)];
    if (stitches == 0 && lines > 0) {
        return tr("%Ln lines", nullptr, lines);
    }
    return stitches == 0 ? tr("none") : QLocale().toString(stitches);
}

QString KeyModel::amountMore(int row) const {
    const int stitches = this->row(row).stitches;
    const int lines = m_lines[static_cast<std::size_t>(row)];
    if (stitches == 0) {
        return lines > 0 ? tr("backstitch") : QString();
    }
    const double percent = 100.0 * stitches / m_total;
    const QString share = percent < 1 ? tr("under 1 %") : tr("%1 %").arg(qRound(percent));
    return lines > 0 ? tr("%1 + lines").arg(share) : share;
}

QVariant KeyModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() ||
        (role != Qt::DisplayRole && role != Qt::AccessibleTextRole && role != Qt::ToolTipRole)) {
        return {};
    }
    const chart::KeyRow& row = this->row(index.row());
    switch (static_cast<KeyColumn>(index.column())) {
    case KeyColumn::Symbol: {
        const drawing::Mark& mark = this->mark(index.row());
        return mark.symbol ? drawing::symbolName(*mark.symbol) : mark.letters;
    }
    case KeyColumn::Colour:
        return colour::toHex(row.pixel);
    case KeyColumn::Thread:
        return role == Qt::ToolTipRole && !row.card.isEmpty()
                   ? tr("%1, from the card %2").arg(shownRow(row), row.card)
                   : shownRow(row);
    case KeyColumn::Strands:
        return role == Qt::DisplayRole ? QVariant(row.strands)
                                       : QVariant(tr("%n strands", nullptr, row.strands));
    case KeyColumn::Stitches: {
        const QString more = amountMore(index.row());
        if (role == Qt::ToolTipRole && index.row() < m_notes.size()) {
            return m_notes[index.row()];
        }
        return more.isEmpty() ? amount(index.row()) : tr("%1, %2").arg(amount(index.row()), more);
    }
    }
    return {};
}

QVariant KeyModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation == Qt::Horizontal && role == Qt::TextAlignmentRole) {
        const auto column = static_cast<KeyColumn>(section);
        return QVariant::fromValue(Qt::Alignment(column == KeyColumn::Stitches ? Qt::AlignTrailing
                                                 : column == KeyColumn::Strands
                                                     ? Qt::AlignHCenter
                                                     : Qt::AlignLeading));
    }
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return QAbstractTableModel::headerData(section, orientation, role);
    }
    switch (static_cast<KeyColumn>(section)) {
    case KeyColumn::Symbol:
        return tr("Sign");
    case KeyColumn::Colour:
        return QString();
    case KeyColumn::Thread:
        return tr("Thread");
    case KeyColumn::Strands:
        return tr("Str.");
    case KeyColumn::Stitches:
        return tr("Stitches");
    }
    return {};
}

} // namespace otherskein::app
