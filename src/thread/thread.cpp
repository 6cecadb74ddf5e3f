#include "thread/thread.h"

#include "colour/conversion.h"

#include <array>
#include <utility>

namespace otherskein::thread {

namespace {

template <typename Value>
using Words = std::array<std::pair<Value, const char*>, 5>;

constexpr Words<Finish> kFinishes{{{Finish::Unstated, ""},
                                   {Finish::Matt, "matt"},
                                   {Finish::Satin, "satin"},
                                   {Finish::Metallic, "metallic"},
                                   {Finish::Variegated, "variegated"}}};
constexpr std::array<std::pair<Stock, const char*>, 4> kStocks{
    {{Stock::Unstated, ""},
     {Stock::In, "in"},
     {Stock::Out, "out"},
     {Stock::Discontinued, "discontinued"}}};

template <typename Table, typename Value>
QString wordIn(const Table& table, Value value) {
    for (const auto& [one, word] : table) {
        if (one == value) {
            return QString::fromLatin1(word);
        }
    }
    return {};
}

template <typename Value, typename Table>
std::optional<Value> valueIn(const Table& table, const QString& word) {
    for (const auto& [value, one] : table) {
        if (word == QLatin1String(one)) {
            return value;
        }
    }
    return std::nullopt;
}

} // namespace

Thread threadOfSrgb(QString code, QString name, const colour::Srgb8& srgb) {
    Thread thread;
    thread.code = std::move(code);
    thread.name = std::move(name);
    thread.lab = colour::labFromSrgb(srgb);
    thread.entered = srgb;
    return thread;
}

colour::Srgb8 shownColour(const Thread& thread) {
    return thread.entered ? *thread.entered : colour::srgbFromLab(thread.lab);
}

QString wordOf(Finish finish) {
    return wordIn(kFinishes, finish);
}

QString wordOf(Stock stock) {
    return wordIn(kStocks, stock);
}

std::optional<Finish> finishOf(const QString& word) {
    return valueIn<Finish>(kFinishes, word);
}

std::optional<Stock> stockOf(const QString& word) {
    return valueIn<Stock>(kStocks, word);
}

} // namespace otherskein::thread
