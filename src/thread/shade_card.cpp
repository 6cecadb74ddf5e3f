#include "thread/shade_card.h"

#include "base/whole_file.h"
#include "thread/cgats_text.h"
#include "thread/shade_card_cgats.h"
#include "thread/shade_card_csv.h"

#include <QFileInfo>

#include <algorithm>

namespace otherskein::thread {

std::vector<QString> extraColumns(const ShadeCard& card) {
    std::vector<QString> extra;
    std::ranges::copy_if(card.columns, std::back_inserter(extra), [](const QString& column) {
        return std::ranges::find(knownColumns(), column) == knownColumns().end();
    });
    return extra;
}

const Thread* findThread(const ShadeCard& card, const QString& code) {
    const auto found = std::ranges::find(card.threads, code, &Thread::code);
    return found == card.threads.end() ? nullptr : &*found;
}

ShadeCard readShadeCard(const QString& path) {
    return parseShadeCard(base::readWholeFile(path, limits::kMostCardBytes), path);
}

ShadeCard parseShadeCard(const QByteArray& bytes, const QString& source) {
    return looksLikeCgats(bytes) ? parseShadeCardCgats(bytes, source)
                                 : parseShadeCardCsv(bytes, source);
}

} // namespace otherskein::thread
