#include "cli/detail/card_finder.h"

#include "cli/detail/similar.h"
#include "workbox/document.h"

#include <QCoreApplication>
#include <QFileInfo>

#include <algorithm>

namespace otherskein::cli {

namespace {

struct CardFinderTexts {
    Q_DECLARE_TR_FUNCTIONS(CardFinder)
};

bool isFile(const QString& word) {
    const QFileInfo info(word);
    return info.exists() && !info.isDir();
}

const thread::Thread& threadOn(const thread::ShadeCard& card, const QString& word,
                               const QString& code) {
    if (const thread::Thread* found = thread::findThread(card, code)) {
        return *found;
    }
    QStringList codes;
    for (const thread::Thread& one : card.threads) {
        codes.push_back(one.code);
    }
    throw base::InputError({word,
                            {},
                            QStringLiteral("code"),
                            CardFinderTexts::tr("a code of this card"),
                            base::quotedForMessage(code) + similarHint(code, codes)});
}

} // namespace

CardFinder::CardFinder(const Call& call)
    : m_workboxPath(call.workboxPath), m_workboxNamed(call.workboxNamed) {}

CardFinder::~CardFinder() = default;

const thread::ShadeCard& CardFinder::open(const QString& word) {
    if (isFile(word)) {
        std::unique_ptr<const thread::ShadeCard>& card =
            m_files[QFileInfo(word).canonicalFilePath()];
        if (!card) {
            card = std::make_unique<const thread::ShadeCard>(thread::readShadeCard(word));
        }
        return *card;
    }
    if (const thread::ShadeCard* card = workboxCard(word)) {
        return *card;
    }
    throw noSuchCard(word);
}

std::vector<const thread::ShadeCard*> CardFinder::openAll(const QStringList& words) {
    std::vector<const thread::ShadeCard*> cards;
    for (const QString& word : words) {
        const thread::ShadeCard* card = &open(word);
        if (std::ranges::find(cards, card) == cards.end()) {
            cards.push_back(card);
        }
    }
    return cards;
}

CardFinder::Chosen CardFinder::thread(const QString& option, const QString& word) {
    const qsizetype last = word.lastIndexOf(QLatin1Char(':'));
    if (last <= 0 || last == word.size() - 1) {
        throw badWord(option, CardFinderTexts::tr("CARD:CODE, a shade card and a code on it"),
                      base::quotedForMessage(word));
    }
    for (qsizetype colon = last; colon > 0; colon = word.lastIndexOf(QLatin1Char(':'), colon - 1)) {
        if (const QString left = word.left(colon); isCard(left)) {
            const thread::ShadeCard& card = open(left);
            return {&card, &threadOn(card, left, word.mid(colon + 1).trimmed())};
        }
    }
    throw noSuchCard(word.left(last));
}

bool CardFinder::isCard(const QString& word) {
    return isFile(word) || workboxCard(word);
}

const std::vector<thread::ShadeCard>& CardFinder::workboxCards() {
    if (!m_workboxCards) {
        m_workboxCards.emplace();
        if (QFileInfo::exists(m_workboxPath)) {
            const workbox::Document document(m_workboxPath);
            for (const workbox::StoredCard& stored : document.cards()) {
                m_workboxCards->push_back(document.shadeCard(stored.id));
            }
        } else if (m_workboxNamed) {
            throw base::InputError({m_workboxPath,
                                    {},
                                    {},
                                    CardFinderTexts::tr("a workbox"),
                                    CardFinderTexts::tr("none there")});
        }
    }
    return *m_workboxCards;
}

const thread::ShadeCard* CardFinder::workboxCard(const QString& name) {
    const auto& cards = workboxCards();
    const auto found = std::ranges::find(cards, name, &thread::ShadeCard::name);
    return found == cards.end() ? nullptr : &*found;
}

base::InputError CardFinder::noSuchCard(const QString& word) {
    QStringList names;
    for (const thread::ShadeCard& card : workboxCards()) {
        names.push_back(card.name);
    }
    return base::InputError(
        {word.isEmpty() ? QStringLiteral("\"\"") : word,
         {},
         {},
         CardFinderTexts::tr("a shade card file, or the name of a card in the workbox"),
         CardFinderTexts::tr("neither") + similarHint(word, names)});
}

} // namespace otherskein::cli
