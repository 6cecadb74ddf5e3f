#include "app/frame/session.h"

#include "base/whole_file.h"
#include "thread/ground_csv.h"

#include <QFileInfo>

namespace otherskein::app {

namespace {

const QString kGroundSetting = QStringLiteral("ground");
const QString kKeySetting = QStringLiteral("key");
const QString kKeyNameSetting = QStringLiteral("key_name");
const QString kWantedCardSetting = QStringLiteral("wanted_card");
const QString kWantedCodeSetting = QStringLiteral("wanted_code");

QByteArray demoFile(const QString& name) {
    return base::readWholeFile(QStringLiteral(":/demo/") + name, thread::limits::kMostCardBytes);
}

} // namespace

Session::Session(workbox::Document& document, QObject* parent)
    : QObject(parent), m_document(document) {
    const auto forget = [this] {
        m_cards.reset();
        Q_EMIT cardsChanged();
    };
    connect(&document, &workbox::Document::cardsChanged, this, forget);
    connect(&document, &workbox::Document::threadsChanged, this, forget);
    connect(&document, &workbox::Document::groundsChanged, this, &Session::groundChanged);

    workbox::Store& store = document.store();
    if (const QString key = store.setting(kKeySetting); !key.isEmpty()) {
        m_keyName = store.setting(kKeyNameSetting);
        m_key = chart::parseKey(key.toUtf8(), m_keyName);
    }
    if (const auto wanted =
            wantedThread(store.setting(kWantedCardSetting), store.setting(kWantedCodeSetting))) {
        m_wanted = *wanted;
    }
}

thread::Ground Session::ground() const {
    if (const auto id = groundId()) {
        return m_document.ground(*id)->ground;
    }
    return thread::groundOfSrgb(tr("White evenweave"), {0xf4, 0xf3, 0xef});
}

std::optional<workbox::GroundId> Session::groundId() const {
    const auto chosen = workbox::GroundId{m_document.store().setting(kGroundSetting).toLongLong()};
    if (m_document.ground(chosen) != nullptr) {
        return chosen;
    }
    if (!m_document.grounds().empty()) {
        return m_document.grounds().front().id;
    }
    return std::nullopt;
}

void Session::chooseGround(workbox::GroundId id) {
    m_document.store().setSetting(kGroundSetting, QString::number(static_cast<qint64>(id)));
    Q_EMIT groundChanged();
}

void Session::openKey(const QString& path) {
    takeKey(base::readWholeFile(path, chart::kMostKeyBytes), path);
}

void Session::takeKey(const QByteArray& bytes, const QString& name) {
    m_key = chart::parseKey(bytes, name); // throws before anything is changed
    m_keyName = QFileInfo(name).fileName();
    m_document.store().setSetting(kKeySetting, QString::fromUtf8(bytes));
    m_document.store().setSetting(kKeyNameSetting, m_keyName);
    Q_EMIT keyChanged();
}

void Session::clearKey() {
    m_key.clear();
    m_keyName.clear();
    m_document.store().setSetting(kKeySetting, {});
    Q_EMIT keyChanged();
}

void Session::setWanted(const colourway::Wanted& wanted) {
    if (wanted == m_wanted) {
        return;
    }
    m_wanted = wanted;
    m_document.store().setSetting(kWantedCardSetting, wanted.card);
    m_document.store().setSetting(kWantedCodeSetting, wanted.code);
    Q_EMIT wantedChanged();
}

std::optional<colourway::Wanted> Session::wantedThread(const QString& card,
                                                       const QString& code) const {
    const workbox::StoredCard* stored = m_document.cardNamed(card);
    if (stored == nullptr) {
        return std::nullopt;
    }
    for (const workbox::StoredThread& one : stored->threads) {
        if (one.thread.code == code) {
            return colourway::Wanted{card, code, one.thread.name, one.thread.lab, one.thread};
        }
    }
    return std::nullopt;
}

const Session::Cards& Session::cards() {
    if (!m_cards) {
        auto cards = std::make_shared<std::vector<thread::ShadeCard>>();
        for (const workbox::StoredCard& card : m_document.cards()) {
            cards->push_back(m_document.shadeCard(card.id));
        }
        m_cards = std::move(cards);
    }
    return m_cards;
}

void Session::openDemo() {
    std::vector<thread::ShadeCard> cards;
    for (const char* name : {"lanternfold-cotton", "mossip-silk", "tarrow-wool"}) {
        const QString file = QString::fromLatin1(name) + QStringLiteral(".csv");
        cards.push_back(thread::parseShadeCard(demoFile(file), file));
    }
    const QString grounds = QStringLiteral("grounds.csv");
    const QString key = QStringLiteral("harbour-row.key.csv");
    m_document.addAll(cards, thread::parseGrounds(demoFile(grounds), grounds), tr("Open the demo"));
    takeKey(demoFile(key), key);
    if (const auto wanted = wantedThread(cards.front().name, QStringLiteral("LF-218"))) {
        setWanted(*wanted);
    }
}

} // namespace otherskein::app
