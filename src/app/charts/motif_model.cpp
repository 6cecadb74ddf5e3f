#include "app/charts/motif_model.h"

#include <QLocale>

namespace otherskein::app {

MotifModel::MotifModel(ChartDesk& desk, QObject* parent)
    : QAbstractTableModel(parent), m_desk(desk), m_motifs(desk.motifs()) {
    const auto take = [this] {
        beginResetModel();
        m_motifs = m_desk.motifs();
        endResetModel();
    };
    connect(&desk, &ChartDesk::motifsChanged, this, take);
    connect(&desk, &ChartDesk::chartReplaced, this, take);
}

int MotifModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || m_motifs == nullptr ? 0 : static_cast<int>(m_motifs->motifs.size());
}

int MotifModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kMotifColumns;
}

QVariant MotifModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) {
        return {};
    }
    const chart::Motif& motif = this->motif(index.row());
    const auto column = static_cast<MotifColumn>(index.column());
    if (role == Qt::TextAlignmentRole && column == MotifColumn::Stitches) {
        return QVariant(Qt::AlignTrailing | Qt::AlignVCenter);
    }
    if (role != Qt::DisplayRole && role != Qt::EditRole && role != Qt::AccessibleTextRole) {
        return {};
    }
    switch (column) {
    case MotifColumn::Number:
        return role == Qt::AccessibleTextRole
                   ? QVariant(tr("motif %1").arg(QLocale().toString(index.row() + 1)))
                   : QVariant(index.row() + 1);
    case MotifColumn::Name:
        return role == Qt::AccessibleTextRole && motif.name.isEmpty() ? tr("without a name")
                                                                      : motif.name;
    case MotifColumn::Stitches:
        return role == Qt::AccessibleTextRole
                   ? QVariant(tr("%Ln stitches", nullptr, motif.stitches))
                   : QVariant(QLocale().toString(motif.stitches));
    }
    return {};
}

bool MotifModel::setData(const QModelIndex& index, const QVariant& value, int role) {
    if (!index.isValid() || role != Qt::EditRole) {
        return false;
    }
    const chart::Motif& motif = this->motif(index.row());
    const QString name = value.toString().trimmed();
    if (name == motif.name) {
        return false;
    }
    const QString text = name.isEmpty()
                             ? tr("Take the name of motif %1").arg(index.row() + 1)
                             : tr("Name motif %1 %2").arg(QString::number(index.row() + 1), name);
    // New motifs fill this table anew, so that must wait until the table's own editor has closed.
    QMetaObject::invokeMethod(
        this,
        [this, edit = chart::NameMotif{motif.first, name}, text] {
            m_desk.addMotifEdit(edit, text);
        },
        Qt::QueuedConnection);
    return true;
}

QVariant MotifModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation == Qt::Horizontal && role == Qt::TextAlignmentRole) {
        return QVariant::fromValue(Qt::Alignment(section == static_cast<int>(MotifColumn::Stitches)
                                                     ? Qt::AlignTrailing
                                                     : Qt::AlignLeading));
    }
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return QAbstractTableModel::headerData(section, orientation, role);
    }
    switch (static_cast<MotifColumn>(section)) {
    case MotifColumn::Number:
        return tr("No.");
    case MotifColumn::Name:
        return tr("Name");
    case MotifColumn::Stitches:
        return tr("Stitches");
    }
    return {};
}

Qt::ItemFlags MotifModel::flags(const QModelIndex& index) const {
    const Qt::ItemFlags plain = QAbstractTableModel::flags(index);
    return index.column() == static_cast<int>(MotifColumn::Name) ? plain | Qt::ItemIsEditable
                                                                 : plain;
}

} // namespace otherskein::app
