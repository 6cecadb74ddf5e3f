#include "colourway/colourway.h"

#include "colour/conversion.h"

#include <QStringList>

#include <algorithm>

namespace otherskein::colourway {

namespace {

template <typename Text>
QString joined(const Choice& choice, Text text) {
    QStringList parts;
    for (const Choice::Portion& portion : choice.portions) {
        if (const QString part = text(portion); !parts.contains(part)) {
            parts.push_back(part);
        }
    }
    return parts.join(QStringLiteral(" + "));
}

} // namespace

QString Choice::card() const {
    return joined(*this, [](const Portion& portion) { return portion.card; });
}

QString Choice::code() const {
    return joined(*this, [](const Portion& portion) { return portion.thread.code; });
}

QString Choice::name() const {
    return joined(*this, [](const Portion& portion) { return portion.thread.name; });
}

bool Choice::isInStash() const {
    return !portions.empty() && std::ranges::all_of(portions, [](const Portion& portion) {
        return portion.thread.stash > 0;
    });
}

bool Choice::isSameAs(const Choice& other) const {
    if (portions.empty() && other.portions.empty()) {
        return lab == other.lab;
    }
    return std::ranges::equal(portions, other.portions, [](const Portion& p, const Portion& q) {
        return p.card == q.card && p.thread.code == q.thread.code && p.strands == q.strands;
    });
}

colour::Srgb8 shownColour(const Choice& choice) {
    return choice.portions.size() == 1 ? thread::shownColour(choice.portions.front().thread)
                                       : colour::srgbFromLab(choice.lab);
}

} // namespace otherskein::colourway
