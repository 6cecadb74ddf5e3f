#include "app/charts/chart_desk.h"

#include "base/input_error.h"

#include <algorithm>

namespace otherskein::app {

namespace {

/// Whether two keys say the same, apart from how many stitches there are of each row.
bool saySame(const chart::Key& one, const chart::Key& other) {
    return std::ranges::equal(one, other, [](chart::KeyRow a, const chart::KeyRow& b) {
        a.stitches = b.stitches;
        return a == b;
    });
}

/// Where a row is now that rows before it came or went; none where it is gone.
std::optional<chart::KeyIndex> sameRow(const chart::KeyRow& row, const chart::Key& key) {
    const auto found = std::ranges::find_if(key, [&](const chart::KeyRow& one) {
        return one.symbol == row.symbol && one.pixel == row.pixel && one.code == row.code;
    });
    return found == key.end() ? std::nullopt
                              : std::optional(static_cast<chart::KeyIndex>(found - key.begin()));
}

} // namespace

ChartDesk::ChartDesk(Session& session, QObject* parent)
    : QObject(parent), m_session(session), m_finder(this) {
    workbox::Document& document = session.document();
    connect(&session, &Session::chartChosen, this, &ChartDesk::takeChart);
    connect(&document, &workbox::Document::chartsChanged, this, &ChartDesk::takeChart);
    connect(&document, &workbox::Document::chartChanged, this, &ChartDesk::takeChange);
    connect(&document, &workbox::Document::motifPlanChanged, this, [this](workbox::ChartId id) {
        if (id == m_id) {
            m_plan = this->document().motifPlan(id);
            Q_EMIT planChanged();
            findMotifs();
        }
    });
    connect(&document, &workbox::Document::tracedPageChanged, this, [this](workbox::ChartId id) {
        if (id == m_id) {
            m_page = this->document().tracedPage(id);
            Q_EMIT pageChanged();
        }
    });
    connect(&m_finder, &MotifFinder::found, this, [this](const MotifFinder::Answer& motifs) {
        m_motifs = motifs;
        // Two chosen cells may lie in one motif by now, or in none.
        ChartsState after = m_state;
        std::vector<chart::MotifIndex> seen;
        std::erase_if(after.motifs, [&](const chart::Cell& cell) {
            const chart::MotifIndex motif = motifs->at(cell);
            const bool gone =
                motif == chart::kNoMotif || std::ranges::find(seen, motif) != seen.end();
            seen.push_back(motif);
            return gone;
        });
        setState(after);
        Q_EMIT motifsChanged();
    });
    connect(&m_finder, &MotifFinder::failed, this, &ChartDesk::refused);
    takeChart();
}

bool ChartDesk::needsMotifs() const {
    return m_chart != nullptr && (m_state.outlines || m_state.page == ChartsPage::Motifs);
}

ChartsState ChartDesk::possible(const ChartsState& wanted) const {
    ChartsState after = wanted;
    const std::size_t rows = m_chart ? m_chart->key.size() : 0;
    if (after.row && *after.row >= rows) {
        after.row.reset();
    }
    if (m_page == nullptr) {
        after.pageView = PageView::Off;
    }
    if (after.current && (m_page == nullptr || !m_chart->grid.contains(*after.current))) {
        after.current.reset();
    }
    // Of a row and bare ground, what was chosen last.
    if (after.bare && (m_page == nullptr || (after.row && after.row != m_state.row))) {
        after.bare = false;
    } else if (after.bare) {
        after.row.reset();
    }
    const bool worksWithRow = after.mode == MendMode::Stitch || after.mode == MendMode::Fill;
    if (worksWithRow && !after.row && rows > 0) {
        after.row = chart::KeyIndex{0};
    }
    if (after.page != ChartsPage::Motifs || after.mode != MendMode::Look) {
        after.cutting = false;
    }
    return after;
}

void ChartDesk::setState(const ChartsState& wanted) {
    const ChartsState after = possible(wanted);
    if (after == m_state) {
        return;
    }
    const ChartsState before = std::exchange(m_state, after);
    if (needsMotifs() && m_motifs == nullptr && !m_finder.isBusy()) {
        findMotifs();
    }
    Q_EMIT stateChanged(before);
}

std::vector<chart::MotifIndex> ChartDesk::chosenMotifs() const {
    std::vector<chart::MotifIndex> chosen;
    for (const chart::Cell& cell : m_state.motifs) {
        if (m_motifs && m_motifs->at(cell) != chart::kNoMotif) {
            chosen.push_back(m_motifs->at(cell));
        }
    }
    return chosen;
}

void ChartDesk::takeChart() {
    const auto id = m_session.chartId();
    std::shared_ptr<const chart::Chart> chart;
    attempt([&] { chart = id ? document().chart(*id) : nullptr; }); // one that is damaged is none
    if (id == m_id && chart == m_chart) {
        return;
    }
    if (id == m_id && chart && m_chart && chart->grid == m_chart->grid) {
        m_chart = std::move(chart); // its name
        Q_EMIT chartChanged({}, true);
        return;
    }
    m_id = id;
    m_chart = std::move(chart);
    m_plan = m_chart ? document().motifPlan(*m_id) : chart::MotifPlan{};
    m_page = m_chart ? document().tracedPage(*m_id) : nullptr;
    m_motifs.reset();
    m_finder.forget();
    // The state changes with the chart, so that whoever looks never sees one without the other.
    const ChartsState before = m_state;
    m_state.row.reset();
    m_state.motifs.clear();
    m_state.cutting = false;
    m_state.mode = MendMode::Look;
    m_state.current.reset();
    m_state.bare = false;
    if (m_page == nullptr) {
        m_state.pageView = PageView::Off;
    }
    Q_EMIT chartReplaced();
    if (m_state != before) {
        Q_EMIT stateChanged(before);
    }
    findMotifs();
}

void ChartDesk::takeChange(workbox::ChartId id, const chart::Area& cells) {
    if (id != m_id || m_chart == nullptr) {
        return;
    }
    const auto before = std::exchange(m_chart, document().chart(id));
    if (m_chart == nullptr) {
        return; // chartsChanged comes next
    }
    m_page = document().tracedPage(id);
    const bool keyToo = !saySame(before->key, m_chart->key) || before->lines != m_chart->lines;
    const ChartsState stateBefore = m_state;
    if (m_state.row && *m_state.row < before->key.size() &&
        before->key.size() != m_chart->key.size()) {
        m_state.row = sameRow(before->key[*m_state.row], m_chart->key).value_or(*m_state.row);
    }
    m_state = possible(m_state); // a row may be gone
    Q_EMIT chartChanged(cells, keyToo);
    if (m_state != stateBefore) {
        Q_EMIT stateChanged(stateBefore);
    }
    if (!cells.isEmpty()) {
        findMotifs();
    }
}

void ChartDesk::findMotifs() {
    if (needsMotifs()) {
        m_finder.ask(m_chart, m_plan);
    } else {
        m_finder.forget();
        m_motifs.reset(); // those of another chart, or of another cut
    }
}

int ChartDesk::doubtfulLeft() const {
    int left = 0;
    for (std::size_t i = 0; m_page && i < m_page->confidence.size(); ++i) {
        left += m_page->confidence[i] < kDoubtfulByte && m_page->seen[i] == 0 ? 1 : 0;
    }
    return left;
}

bool ChartDesk::attempt(const std::function<void()>& edit) {
    try {
        edit();
        return true;
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
        return false;
    }
}

bool ChartDesk::change(const chart::Chart& after, const QString& text, const QString& mergeKey,
                       std::span<const chart::Cell> seen) {
    return m_id && attempt([&] { document().changeChart(*m_id, after, text, mergeKey, seen); });
}

bool ChartDesk::changePlan(const chart::MotifPlan& after, const QString& text,
                           const QString& mergeKey) {
    return m_id && attempt([&] { document().changeMotifPlan(*m_id, after, text, mergeKey); });
}

bool ChartDesk::addMotifEdit(const chart::MotifEdit& edit, const QString& text) {
    chart::MotifPlan after = m_plan;
    after.edits.push_back(edit);
    return changePlan(after, text);
}

QString shownRow(const chart::KeyRow& row) {
    const QString thread = (row.code + QLatin1Char(' ') + row.name).trimmed();
    return thread.isEmpty() ? ChartDesk::tr("colour %1").arg(colour::toHex(row.pixel)) : thread;
}

} // namespace otherskein::app
