#pragma once

#include "app/frame/session.h"
#include "app/threads/chosen_threads.h"
#include "app/threads/thread_model.h"
#include "app/threads/threads_place.h"

#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include <memory>

namespace otherskein::tests {

[[nodiscard]] inline thread::Thread threadOf(const char* code, const char* name, const char* hex) {
    return thread::threadOfSrgb(QString::fromLatin1(code), QString::fromLatin1(name),
                                *colour::parseHex(QString::fromLatin1(hex)));
}

/// The place Threads alone in a window, on a workbox with two small cards.
struct OpenThreads {
    QTemporaryDir folder;
    workbox::Document document{folder.filePath(QStringLiteral("workbox.sqlite"))};
    app::Session session{document};
    std::unique_ptr<app::ThreadsPlace> place;
    workbox::CardId harbour{};
    workbox::CardId moor{};

    OpenThreads() {
        thread::ShadeCard one{QStringLiteral("harbour"), {}, {}};
        one.threads = {threadOf("H-2", "Rust", "#a04020"), threadOf("H-10", "Slate", "#405060"),
                       threadOf("H-1", "Sail", "#f2f0ec"), threadOf("H-21", "Tar", "#202020")};
        one.threads[1].stash = 1.5;
        one.threads[3].stock = thread::Stock::Out;
        thread::ShadeCard other{QStringLiteral("moor"),
                                {},
                                {QStringLiteral("code"), QStringLiteral("name"),
                                 QStringLiteral("srgb"), QStringLiteral("drawer")}};
        other.threads = {threadOf("M-1", "Heather", "#8060a0"), threadOf("M-2", "Moss", "#607030")};
        for (thread::Thread& thread : other.threads) {
            thread.extra = {QStringLiteral("upper")};
        }
        harbour = document.addCard(one);
        moor = document.addCard(other);
        place = std::make_unique<app::ThreadsPlace>(session);
        place->resize(1194, 776);
        place->show();
        [[maybe_unused]] const bool shown = QTest::qWaitForWindowExposed(place.get());
    }

    [[nodiscard]] app::ThreadModel& model() const { return place->model(); }

    [[nodiscard]] QStringList codes() const {
        QStringList result;
        for (int row = 0; row < model().rowCount(); ++row) {
            result.push_back(model().item(row).thread.code);
        }
        return result;
    }

    [[nodiscard]] QStringList chosenCodes() const {
        QStringList result;
        for (const app::ThreadRef& one : place->chosen().threads()) {
            result.push_back(model().item(model().rowOf(one)).thread.code);
        }
        return result;
    }

    [[nodiscard]] int rowOf(const char* code) const {
        return static_cast<int>(codes().indexOf(QString::fromLatin1(code)));
    }

    void choose(const QStringList& wanted) const {
        std::vector<app::ThreadRef> threads;
        for (int row = 0; row < model().rowCount(); ++row) {
            if (wanted.contains(model().item(row).thread.code)) {
                threads.push_back(model().item(row).ref);
            }
        }
        place->chosen().choose(threads);
    }

    template <typename Change>
    void change(const Change& how) const {
        app::ThreadsState state = place->state();
        how(state);
        place->setState(state);
    }

    void showTable() const {
        change([](app::ThreadsState& state) { state.view = app::ThreadsView::Table; });
    }

    /// The shown control of that accessible name, or null.
    template <typename Widget>
    [[nodiscard]] Widget* control(const char* name) const {
        for (auto* one : place->template findChildren<Widget*>()) {
            if (one->accessibleName() == QLatin1String(name) && one->isVisible()) {
                return one;
            }
        }
        return nullptr;
    }

    [[nodiscard]] thread::Thread stored(const char* code) const {
        for (const workbox::StoredCard& card : document.cards()) {
            for (const workbox::StoredThread& one : card.threads) {
                if (one.thread.code == QLatin1String(code)) {
                    return one.thread;
                }
            }
        }
        return {};
    }
};

} // namespace otherskein::tests
