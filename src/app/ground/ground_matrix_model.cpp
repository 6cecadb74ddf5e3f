#include "app/ground/ground_matrix_model.h"

#include "app/ground/ground_words.h"

namespace otherskein::app {

void GroundMatrixModel::take(const GroundDesk& desk) {
    const bool sameShape =
        m_rows.size() == desk.rows().size() && m_columns.size() == desk.columns().size();
    if (!sameShape) {
        beginResetModel();
    }
    m_rows = desk.rows();
    m_columns = desk.columns();
    const auto chosen = desk.chosenColumn();
    m_chosen = chosen ? static_cast<int>(*chosen) : -1;
    if (!sameShape) {
        endResetModel();
        return;
    }
    if (!m_rows.empty() && !m_columns.empty()) {
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
        Q_EMIT headerDataChanged(Qt::Horizontal, 0, columnCount() - 1);
        Q_EMIT headerDataChanged(Qt::Vertical, 0, rowCount() - 1);
    }
}

int GroundMatrixModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int GroundMatrixModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_columns.size());
}

QVariant GroundMatrixModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || (role != Qt::AccessibleTextRole && role != Qt::ToolTipRole)) {
        return {};
    }
    const colourway::Contrast& contrast = at(index);
    const GroundRow& row = this->row(index.row());
    const QString what =
        tr("%1 %2 on %3: %4. ΔE00 %5, ΔL* %6, ratio %7 : 1; %8 strands cover %9 %.")
            .arg(row.choice.code(), row.choice.name(), column(index.column()).ground.name,
                 verdictText(contrast.verdict), figure(contrast.de00), figure(contrast.dL),
                 figure(contrast.ratio))
            .arg(row.strands)
            .arg(qRound(100 * contrast.coverage));
    const auto enough = row.toCover[static_cast<std::size_t>(index.column())];
    const QString whole =
        enough ? what + QLatin1Char(' ') + tr("95 % takes %1.").arg(*enough) : what;
    return role == Qt::ToolTipRole ? whole + QLatin1Char('\n') + verdictLimitsText() : whole;
}

QVariant GroundMatrixModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (role == Qt::DisplayRole || role == Qt::AccessibleTextRole) {
        if (orientation == Qt::Horizontal) {
            return column(section).ground.name;
        }
        const colourway::Choice& choice = row(section).choice;
        return choice.code() + QLatin1Char(' ') + choice.name();
    }
    if (orientation == Qt::Horizontal && role == Qt::ToolTipRole) {
        return tr("%1, %2. Click to stitch on it.")
            .arg(column(section).ground.name, countText(column(section).ground));
    }
    return {};
}

} // namespace otherskein::app
