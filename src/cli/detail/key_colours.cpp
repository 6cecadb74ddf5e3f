#include "cli/detail/key_colours.h"

#include "base/input_error.h"
#include "colourway/key_threads.h"

#include <QCoreApplication>
#include <QFile>
#include <QFileInfo>

namespace otherskein::cli {

namespace {

struct Texts {
    Q_DECLARE_TR_FUNCTIONS(KeyColours)
};

} // namespace

chart::Key keyWithColours(const QString& path, std::span<const thread::ShadeCard* const> cards) {
    return colourway::withThreadColours(chart::readKey(path), cards);
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
