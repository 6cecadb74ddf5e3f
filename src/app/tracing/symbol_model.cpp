#include "app/tracing/symbol_model.h"

#include "app/frame/look.h"

#include <QLocale>
#include <QPainter>

#include <algorithm>

namespace otherskein::app {

SymbolModel::SymbolModel(TracedDesk& traced, QObject* parent)
    : QAbstractListModel(parent), m_traced(traced) {
    const ChartDesk& desk = traced.desk();
    connect(&desk, &ChartDesk::stateChanged, this, [this](const ChartsState& before) {
        if (before.pageView != m_traced.desk().state().pageView) {
            load();
        }
    });
    connect(&desk, &ChartDesk::chartChanged, this, &SymbolModel::load);
    connect(&traced, &TracedDesk::pictureReplaced, this, &SymbolModel::load);
    load();
}

void SymbolModel::load() {
    const ChartDesk& desk = m_traced.desk();
    std::vector<Place> places;
    int families = 0;
    if (desk.chart() && desk.state().pageView == PageView::All) {
        for (const auto& family : m_traced.families()) {
            for (const chart::KeyIndex row : family) {
                places.push_back({row, families});
            }
            ++families;
        }
    }
    m_families = families;
    if (places == m_places) {
        if (!places.empty()) { // names or counts may be new
            Q_EMIT dataChanged(index(0), index(rowCount() - 1));
        }
        return;
    }
    beginResetModel();
    m_places = std::move(places);
    endResetModel();
}

int SymbolModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_places.size());
}

std::optional<int> SymbolModel::placeOf(chart::KeyIndex row) const {
    const auto found = std::ranges::find(m_places, row, &Place::row);
    return found == m_places.end() ? std::nullopt
                                   : std::optional(static_cast<int>(found - m_places.begin()));
}

std::vector<int> SymbolModel::placesOf(int family) const {
    std::vector<int> places;
    for (int place = 0; place < rowCount(); ++place) {
        if (this->family(place) == family) {
            places.push_back(place);
        }
    }
    return places;
}

std::vector<int> SymbolModel::alikeAfter(int place) const {
    const int start = place < 0 || place >= rowCount() ? -1 : family(place);
    for (int step = 1; step <= m_families; ++step) {
        std::vector<int> places = placesOf((start + step) % m_families);
        if (places.size() > 1) {
            return places;
        }
    }
    return {};
}

QVariant SymbolModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || (role != Qt::AccessibleTextRole && role != Qt::ToolTipRole)) {
        return {};
    }
    const chart::KeyRow& row = m_traced.desk().chart()->key[keyRow(index.row())];
    return tr("%1: %Ln cells", nullptr, row.stitches).arg(signOf(row));
}

void SymbolDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                           const QModelIndex& index) const {
    constexpr int kPrint = 46;
    constexpr int kAbove = 12;
    const Greys& g = greys();
    const TracedDesk& traced = m_model.traced();
    const chart::KeyIndex key = m_model.keyRow(index.row());
    const chart::KeyRow& row = traced.desk().chart()->key[key];
    const bool selected = option.state.testFlag(QStyle::State_Selected);
    painter->save();
    if (m_model.family(index.row()) % 2 == 1) {
        painter->fillRect(option.rect.adjusted(0, 2, 0, -2), g.surround);
    }
    const QRect print(option.rect.center().x() - kPrint / 2, option.rect.top() + kAbove, kPrint,
                      kPrint);
    const QImage picture =
        traced.printOf(key, qRound(kPrint * painter->device()->devicePixelRatioF()));
    if (!picture.isNull()) {
        painter->drawImage(print, picture);
    }
    painter->setBrush(Qt::NoBrush);
    painter->setPen(QPen(g.edge, 1));
    painter->drawRect(print.adjusted(-1, -1, 0, 0));
    if (selected) {
        // With a gap, or a light frame would be part of the paper.
        painter->setPen(QPen(g.text, 3, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
        painter->drawRect(print.adjusted(-5, -5, 4, 4));
    }
    painter->setPen(g.text);
    painter->setFont(scaledFont(0.92, selected ? 700 : 400));
    const QRect words(option.rect.left(), print.bottom() + 6, option.rect.width(),
                      option.rect.bottom() - print.bottom() - 8);
    const QString sign = row.code.isEmpty() ? row.symbol : row.code;
    const QString text = SymbolModel::tr("%1: %2").arg(sign, QLocale().toString(row.stitches));
    painter->drawText(words, Qt::AlignHCenter | Qt::AlignVCenter,
                      painter->fontMetrics().elidedText(text, Qt::ElideRight, words.width() - 6));
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(g.edge, 1));
        painter->drawRect(option.rect.adjusted(1, 1, -2, -2));
    }
    painter->restore();
}

} // namespace otherskein::app
