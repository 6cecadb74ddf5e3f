// Any bytes are a shade card or one InputError; a card comes back equal from its own file.
#include "base/input_error.h"
#include "thread/shade_card.h"

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
    const QString source = QStringLiteral("card.csv");
    thread::ShadeCard card;
    try {
        card = thread::parseShadeCard(bytes, source);
    } catch (const base::InputError& error) {
        expect(!error.line().isEmpty() && !error.line().contains(u'\n'));
        return 0;
    }
    // From here on nothing may be refused. A card from CGATS has no columns until it is written.
    const thread::ShadeCard again = thread::parseShadeCard(thread::shadeCardCsv(card), source);
    expect(again.threads == card.threads && (card.columns.empty() || again == card));
    expect(thread::parseShadeCard(thread::shadeCardCsv(again), source) == again);
    return 0;
}
