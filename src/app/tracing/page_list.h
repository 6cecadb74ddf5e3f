#pragma once

#include "trace/tracing.h"

#include <QWidget>

#include <functional>
#include <memory>

class QListWidget;
class QPushButton;

namespace otherskein::app {

/// A page of the files that are to be traced.
struct PageSheet {
    QString file;
    int number = 1;                          ///< in the file
    bool wanted = false;                     ///< belongs to the chart
    bool looked = false;                     ///< its grids have been looked for
    QString trouble;                         ///< why it cannot be read, in one line
    std::shared_ptr<const trace::Page> page; ///< null until it is needed, or if it cannot be read
    std::vector<trace::FoundGrid> grids;
    std::vector<bool> chosen; ///< one a grid
    std::size_t last = 0;     ///< the grid that was chosen last

    [[nodiscard]] bool hasChosen() const;
    /// The grid whose edges are moved: the one chosen last, if it still is, else the first.
    [[nodiscard]] std::optional<std::size_t> currentGrid() const;
    [[nodiscard]] bool hasNoChart() const { return looked && trouble.isEmpty() && grids.empty(); }
    /// Makes it part of the chart, with its largest grid if none is chosen, where it can be; or
    /// not.
    void want(bool on);
};

/// How many pages each file has; none where it cannot be read, which does not keep the others from
/// being traced.
struct CountedPages {
    std::vector<int> counts;
    QString line; ///< what is wrong with those that cannot be read
};
[[nodiscard]] CountedPages pagesOf(const QStringList& files,
                                   const std::function<int(const QString&)>& count);

/// The trouble of the shown page, else of the first that has one.
[[nodiscard]] QString troubleOf(const std::vector<PageSheet>& sheets, std::size_t shown);

/// What the user may do with the shown page, in a line or two.
[[nodiscard]] QString adviceOn(const std::vector<PageSheet>& sheets, std::size_t shown);

/// Wanted pages with their chosen grids, and their numbers from 1 in the list.
struct ChosenPages {
    std::vector<trace::Page> pages;
    std::vector<std::vector<trace::FoundGrid>> grids;
    std::vector<int> numbers;
};
[[nodiscard]] ChosenPages chosenOf(const std::vector<PageSheet>& sheets);

/// Lets go of pictures of pages that nobody wants, all but a few near the shown one; they are read
/// anew when they are looked at.
void forgetPictures(std::vector<PageSheet>& sheets, std::size_t shown);

/// Which pages belong to the chart, each to be ticked.
class PageList : public QWidget {
    Q_OBJECT

  public:
    explicit PageList(QWidget* parent = nullptr);

    /// Takes on the pages; ticks and what is said of each follow from them.
    void show(const std::vector<PageSheet>& sheets);
    void setCurrent(int page);

  Q_SIGNALS:
    void ticked(int page, bool on);
    void allAsked();
    void currentChanged(int page);

  private:
    QListWidget* m_list;
    QPushButton* m_all;
};

} // namespace otherskein::app
