#pragma once

#include "app/frame/session.h"
#include "app/threads/card_import.h"
#include "app/threads/threads_state.h"

#include <QWidget>

namespace otherskein::app {

class ChosenThreads;
class ThreadModel;

/// Threads: what do I have, and what colour is it? Shade cards as a wall of chips and as a table,
/// stash and stock, import.
class ThreadsPlace : public QWidget {
    Q_OBJECT

  public:
    explicit ThreadsPlace(Session& session, QWidget* parent = nullptr);
    ~ThreadsPlace() override;

    [[nodiscard]] const ThreadsState& state() const;
    void setState(const ThreadsState& state);
    [[nodiscard]] ThreadModel& model() const;
    [[nodiscard]] ChosenThreads& chosen() const;

    void askForFiles();
    /// Each file is read for itself: one that is refused does not keep the others out.
    void importFiles(const QStringList& paths);
    /// Answers for the user where a card's name is in the workbox already; nothing: asks.
    void setSameName(std::optional<SameName> answer);
    void focusSearch();

  Q_SIGNALS:
    void told(const QString& text);
    void refused(const QString& line);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    struct Private;
    std::unique_ptr<Private> m_private;

    void connectParts();
    void showChosen();
    void findSubstitute();
    void deleteChosen();
    void deleteCard();
    void newCard();
    void askForExport();
    void openMenu(const QPoint& globalPosition);
};

} // namespace otherskein::app
