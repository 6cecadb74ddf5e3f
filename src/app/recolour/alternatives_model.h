#pragma once

#include "app/recolour/recolour_worker.h"

#include <QAbstractListModel>

namespace otherskein::app {

/// The wall's cards in the order in which they were found, for the wall and for screen readers.
class AlternativesModel : public QAbstractListModel {
    Q_OBJECT

  public:
    using QAbstractListModel::QAbstractListModel;

    /// A new question was asked: what stands here no longer answers it and fades until the first
    /// answer comes.
    void expect();
    [[nodiscard]] bool isStale() const { return m_isStale; }
    void add(const Alternative& alternative);
    /// Nothing more comes.
    void settle();
    void clear();

    /// Marks the card that gives every part these threads.
    void setTaken(const std::vector<colourway::Choice>& now);
    [[nodiscard]] int takenRow() const { return m_takenRow; }

    [[nodiscard]] const Alternative& alternative(int row) const {
        return m_alternatives[static_cast<std::size_t>(row)];
    }
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

  private:
    std::vector<Alternative> m_alternatives;
    std::vector<colourway::Choice> m_taken;
    bool m_isStale = false;
    int m_takenRow = -1;

    void findTaken();
};

/// "neighbours 14.2 · ground 18.9"; a colour family says "order kept 96 %" first.
[[nodiscard]] QString figuresText(const colourway::Colourway& colourway);
/// "9 threads, buy 3"; "9 threads, all yours".
[[nodiscard]] QString threadsText(const colourway::Figures& figures);

} // namespace otherskein::app
