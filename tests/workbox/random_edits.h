#pragma once

#include "workbox/document.h"

#include <random>

namespace otherskein::workbox {

/// Edits a document at random. The same seed on the same contents makes the same edits, so that
/// what a killed program did can be done again elsewhere.
class RandomEdits {
  public:
    RandomEdits(Document& document, quint64 seed) : m_document(document), m_engine(seed) {}

    void step() {
        const bool bare = m_document.cards().size() < 2;
        switch (bare ? 0 : below(16)) {
        case 0:
            addCard();
            break;
        case 1:
            m_document.renameCard(card().id, word());
            break;
        case 2:
            m_document.removeCard(card().id);
            break;
        case 3:
            merge();
            break;
        case 4:
        case 5:
            m_document.addThread(card().id, thread());
            break;
        case 6:
        case 7:
            changeSome({});
            break;
        case 8:
            changeSome(QStringLiteral("key"));
            break;
        case 9:
            removeSome();
            break;
        case 10:
            m_document.addGround(ground());
            break;
        case 11:
            changeGround();
            break;
        case 12:
            removeGround();
            break;
        case 13:
        case 14:
            m_document.undoStack().undo();
            break;
        default:
            m_document.undoStack().redo();
            break;
        }
    }

  private:
    Document& m_document;
    std::mt19937_64 m_engine;

    std::size_t below(std::size_t end) { return m_engine() % end; }

    QString word() { return QStringLiteral("w🧵%1").arg(m_engine(), 0, 16); }

    const StoredCard& card() { return m_document.cards()[below(m_document.cards().size())]; }

    thread::Thread thread() {
        const auto level = [this] { return static_cast<std::uint8_t>(below(256)); };
        thread::Thread result = thread::threadOfSrgb(word(), word(), {level(), level(), level()});
        result.stash = static_cast<double>(below(1000)) / 7;
        result.note = word().repeated(static_cast<qsizetype>(below(20)));
        return result;
    }

    thread::Ground ground() {
        thread::Ground result = thread::groundOfSrgb(word(), {1, 2, 3});
        result.count = static_cast<int>(10 + below(40));
        return result;
    }

    void addCard() {
        thread::ShadeCard card;
        card.name = QStringLiteral("Card"); // often taken
        card.columns = {QStringLiteral("code"), QStringLiteral("name"), word()};
        for (std::size_t left = below(8) == 0 ? 600 : below(30); left > 0; --left) {
            card.threads.push_back(thread());
            card.threads.back().extra = {word()};
        }
        m_document.addCard(card);
    }

    void merge() {
        const CardId id = card().id;
        thread::ShadeCard file = m_document.shadeCard(id);
        for (std::size_t i = 0; i < file.threads.size(); i += 1 + below(5)) {
            file.threads[i].name = word();
        }
        file.threads.push_back(thread());
        m_document.mergeCard(id, file);
    }

    void changeSome(const QString& mergeKey) {
        const StoredCard& on = card();
        std::map<ThreadId, thread::Thread> after;
        for (std::size_t i = below(4); i < on.threads.size(); i += 1 + below(6)) {
            thread::Thread changed = on.threads[i].thread;
            changed.stash = static_cast<double>(below(10));
            after.emplace(on.threads[i].id, changed);
        }
        if (after.size() > 1 && mergeKey.isEmpty()) { // and two codes change places
            std::swap(after.begin()->second.code, after.rbegin()->second.code);
        }
        m_document.changeThreads(on.id, after, QStringLiteral("Change"), mergeKey);
    }

    void removeSome() {
        const StoredCard& on = card();
        std::vector<ThreadId> ids;
        for (std::size_t i = below(4); i < on.threads.size(); i += 1 + below(6)) {
            ids.push_back(on.threads[i].id);
        }
        m_document.removeThreads(on.id, ids);
    }

    void changeGround() {
        if (!m_document.grounds().empty()) {
            m_document.changeGround(m_document.grounds()[below(m_document.grounds().size())].id,
                                    ground());
        }
    }

    void removeGround() {
        if (!m_document.grounds().empty()) {
            m_document.removeGround(m_document.grounds()[below(m_document.grounds().size())].id);
        }
    }
};

} // namespace otherskein::workbox
