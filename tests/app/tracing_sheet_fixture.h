#pragma once

#include "app/tracing_fixture.h"

#include "app/tracing/contact_sheet.h"
#include "app/tracing/pick_list.h"

#include <QListView>

namespace otherskein::tests {

/// A traced page, symbol by symbol, with the sheet of one row of its key.
struct OpenSheet : OpenTraced {
    app::ContactSheet& sheet = view().sheet();
    QListView& list = sheet.list();

    explicit OpenSheet(chart::KeyIndex row = 1) {
        change([row](app::ChartsState& state) {
            state.pageView = app::PageView::Symbols;
            state.row = row;
        });
        QTest::qWait(0);
    }
    void clickPicture(int picture, Qt::KeyboardModifiers modifiers = {}) const {
        const QRect at = list.visualRect(list.model()->index(picture, 0));
        QTest::mouseClick(list.viewport(), Qt::LeftButton, modifiers, at.center());
    }
    [[nodiscard]] std::size_t countOf(chart::KeyIndex row) const {
        return static_cast<std::size_t>(chart().key[row].stitches);
    }
};

} // namespace otherskein::tests
