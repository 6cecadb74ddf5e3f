#pragma once

#include "app/frame/session.h"
#include "app/ground/ground_state.h"

#include <QDialog>

class QListWidget;
class QListWidgetItem;
class QPushButton;

namespace otherskein::app {

class PieceForm;

/// The user's fabrics: a list with a tick for those that are shown, a form for the chosen one.
/// Every change is saved as it happens, and can be undone.
class GroundsDialog : public QDialog {
    Q_OBJECT

  public:
    GroundsDialog(Session& session, const GroundState& state, QWidget* parent = nullptr);

    [[nodiscard]] PieceForm& form() const { return *m_form; }

  Q_SIGNALS:
    void asked(const otherskein::app::GroundState& state);
    void refused(const QString& line);

  private:
    Session& m_session;
    GroundState m_state;
    QListWidget* m_list;
    PieceForm* m_form;
    QPushButton* m_remove;
    bool m_isSaving = false;

    void build();
    void showList();
    void showPiece();
    void save();
    void addPiece();
    void removePiece();
    void tick(QListWidgetItem* item);
    [[nodiscard]] std::optional<workbox::GroundId> chosen() const;
};

} // namespace otherskein::app
