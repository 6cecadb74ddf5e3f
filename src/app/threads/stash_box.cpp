#include "app/threads/stash_box.h"

#include "base/number.h"
#include "thread/thread.h"

#include <cmath>

namespace otherskein::app {

namespace {

constexpr double kStep = 0.5;

} // namespace

StashBox::StashBox(QWidget* parent) : QDoubleSpinBox(parent) {
    setDecimals(2);
    setSingleStep(kStep);
    setRange(0, thread::limits::kMostStash);
    setKeyboardTracking(false);
    setSpecialValueText(tr("various"));
    connect(this, &QDoubleSpinBox::valueChanged, this, [this](double value) {
        if (value >= 0) {
            Q_EMIT chosen(value);
        }
    });
}

void StashBox::show(std::optional<double> stash) {
    const QSignalBlocker quiet(this);
    // One step below nought stands for "various", so that an arrow leads from there to nought.
    setMinimum(stash ? 0 : -kStep);
    setSpecialValueText(stash ? QString() : tr("various"));
    setValue(stash.value_or(-kStep));
}

QString StashBox::textFromValue(double value) const {
    return base::formatNumber(std::round(value * 100) / 100);
}

double StashBox::valueFromText(const QString& text) const {
    QString plain = text;
    plain.replace(u',', u'.');
    return base::parseNumber(plain).value_or(value());
}

QValidator::State StashBox::validate(QString& text, int& /*position*/) const {
    if (text == specialValueText() && !text.isEmpty()) {
        return QValidator::Acceptable;
    }
    for (const QChar c : text) {
        if (!c.isDigit() && c != u'.' && c != u',') {
            return QValidator::Invalid;
        }
    }
    QString plain = text;
    plain.replace(u',', u'.');
    const auto typed = base::parseNumber(plain);
    return typed && *typed <= maximum() ? QValidator::Acceptable : QValidator::Intermediate;
}

} // namespace otherskein::app
