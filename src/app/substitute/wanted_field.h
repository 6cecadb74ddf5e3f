#pragma once

#include "app/frame/session.h"

#include <QLineEdit>

class QCompleter;
class QStandardItemModel;

namespace otherskein::app {

/// The field where the wanted thread is typed: a code, a name or `#rrggbb`. The best match counts
/// at once, while typing; a list below offers the others.
class WantedField : public QLineEdit {
    Q_OBJECT

  public:
    explicit WantedField(Session& session, QWidget* parent = nullptr);

    /// Shows the thread in force, unless the user is in the middle of typing.
    void showWanted(const colourway::Wanted& wanted);

  Q_SIGNALS:
    void meant(const otherskein::colourway::Wanted& wanted);
    /// What is typed fits nothing.
    void nothingMeant(const QString& text);

  protected:
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    Session& m_session;
    QCompleter* m_completer;
    QStandardItemModel* m_offers;
    std::vector<colourway::Wanted> m_offered;
    QString m_settled; ///< the text of the thread in force
    colourway::Wanted m_shown;
    std::optional<colourway::Wanted>
        m_before; ///< in force when typing began; Escape goes back to it

    void look(const QString& text);
    void settle();
    void giveUp();
};

} // namespace otherskein::app
