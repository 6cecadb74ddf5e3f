#pragma once

#include <QDoubleSpinBox>

#include <optional>

namespace otherskein::app {

/// Skeins owned, in halves by the arrows and in hundredths by typing. Can also say that several
/// threads differ.
class StashBox : public QDoubleSpinBox {
    Q_OBJECT

  public:
    explicit StashBox(QWidget* parent = nullptr);

    /// Nothing: the threads have different stashes. Does not emit.
    void show(std::optional<double> stash);

  Q_SIGNALS:
    void chosen(double stash);

  protected:
    [[nodiscard]] QString textFromValue(double value) const override;
    [[nodiscard]] double valueFromText(const QString& text) const override;
    QValidator::State validate(QString& text, int& position) const override;
};

} // namespace otherskein::app
