// Any bytes are a key or one InputError; a key keeps what its reader promises.
#include "base/input_error.h"
#include "chart/key.h"
#include "thread/thread.h"

#include <QSet>
#include <QString>

#include <cstddef>
#include <cstdint>
#include <cstdlib>

using namespace otherskein;

namespace {

void expect(bool held) {
    if (!held) {
        std::abort();
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const QByteArray bytes(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    try {
        const chart::Key key = chart::parseKey(bytes, QStringLiteral("key.csv"));
        expect(!key.empty());
        QSet<QString> pixels;
        for (const chart::KeyRow& row : key) {
            expect(row.strands >= 1 && row.strands <= thread::limits::kMostStrands);
            expect(row.stitches >= 0);
            pixels.insert(colour::toHex(row.pixel));
        }
        expect(pixels.size() == static_cast<qsizetype>(key.size()));
    } catch (const base::InputError& error) {
        expect(!error.line().isEmpty() && !error.line().contains(u'\n'));
    }
    return 0;
}
