#include "app/recolour/part_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace otherskein::app {

namespace {

struct PartWords {
    Q_DECLARE_TR_FUNCTIONS(PartWords)
};

} // namespace

QString partName(const colourway::Subject& subject, std::size_t part) {
    const colourway::Part& one = subject.parts.parts[part];
    if (subject.parts.by == colourway::By::Motif) {
        return one.label.isEmpty() ? PartWords::tr("Motif %1").arg(part + 1) : one.label;
    }
    const chart::KeyRow& row = subject.chart.key[one.key];
    const QString thread = row.name.isEmpty() ? row.code : row.name;
    return one.label + (thread.isEmpty() ? QString() : QLatin1Char(' ') + thread);
}

QString codeText(const colourway::Choice& choice) {
    if (choice.portions.empty() || choice.code().isEmpty()) {
        return colour::toHex(colourway::shownColour(choice));
    }
    if (!choice.isBlend() || choice.portions[0].strands == choice.portions[1].strands) {
        return choice.code();
    }
    const auto& one = choice.portions[0];
    const auto& other = choice.portions[1];
    return PartWords::tr("%1 × %2 + %3 × %4")
        .arg(one.strands)
        .arg(one.thread.code)
        .arg(other.strands)
        .arg(other.thread.code);
}

QString threadText(const colourway::Choice& choice) {
    const QString name = choice.name();
    return codeText(choice) + (name.isEmpty() ? QString() : QLatin1Char(' ') + name);
}

bool isSameWork(const colourway::Colourway& one, const colourway::Colourway& other) {
    return std::ranges::equal(one.now, other.now,
                              [](const colourway::Choice& a, const colourway::Choice& b) {
                                  return a.isSameAs(b) && a.lab == b.lab;
                              });
}

} // namespace otherskein::app
