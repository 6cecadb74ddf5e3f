#include "cli/detail/grounds_named.h"

#include "cli/detail/values.h"
#include "workbox/store.h"

#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>

namespace otherskein::cli {

namespace {

struct GroundsNamedTexts {
    Q_DECLARE_TR_FUNCTIONS(GroundsNamed)
};

std::vector<workbox::StoredGround> workboxGrounds(const Call& call) {
    if (!call.workboxNamed && !QFileInfo::exists(call.workboxPath)) {
        return {};
    }
    return workbox::Store(call.workboxPath).grounds();
}

thread::Ground groundNamed(const QString& word, const Call& call) {
    // What begins like a colour is meant as one.
    if (colour::parseHex(word.trimmed()) || word.startsWith(QLatin1Char('#'))) {
        return thread::groundOfSrgb(QString(), colourOf(QStringLiteral("--ground"), word));
    }
    const auto grounds = workboxGrounds(call);
    const auto found = std::ranges::find_if(
        grounds, [&](const workbox::StoredGround& one) { return one.ground.name == word; });
    if (found != grounds.end()) {
        return found->ground;
    }
    throw badWord(QStringLiteral("--ground"),
                  GroundsNamedTexts::tr("#rrggbb or the name of a ground in the workbox"),
                  base::quotedForMessage(word));
}

} // namespace

std::vector<thread::Ground> groundsOf(const CommandLine& line, const Call& call) {
    std::vector<thread::Ground> grounds;
    for (const QString& word : line.words("--ground")) {
        thread::Ground ground = groundNamed(word, call);
        ground.count = wholeNumber(line, "--count", thread::limits::kLeastCount,
                                   thread::limits::kMostCount, ground.count);
        ground.over = wholeNumber(line, "--over", 1, thread::limits::kMostOver, ground.over);
        grounds.push_back(std::move(ground));
    }
    return grounds;
}

} // namespace otherskein::cli
