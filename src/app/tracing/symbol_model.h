#pragma once

#include "app/tracing/traced_desk.h"
#include "drawing/symbols.h"

#include <QAbstractListModel>
#include <QStyledItemDelegate>

namespace otherskein::app {

/// All symbols of a traced page, those whose ink has one shape side by side.
class SymbolModel : public QAbstractListModel {
    Q_OBJECT

  public:
    explicit SymbolModel(TracedDesk& traced, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

    [[nodiscard]] const TracedDesk& traced() const { return m_traced; }
    /// The row of the key that stands there.
    [[nodiscard]] chart::KeyIndex keyRow(int place) const {
        return m_places[static_cast<std::size_t>(place)].row;
    }
    /// Which family it belongs to, from 0.
    [[nodiscard]] int family(int place) const {
        return m_places[static_cast<std::size_t>(place)].family;
    }
    [[nodiscard]] std::optional<int> placeOf(chart::KeyIndex row) const;
    /// All places of a family of two or more, the first such behind `place`, round to the start;
    /// with -1 the first of all. Empty where no two symbols are alike.
    [[nodiscard]] std::vector<int> alikeAfter(int place) const;

  private:
    struct Place {
        chart::KeyIndex row;
        int family;

        bool operator==(const Place&) const = default;
    };
    TracedDesk& m_traced;
    std::vector<Place> m_places;
    int m_families = 0;

    void load();
    [[nodiscard]] std::vector<int> placesOf(int family) const;
};

/// A symbol as it is printed, over its sign and how many cells it has. Every other family stands
/// on a darker ground.
class SymbolDelegate : public QStyledItemDelegate {
  public:
    static constexpr QSize kPlace{92, 88};

    SymbolDelegate(const SymbolModel& model, QObject* parent)
        : QStyledItemDelegate(parent), m_model(model) {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& /*option*/,
                                 const QModelIndex& /*index*/) const override {
        return kPlace;
    }

  private:
    const SymbolModel& m_model;
};

} // namespace otherskein::app
