#include "cli/detail/similar.h"

#include <QCoreApplication>

#include <algorithm>
#include <numeric>
#include <tuple>
#include <vector>

namespace otherskein::cli {

namespace {

constexpr std::size_t kMostHints = 3;
constexpr qsizetype kLongest = 60; // nobody mistypes longer codes letter by letter

struct SimilarTexts {
    Q_DECLARE_TR_FUNCTIONS(Similar)
};

/// Levenshtein distance: letters to add, drop or change.
qsizetype editsBetween(const QString& one, const QString& other) {
    std::vector<qsizetype> row(static_cast<std::size_t>(other.size()) + 1);
    std::iota(row.begin(), row.end(), 0);
    for (const QChar letter : one) {
        qsizetype diagonal = row.front()++;
        for (std::size_t i = 1; i < row.size(); ++i) {
            const bool same = letter == other[static_cast<qsizetype>(i) - 1];
            const qsizetype changed = diagonal + (same ? 0 : 1);
            diagonal = row[i];
            row[i] = std::min({changed, row[i] + 1, row[i - 1] + 1});
        }
    }
    return row.back();
}

} // namespace

QStringList similarTo(const QString& text, const QStringList& among) {
    const QString wanted = text.left(kLongest).toCaseFolded();
    const qsizetype most = std::max<qsizetype>(1, wanted.size() / 3);
    std::vector<std::tuple<qsizetype, qsizetype, QString>> near; // edits, less what begins alike
    for (const QString& one : among) {
        if (one.size() > kLongest) {
            continue;
        }
        const QString folded = one.toCaseFolded();
        if (const qsizetype edits = editsBetween(wanted, folded); edits <= most) {
            const auto alike = std::ranges::mismatch(wanted, folded).in1 - wanted.begin();
            near.emplace_back(edits, -alike, one);
        }
    }
    std::ranges::sort(near);
    near.resize(std::min(near.size(), kMostHints));
    QStringList hints;
    for (const auto& candidate : near) {
        hints.push_back(std::get<QString>(candidate));
    }
    return hints;
}

QString similarHint(const QString& text, const QStringList& among) {
    const QStringList hints = similarTo(text, among);
    return hints.isEmpty()
               ? QString()
               : SimilarTexts::tr(" (near it: %1)").arg(hints.join(QStringLiteral(", ")));
}

} // namespace otherskein::cli
