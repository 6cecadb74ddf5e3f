#include "app/tracing/page_list.h"

#include "base/input_error.h"

#include <QFileInfo>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kNarrow = 150;
constexpr int kWide = 204; // with names of files

bool areOfSeveralFiles(const std::vector<PageSheet>& sheets) {
    return std::ranges::any_of(
        sheets, [&](const PageSheet& one) { return one.file != sheets.front().file; });
}

QString nameOf(const PageSheet& sheet, std::size_t place, bool severalFiles) {
    if (!severalFiles) {
        return PageList::tr("Page %1").arg(sheet.number);
    }
    return PageList::tr("%1: %2").arg(place + 1).arg(QFileInfo(sheet.file).fileName());
}

} // namespace

bool PageSheet::hasChosen() const {
    return std::ranges::find(chosen, true) != chosen.end();
}

std::optional<std::size_t> PageSheet::currentGrid() const {
    if (last < chosen.size() && chosen[last]) {
        return last;
    }
    const auto first = std::ranges::find(chosen, true);
    return first == chosen.end() ? std::nullopt
                                 : std::optional(static_cast<std::size_t>(first - chosen.begin()));
}

void PageSheet::want(bool on) {
    wanted = on && trouble.isEmpty() && !hasNoChart();
    if (wanted && !grids.empty() && !hasChosen()) {
        chosen.front() = true;
    }
}

CountedPages pagesOf(const QStringList& files, const std::function<int(const QString&)>& count) {
    CountedPages counted;
    QStringList lines;
    for (const QString& file : files) {
        counted.counts.push_back(0);
        try {
            counted.counts.back() = count(file);
        } catch (const base::InputError& error) {
            lines.push_back(error.line());
        }
    }
    counted.line = lines.size() < 2 ? lines.value(0)
                                    : PageList::tr("%1 (and %n more files refused)", nullptr,
                                                   static_cast<int>(lines.size()) - 1)
                                          .arg(lines.front());
    return counted;
}

QString troubleOf(const std::vector<PageSheet>& sheets, std::size_t shown) {
    if (shown < sheets.size() && !sheets[shown].trouble.isEmpty()) {
        return sheets[shown].trouble;
    }
    const auto found = std::ranges::find_if(
        sheets, [](const PageSheet& sheet) { return !sheet.trouble.isEmpty(); });
    return found == sheets.end() ? QString() : found->trouble;
}

QString adviceOn(const std::vector<PageSheet>& sheets, std::size_t shown) {
    const bool several = sheets.size() > 1;
    if (shown >= sheets.size() || !sheets[shown].page) {
        return several ? PageList::tr("This page cannot be read. The others can be used.")
                       : PageList::tr("There is no page to show. “Add pages…” takes another file.");
    }
    const PageSheet& sheet = sheets[shown];
    if (sheet.grids.empty()) {
        return several ? PageList::tr("No chart was found on this page. Choose another page.")
                       : PageList::tr("No chart was found on this page. A sharper or flatter "
                                      "picture may help.");
    }
    if (several) {
        return PageList::tr("Tick the pages that belong to the chart; click the grids on each that "
                            "are part of it.");
    }
    if (sheet.grids.size() > 1) {
        return PageList::tr("Click the grids that are part of the chart.");
    }
    return sheet.hasChosen()
               ? PageList::tr("The chart is outlined. “Make the chart” tells its cells apart.")
               : PageList::tr("Click the grid to make it the chart.");
}

ChosenPages chosenOf(const std::vector<PageSheet>& sheets) {
    ChosenPages all;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const PageSheet& sheet = sheets[i];
        if (!sheet.wanted || !sheet.page || !sheet.hasChosen()) {
            continue;
        }
        std::vector<trace::FoundGrid> grids;
        for (std::size_t grid = 0; grid < sheet.grids.size(); ++grid) {
            if (sheet.chosen[grid]) {
                grids.push_back(sheet.grids[grid]);
            }
        }
        all.pages.push_back(*sheet.page);
        all.grids.push_back(std::move(grids));
        all.numbers.push_back(static_cast<int>(i) + 1);
    }
    return all;
}

void forgetPictures(std::vector<PageSheet>& sheets, std::size_t shown) {
    constexpr std::size_t kNear = 3; // to leaf back and forth without waiting
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const std::size_t away = i > shown ? i - shown : shown - i;
        if (!sheets[i].wanted && away > kNear) {
            sheets[i].page.reset();
        }
    }
}

PageList::PageList(QWidget* parent)
    : QWidget(parent), m_list(new QListWidget(this)),
      m_all(new QPushButton(tr("All pages"), this)) {
    m_list->setAccessibleName(tr("Pages that belong to the chart"));
    m_list->setToolTip(tr("Tick the pages that belong to the chart (Space)"));
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setTextElideMode(Qt::ElideMiddle);
    m_list->setStyleSheet(QStringLiteral("QListWidget::item { padding: 4px 0; }"));
    m_all->setAccessibleName(m_all->text());
    m_all->setToolTip(tr("Look at every page, and tick those that have a chart"));
    m_all->setAutoDefault(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(m_list, 1);
    column->addWidget(m_all);
    connect(m_list, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
        Q_EMIT ticked(m_list->row(item), item->checkState() == Qt::Checked);
    });
    connect(m_list, &QListWidget::currentRowChanged, this, &PageList::currentChanged);
    connect(m_all, &QPushButton::clicked, this, &PageList::allAsked);
    setFocusProxy(m_list);
}

void PageList::show(const std::vector<PageSheet>& sheets) {
    const QSignalBlocker quiet(m_list);
    const bool severalFiles = areOfSeveralFiles(sheets);
    setFixedWidth(severalFiles ? kWide : kNarrow);
    bool more = false;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const PageSheet& sheet = sheets[i];
        if (m_list->count() == static_cast<int>(i)) {
            auto* made = new QListWidgetItem(m_list);
            made->setFlags(made->flags() | Qt::ItemIsUserCheckable);
            made->setToolTip(severalFiles ? sheet.file : QString());
        }
        QListWidgetItem& item = *m_list->item(static_cast<int>(i));
        const QString name = nameOf(sheet, i, severalFiles);
        item.setText(!sheet.trouble.isEmpty() ? tr("%1, unreadable").arg(name)
                     : sheet.hasNoChart()     ? tr("%1, no chart").arg(name)
                                              : name);
        item.setCheckState(sheet.wanted ? Qt::Checked : Qt::Unchecked);
        more |= !sheet.wanted && sheet.trouble.isEmpty() && !sheet.hasNoChart();
    }
    m_all->setEnabled(more);
}

void PageList::setCurrent(int page) {
    const QSignalBlocker quiet(m_list);
    m_list->setCurrentRow(page);
}

} // namespace otherskein::app
