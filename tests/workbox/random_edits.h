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
        switch (bare ? 0 : below(26)) {
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
            addChart();
            break;
        case 14:
        case 15:
            stitch({});
            break;
        case 16:
            stitch(QStringLiteral("stroke")); // one edit a step: a kill may come between any two
            break;
        case 17:
            planMotifs();
            break;
        case 18:
            colourway();
            break;
        case 19:
            renameOrRemoveChart();
            break;
        case 20:
        case 21:
            m_document.undoStack().undo();
            break;
        case 22:
            addTraced();
            break;
        case 23:
            accept();
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

    void addChart() {
        chart::Chart chart;
        chart.name = QStringLiteral("Chart"); // often taken
        for (std::uint8_t i = 0; i < 3; ++i) {
            chart::KeyRow row;
            row.pixel = {i, static_cast<std::uint8_t>(below(256)), 7};
            row.code = word();
            chart.key.push_back(row);
        }
        chart.grid = chart::Grid(static_cast<int>(1 + below(90)), static_cast<int>(1 + below(90)));
        for (chart::KeyIndex& cell : chart.grid.cells()) {
            const std::size_t key = below(4);
            cell = key < 3 ? static_cast<chart::KeyIndex>(key) : chart::kBare;
        }
        m_document.addChart(chart);
    }

    /// Some of the charts, or none.
    std::optional<ChartId> chartId() {
        const auto charts = m_document.charts();
        return charts.empty() ? std::nullopt : std::optional(charts[below(charts.size())].id);
    }

    void addTraced() {
        chart::Chart chart;
        chart.name = QStringLiteral("Traced");
        chart.grid = chart::Grid(static_cast<int>(1 + below(40)), static_cast<int>(1 + below(40)));
        TracedPage page{word().toUtf8(), 12, {}};
        for (std::size_t left = chart.grid.cells().size(); left > 0; --left) {
            page.confidence.push_back(static_cast<std::uint8_t>(below(256)));
        }
        for (std::uint8_t i = 0; i < 3; ++i) {
            chart::KeyRow row;
            row.pixel = {i, 3, 3};
            chart.key.push_back(row);
        }
        m_document.addTracedChart(chart, page);
    }

    /// Some cells of some traced chart, if there is one.
    void accept() {
        for (const ChartFacts& facts : m_document.charts()) {
            if (!m_document.tracedPage(facts.id)) {
                continue;
            }
            std::vector<chart::Cell> cells;
            for (std::size_t left = 1 + below(4); left > 0; --left) {
                cells.push_back({static_cast<int>(below(static_cast<std::size_t>(facts.columns))),
                                 static_cast<int>(below(static_cast<std::size_t>(facts.rows)))});
            }
            m_document.setSeen(facts.id, cells, below(3) > 0, QStringLiteral("Accept"),
                               QStringLiteral("accept"));
            return;
        }
    }

    void stitch(const QString& mergeKey) {
        if (const auto id = chartId()) {
            chart::Chart after = *m_document.chart(*id);
            for (std::size_t left = 1 + below(5); left > 0; --left) {
                after.grid.cells()[below(after.grid.cells().size())] =
                    static_cast<chart::KeyIndex>(below(3));
            }
            if (below(3) == 0) {
                after.key[below(3)].name = word();
            }
            if (below(4) == 0) {
                after.lines.push_back({0, 0, 1, 2, static_cast<chart::KeyIndex>(below(3))});
            }
            m_document.changeChart(*id, after, QStringLiteral("Stitch"), mergeKey);
        }
    }

    void planMotifs() {
        if (const auto id = chartId()) {
            chart::MotifPlan plan = m_document.motifPlan(*id);
            plan.step = static_cast<int>(below(chart::kMotifSteps));
            if (below(2) == 0) {
                plan.edits.emplace_back(chart::NameMotif{{1, 2}, word()});
            }
            m_document.changeMotifPlan(*id, plan, QStringLiteral("Motifs"),
                                       QStringLiteral("slider"));
        }
    }

    void colourway() {
        if (const auto id = chartId()) {
            const auto known = m_document.colourways(*id);
            const QByteArray content = "{\"n\":" + QByteArray::number(qulonglong(below(99))) + '}';
            if (known.size() < 2) {
                m_document.addColourway(*id, word(), content);
            } else if (below(2) == 0) {
                m_document.changeColourway(known.front().id, word(), content,
                                           QStringLiteral("Take"));
            } else {
                m_document.removeColourway(known.back().id);
            }
        }
    }

    void renameOrRemoveChart() {
        if (const auto id = chartId()) {
            if (below(2) == 0) {
                m_document.renameChart(*id, word());
            } else {
                m_document.removeChart(*id);
            }
        }
    }

    void removeGround() {
        if (!m_document.grounds().empty()) {
            m_document.removeGround(m_document.grounds()[below(m_document.grounds().size())].id);
        }
    }
};

} // namespace otherskein::workbox
