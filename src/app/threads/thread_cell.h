#pragma once

#include <QStyledItemDelegate>

namespace otherskein::app {

class ThreadModel;

/// Draws and edits the cells of the table: a chip beside its #rrggbb, numbers to the right, a
/// choice for finish and stock.
class ThreadCell : public QStyledItemDelegate {
    Q_OBJECT

  public:
    explicit ThreadCell(ThreadModel& model, QObject* parent = nullptr);

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model,
                      const QModelIndex& index) const override;

  private:
    ThreadModel& m_model;
};

} // namespace otherskein::app
