#include "cli/detail/key_colours.h"

#include "base/input_error.h"

#include <QCoreApplication>
#include <QFile>
#include <QFileInfo>

namespace otherskein::cli {

namespace {

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(KeyColours)
};

} // namespace

const thread::Thread* threadOf(const chart::KeyRow& row,
                               std::span<const thread::ShadeCard* const> cards) {
    for (const thread::ShadeCard* card : cards) {
        if (row.card.isEmpty() || row.card == card->name) {
            if (const thread::Thread* thread = thread::findThread(*card, row.code)) {
                return thread;
            }
        }
    }
    return nullptr;
}

chart::Key keyWithColours(const QString& path, std::span<const thread::ShadeCard* const> cards) {
    chart::Key key = chart::readKey(path);
    for (chart::KeyRow& row : key) {
        if (const thread::Thread* thread = threadOf(row, cards)) {
            row.lab = thread->lab;
        }
    }
    return key;
}

void checkChartPicture(const QString& path) {
    const QByteArray signature("\x89PNG\r\n\x1a\n", 8); // ISO/IEC 15948, 5.2
    const auto bad = [&](const QString& found) {
        return base::InputError({path, {}, {}, Texts::tr("a chart picture (PNG)"), found});
    };
    if (!QFileInfo::exists(path)) {
        throw bad(Texts::tr("none there"));
    }
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        throw bad(file.errorString());
    }
    if (file.read(signature.size()) != signature) {
        throw bad(Texts::tr("another kind of file"));
    }
}

QString chartNote() {
    return Texts::tr("The key alone is looked at: the chart picture itself is not read yet.");
}

} // namespace otherskein::cli
