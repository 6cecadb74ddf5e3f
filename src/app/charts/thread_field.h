#pragma once

#include "app/frame/session.h"

#include <QLineEdit>

class QCompleter;
class QStandardItemModel;

namespace otherskein::app {

/// The field where a key row's thread is typed: a code, a name or `#rrggbb`, with a list of the
/// workbox's threads below. Nothing counts before Enter, or a choice from the list.
class ThreadField : public QLineEdit {
    Q_OBJECT

  public:
    explicit ThreadField(Session& session, QWidget* parent = nullptr);

    /// The thread in force; gives up what is half typed.
    void showText(const QString& text);

  Q_SIGNALS:
    void meant(const otherskein::colourway::Wanted& thread);
    void nothingMeant(const QString& text);
    /// The row so many further down the key, by an arrow key while nothing is half typed.
    void rowAsked(int down);

  protected:
    bool event(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    Session& m_session;
    QCompleter* m_completer;
    QStandardItemModel* m_offers;
    std::vector<colourway::Wanted> m_offered;
    QString m_settled;

    void look(const QString& text);
    void take();
    void settle();
};

} // namespace otherskein::app
