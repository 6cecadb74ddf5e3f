#include "app/charts/chart_pictures.h"

#include "app/frame/chip.h"
#include "base/input_error.h"
#include "drawing/flat.h"

#include <algorithm>

namespace otherskein::app {

ChartPictures::ChartPictures(Session& session, QObject* parent)
    : QObject(parent), m_session(session) {
    m_threads.setMaxThreadCount(1);
    connect(&session.document(), &workbox::Document::chartChanged, this,
            [this](workbox::ChartId id) {
                if (const auto found = m_entries.find(id); found != m_entries.end()) {
                    found->second.stale = true;
                    Q_EMIT drawn(); // whoever looks asks again
                }
            });
    connect(&session.document(), &workbox::Document::chartsChanged, this, [this] {
        const std::vector<workbox::ChartFacts> charts = m_session.document().charts();
        std::erase_if(m_entries, [&charts](const auto& entry) {
            return std::ranges::find(charts, entry.first, &workbox::ChartFacts::id) == charts.end();
        });
    });
    connect(&session, &Session::groundChanged, this, [this] {
        for (auto& [id, entry] : m_entries) {
            entry.stale = true;
        }
        Q_EMIT drawn();
    });
}

ChartPictures::~ChartPictures() {
    m_threads.clear();
    m_threads.waitForDone();
}

QImage ChartPictures::picture(workbox::ChartId id, const QSize& size) {
    Entry& entry = m_entries[id];
    if (!entry.stale && entry.size == size) {
        return entry.image;
    }
    entry.stale = false;
    entry.size = size;
    std::shared_ptr<const chart::Chart> chart;
    try {
        chart = m_session.document().chart(id);
    } catch (const base::InputError&) {
        chart = nullptr; // damaged: whoever opens it is told so
    }
    if (chart == nullptr) {
        return {};
    }
    entry.number = ++m_last;
    ++m_running;
    const QRgb ground = toQColor(m_session.ground().shown).rgb();
    m_threads.start([this, id, chart, ground, size, number = entry.number] {
        // An exception must not leave the worker; a list can do without a picture.
        QImage image;
        try {
            image = drawing::smallPicture(*chart, drawing::paintOf(chart->key, ground), size);
        } catch (const std::exception&) {
            image = {};
        }
        QMetaObject::invokeMethod(this, [this, id, image, number] {
            --m_running;
            const auto found = m_entries.find(id);
            if (found != m_entries.end() && found->second.number == number) {
                found->second.image = image;
                Q_EMIT drawn();
            }
        });
    });
    return entry.image;
}

} // namespace otherskein::app
