#include "base/natural_order.h"

#include <algorithm>

namespace otherskein::base {

QString naturalKey(const QString& text) {
    const QString folded = text.toCaseFolded();
    QString key;
    key.reserve(folded.size() + 4);
    for (qsizetype i = 0; i < folded.size();) {
        if (!folded[i].isDigit()) {
            key.append(folded[i++]);
            continue;
        }
        while (i + 1 < folded.size() && folded[i] == u'0' && folded[i + 1].isDigit()) {
            ++i;
        }
        qsizetype end = i;
        while (end < folded.size() && folded[end].isDigit()) {
            ++end;
        }
        // The length stands among the digits, so that numbers still sort between signs and letters.
        key.append(QChar(static_cast<char16_t>(u'0' + std::min<qsizetype>(end - i, 9))));
        key.append(QStringView(folded).mid(i, end - i));
        i = end;
    }
    return key;
}

} // namespace otherskein::base
