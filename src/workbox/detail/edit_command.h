#pragma once

#include "workbox/document.h"

#include <QUndoCommand>

#include <memory>

namespace otherskein::workbox {

/// One step of the undo history. The edit is done before the step is pushed, so that an error can
/// reach the caller; no exception may pass through QUndoStack. Hence the first redo does nothing.
class Document::EditCommand : public QUndoCommand {
  public:
    EditCommand(Document& document, std::shared_ptr<const Edit> edit, const QString& text,
                QString mergeKey);
    /// The same step again, for a shortened history. Shares the edit.
    EditCommand(const EditCommand& other);

    void undo() override;
    void redo() override;
    [[nodiscard]] int id() const override;
    bool mergeWith(const QUndoCommand* other) override;

    [[nodiscard]] std::size_t bytes() const { return m_bytes; }

  private:
    Document& m_document;
    std::shared_ptr<const Edit> m_edit;
    QString m_mergeKey;
    std::size_t m_bytes = 0;
    bool m_done = true; ///< until the first redo has passed
    bool m_isCopy = false;

    void carryOut(const Edit& edit);
};

} // namespace otherskein::workbox
