#include "app/recolour/alternatives_model.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

QString number(double value) {
    return QLocale().toString(value, 'f', 1);
}

} // namespace

QString figuresText(const colourway::Colourway& colourway) {
    const colourway::Figures& figures = colourway.figures;
    const QString ground = AlternativesModel::tr("ground %1").arg(number(figures.leastOnGround));
    QString first;
    if (colourway.by == colourway::By::Colour) {
        first = AlternativesModel::tr("order kept %1 %").arg(std::lround(100 * figures.orderKept));
    } else if (figures.leastBetweenNeighbours) {
        first = AlternativesModel::tr("neighbours %1").arg(number(*figures.leastBetweenNeighbours));
    }
    return first.isEmpty() ? ground : first + QStringLiteral("  ·  ") + ground;
}

QString threadsText(const colourway::Figures& figures) {
    const QString threads = AlternativesModel::tr("%n threads", nullptr, figures.threads);
    if (figures.threadsToBuy == 0) {
        return AlternativesModel::tr("%1, all yours").arg(threads);
    }
    return AlternativesModel::tr("%1, buy %2").arg(threads).arg(figures.threadsToBuy);
}

void AlternativesModel::expect() {
    m_isStale = true;
    if (rowCount() > 0) {
        Q_EMIT dataChanged(index(0), index(rowCount() - 1));
    }
}

void AlternativesModel::settle() {
    if (m_isStale) {
        clear();
    }
}

void AlternativesModel::clear() {
    beginResetModel();
    m_alternatives.clear();
    m_isStale = false;
    m_takenRow = -1;
    endResetModel();
}

void AlternativesModel::add(const Alternative& alternative) {
    if (m_isStale) {
        clear();
    }
    const int row = rowCount();
    beginInsertRows({}, row, row);
    m_alternatives.push_back(alternative);
    findTaken();
    endInsertRows();
}

void AlternativesModel::setTaken(const std::vector<colourway::Choice>& now) {
    m_taken = now;
    findTaken();
    if (rowCount() > 0) {
        Q_EMIT dataChanged(index(0), index(rowCount() - 1));
    }
}

void AlternativesModel::findTaken() {
    const auto found = std::ranges::find_if(m_alternatives, [&](const Alternative& one) {
        return isSameChoice(one.colourway.now, m_taken);
    });
    m_takenRow =
        found == m_alternatives.end() ? -1 : static_cast<int>(found - m_alternatives.begin());
}

int AlternativesModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_alternatives.size());
}

QVariant AlternativesModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const colourway::Colourway& one = alternative(index.row()).colourway;
    const QString name = one.name.isEmpty() ? tr("Alternative %1").arg(index.row() + 1) : one.name;
    switch (role) {
    case Qt::DisplayRole:
        return name;
    case Qt::ToolTipRole: {
        QString text = name;
        if (one.figures.leastBetweenNeighbours) {
            text += QLatin1Char('\n') + tr("Neighbours differ by ΔE00 %1 at least")
                                            .arg(number(*one.figures.leastBetweenNeighbours));
        }
        return text + QLatin1Char('\n') +
               tr("Stands off the ground by ΔE00 %1 at least")
                   .arg(number(one.figures.leastOnGround)) +
               QLatin1Char('\n') + threadsText(one.figures);
    }
    case Qt::AccessibleTextRole: {
        const QString text = tr("%1: %2; %3").arg(name, figuresText(one), threadsText(one.figures));
        return index.row() == m_takenRow ? tr("%1. Taken.").arg(text) : text;
    }
    default:
        return {};
    }
}

} // namespace otherskein::app
