#include "app/recolour/recolour_worker.h"

#include "drawing/flat.h"

#include <algorithm>

namespace otherskein::app {

namespace {

QRgb rgbOf(const colour::Srgb8& srgb) {
    return qRgb(srgb.r, srgb.g, srgb.b);
}

/// The different threads of a colourway, most stitches first.
std::vector<QRgb> stripOf(const colourway::Subject& subject,
                          const std::vector<colourway::Choice>& now) {
    struct Use {
        const colourway::Choice* choice;
        double size;
    };
    std::vector<Use> uses;
    for (std::size_t i = 0; i < now.size(); ++i) {
        const double size = subject.parts.parts[i].size();
        const auto known = std::ranges::find_if(
            uses, [&](const Use& use) { return use.choice->isSameAs(now[i]); });
        if (known == uses.end()) {
            uses.push_back({&now[i], size});
        } else {
            known->size += size;
        }
    }
    std::ranges::stable_sort(uses, std::greater{}, &Use::size);
    std::vector<QRgb> strip;
    for (const Use& use : uses) {
        strip.push_back(rgbOf(colourway::shownColour(*use.choice)));
    }
    return strip;
}

Alternative alternativeOf(const WallQuestion& question, const colourway::Colourway& colourway) {
    const chart::Chart worked = colourway::workedChart(*question.subject, colourway);
    const QRgb ground = rgbOf(question.question.ground.shown);
    return {colourway,
            drawing::smallPicture(worked, drawing::paintOf(worked.key, ground), question.picture),
            stripOf(*question.subject, colourway.now)};
}

} // namespace

bool isSameChoice(const std::vector<colourway::Choice>& one,
                  const std::vector<colourway::Choice>& other) {
    return std::ranges::equal(
        one, other,
        [](const colourway::Choice& a, const colourway::Choice& b) { return a.isSameAs(b); });
}

RecolourWorker::RecolourWorker(QObject* parent) : QObject(parent) {
    m_threads.setMaxThreadCount(1);
}

RecolourWorker::~RecolourWorker() {
    ++m_asked; // stops what runs
    m_threads.clear();
    m_threads.waitForDone();
}

template <typename What>
void RecolourWorker::tell(quint64 number, What what) {
    QMetaObject::invokeMethod(this, [this, number, what] {
        if (number == m_asked) {
            what();
        }
    });
}

void RecolourWorker::ask(const WallQuestion& question) {
    const quint64 number = ++m_asked;
    m_isBusy = true;
    m_threads.clear();
    m_threads.start([this, question, number] {
        // An exception must not leave the worker: it travels as text.
        try {
            work(question, number);
            tell(number, [this] {
                m_isBusy = false;
                Q_EMIT finished();
            });
        } catch (const std::exception& error) {
            tell(number, [this, why = QString::fromUtf8(error.what())] {
                m_isBusy = false;
                Q_EMIT failed(why);
            });
        }
    });
}

void RecolourWorker::stop() {
    if (!m_isBusy) {
        return;
    }
    ++m_asked;
    m_threads.clear();
    m_isBusy = false;
    Q_EMIT finished();
}

void RecolourWorker::work(const WallQuestion& question, quint64 number) {
    std::size_t told = 0;
    const auto hand = [&](const colourway::Colourway& colourway) {
        const bool isFirstAgain =
            question.first && told > 0 && isSameChoice(question.first->now, colourway.now);
        if (number != m_asked || told >= question.count || isFirstAgain) {
            return;
        }
        ++told;
        tell(number, [this, made = alternativeOf(question, colourway)] { Q_EMIT found(made); });
    };
    if (question.first) {
        hand(*question.first);
    }
    constexpr double kStep = 0.02; // finer steps would only fill the queue
    double last = 0;
    const auto progress = [&](double done) {
        if (done >= last + kStep) {
            last = done;
            tell(number, [this, done] { Q_EMIT progressed(done); });
        }
        return number == m_asked;
    };
    const thread::ThreadPool& pool = poolFor(question);
    // Of an answer made in one go, as of one that comes bit by bit, each is handed over as it is
    // found; what is returned in the end has been told already.
    if (question.likeFirst && question.first) {
        [[maybe_unused]] const auto all =
            colourway::moreLike(*question.subject, question.question, pool, *question.first,
                                question.count, progress, hand);
    } else {
        [[maybe_unused]] const auto all = colourway::alternatives(
            *question.subject, question.question, pool, question.count, progress, hand);
    }
}

const thread::ThreadPool& RecolourWorker::poolFor(const WallQuestion& question) {
    const colourway::PoolFilter& filter = question.question.filter;
    if (m_cache.pool && m_cache.cards == question.cards && m_cache.filter == filter &&
        m_cache.cardsLeftOut == question.cardsLeftOut) {
        return *m_cache.pool;
    }
    std::vector<const thread::ShadeCard*> among;
    for (const thread::ShadeCard& card : *question.cards) {
        if (!question.cardsLeftOut.contains(card.name)) {
            among.push_back(&card);
        }
    }
    m_cache = {question.cards, filter, question.cardsLeftOut, colourway::poolOf(among, filter)};
    return *m_cache.pool;
}

} // namespace otherskein::app
