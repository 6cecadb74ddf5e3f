#include "app/substitute/lab_plot.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "colour/conversion.h"

#include <QLocale>
#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>

namespace otherskein::app {

namespace {

constexpr int kBarWidth = 34;
constexpr int kBarGap = 14;
constexpr int kLegendHeight = 72;
constexpr double kWholePlane = 105; ///< |a*| and |b*| that the inset shows
const QColor kPlane(0xb9, 0xb9, 0xb9);
const QColor kPlaneLine(0x8e, 0x8e, 0x8e);
const QColor kInk(0x10, 0x10, 0x10);

enum class Mark { Square, Circle, Diamond };

void drawMark(QPainter& painter, Mark mark, const QPointF& at, double size, const QColor& fill,
              double outline) {
    // Black within white stands off every fill.
    for (const bool outer : {true, false}) {
        painter.setPen(outer ? QPen(Qt::white, outline + 2) : QPen(kInk, outline));
        painter.setBrush(fill);
        switch (mark) {
        case Mark::Square:
            painter.drawRect(QRectF(at.x() - size, at.y() - size, 2 * size, 2 * size));
            break;
        case Mark::Circle:
            painter.drawEllipse(at, size, size);
            break;
        case Mark::Diamond: {
            const double s = size * 1.25;
            const std::array points{at + QPointF(0, -s), at + QPointF(s, 0), at + QPointF(0, s),
                                    at + QPointF(-s, 0)};
            painter.drawPolygon(points.data(), static_cast<int>(points.size()));
            break;
        }
        }
    }
}

QColor shownColour(const colour::Lab& lab) {
    return toQColor(colour::srgbFromLab(lab));
}

/// Half the width of the zoomed plane: all candidates fit, and never so close that noise looks
/// large.
double reachAb(const SubstituteAnswer& answer) {
    const colour::Lab& wanted = answer.state.question.wanted.lab;
    double reach = 5;
    for (const colourway::Candidate& one : answer.candidates) {
        reach = std::max({reach, std::abs(one.lab.a - wanted.a), std::abs(one.lab.b - wanted.b)});
    }
    return std::min(reach * 1.25, 2 * kWholePlane);
}

double reachL(const SubstituteAnswer& answer) {
    const double wanted = answer.state.question.wanted.lab.L;
    double reach = 8;
    for (const colourway::Candidate& one : answer.candidates) {
        reach = std::max(reach, std::abs(one.lab.L - wanted));
    }
    return reach * 1.2;
}

/// The zoomed a*b* plane.
class Plane {
  public:
    Plane(QPainter& painter, const QRectF& area, const SubstituteAnswer& answer, int chosen)
        : m_painter(painter), m_area(area), m_answer(answer), m_chosen(chosen),
          m_reach(reachAb(answer)) {}

    void draw() {
        m_painter.save();
        m_painter.setClipRect(m_area);
        m_painter.fillRect(m_area, kPlane);
        drawCircles();
        for (const chart::KeyRow& row : m_answer.state.question.key) {
            if (row.code != m_answer.state.question.wanted.code) {
                drawMark(m_painter, Mark::Diamond, placed(row.lab), 4.5, shownColour(row.lab), 1);
            }
        }
        for (int i = int(m_answer.candidates.size()) - 1; i >= 0; --i) {
            if (i != m_chosen) {
                const colour::Lab& lab = m_answer.candidates[static_cast<std::size_t>(i)].lab;
                drawMark(m_painter, Mark::Circle, placed(lab), 5, shownColour(lab), 1);
            }
        }
        const colour::Lab& wanted = m_answer.state.question.wanted.lab;
        drawMark(m_painter, Mark::Square, placed(wanted), 7, shownColour(wanted), 2);
        if (m_chosen >= 0 && m_chosen < int(m_answer.candidates.size())) {
            const colour::Lab& lab = m_answer.candidates[static_cast<std::size_t>(m_chosen)].lab;
            drawMark(m_painter, Mark::Circle, placed(lab), 7, shownColour(lab), 2);
        }
        m_painter.restore();
    }

    /// The whole plane, with the part that is zoomed.
    void drawInset(const QRectF& inset) {
        m_painter.save();
        m_painter.setPen(QPen(kInk, 1));
        m_painter.setBrush(QColor(0xd2, 0xd2, 0xd2));
        m_painter.drawRect(inset);
        m_painter.setClipRect(inset);
        m_painter.setPen(QPen(kPlaneLine, 1));
        m_painter.drawLine(QPointF(inset.center().x(), inset.top()),
                           QPointF(inset.center().x(), inset.bottom()));
        m_painter.drawLine(QPointF(inset.left(), inset.center().y()),
                           QPointF(inset.right(), inset.center().y()));
        const double scale = inset.width() / 2 / kWholePlane;
        const colour::Lab& wanted = m_answer.state.question.wanted.lab;
        const QPointF at = inset.center() + QPointF(wanted.a * scale, -wanted.b * scale);
        const double half = m_reach * scale;
        m_painter.setPen(QPen(kInk, 1.2));
        m_painter.setBrush(Qt::NoBrush);
        m_painter.drawRect(QRectF(at.x() - half, at.y() - half, 2 * half, 2 * half));
        m_painter.setPen(Qt::NoPen);
        m_painter.setBrush(shownColour(wanted));
        m_painter.drawRect(QRectF(at.x() - 2, at.y() - 2, 4, 4));
        m_painter.restore();
    }

  private:
    QPainter& m_painter;
    QRectF m_area;
    const SubstituteAnswer& m_answer;
    int m_chosen;
    double m_reach;

    [[nodiscard]] QPointF placed(const colour::Lab& lab) const {
        const colour::Lab& wanted = m_answer.state.question.wanted.lab;
        const double scale = m_area.width() / 2 / m_reach;
        return m_area.center() + QPointF((lab.a - wanted.a) * scale, -(lab.b - wanted.b) * scale);
    }

    void drawCircles() {
        const double scale = m_area.width() / 2 / m_reach;
        const double step = m_reach > 40 ? 20 : m_reach > 16 ? 10 : m_reach > 8 ? 5 : 2;
        m_painter.setFont(scaledFont(0.78));
        for (double radius = step; radius < m_reach; radius += step) {
            m_painter.setPen(QPen(kPlaneLine, 1));
            m_painter.setBrush(Qt::NoBrush);
            m_painter.drawEllipse(m_area.center(), radius * scale, radius * scale);
            m_painter.setPen(kInk);
            if (radius * scale + 22 < m_area.width() / 2) {
                m_painter.drawText(m_area.center() + QPointF(radius * scale + 2, -2),
                                   QLocale().toString(radius));
            }
        }
        m_painter.setPen(QPen(kPlaneLine, 1));
        m_painter.drawLine(QPointF(m_area.center().x(), m_area.top()),
                           QPointF(m_area.center().x(), m_area.bottom()));
        m_painter.drawLine(QPointF(m_area.left(), m_area.center().y()),
                           QPointF(m_area.right(), m_area.center().y()));
        m_painter.setPen(kInk);
        m_painter.drawText(m_area.adjusted(4, 3, -4, -3), Qt::AlignTop | Qt::AlignHCenter,
                           QStringLiteral("b* +"));
        m_painter.drawText(QRectF(m_area.right() - 34, m_area.center().y() + 3, 30, 16),
                           Qt::AlignRight, QStringLiteral("a* +"));
    }
};

/// Lightness around the wanted one: candidates tick on the left, the key's threads on the right.
void drawLightness(QPainter& painter, const QRectF& bar, const SubstituteAnswer& answer,
                   int chosen) {
    const double wanted = answer.state.question.wanted.lab.L;
    const double reach = reachL(answer);
    const double least =
        std::clamp(wanted - reach, 0.0, 100.0 - 2 * reach > 0 ? 100.0 - 2 * reach : 0.0);
    const double most = std::min(100.0, least + 2 * reach);
    const auto y = [&](double L) {
        return bar.bottom() - (L - least) / (most - least) * bar.height();
    };
    for (int row = 0; row < int(bar.height()); ++row) {
        const double L = most - (most - least) * row / bar.height();
        painter.fillRect(QRectF(bar.left(), bar.top() + row, bar.width(), 1.5),
                         shownColour({L, 0, 0}));
    }
    const auto tick = [&](double L, double from, double to, double width) {
        if (L < least || L > most) {
            return;
        }
        const QPointF left(bar.left() + from * bar.width(), y(L));
        const QPointF right(bar.left() + to * bar.width(), y(L));
        painter.setPen(QPen(Qt::white, width + 2));
        painter.drawLine(left, right);
        painter.setPen(QPen(kInk, width));
        painter.drawLine(left, right);
    };
    for (const chart::KeyRow& row : answer.state.question.key) {
        if (row.code != answer.state.question.wanted.code) {
            tick(row.lab.L, 0.72, 1, 1);
        }
    }
    for (std::size_t i = 0; i < answer.candidates.size(); ++i) {
        tick(answer.candidates[i].lab.L, 0, int(i) == chosen ? 0.6 : 0.34,
             int(i) == chosen ? 2 : 1);
    }
    tick(wanted, 0, 1, 2);
    painter.setPen(greys().quiet);
    painter.setFont(scaledFont(0.78));
    painter.drawText(QRectF(bar.left() - 8, bar.top() - 16, bar.width() + 16, 14), Qt::AlignCenter,
                     QStringLiteral("L* %1").arg(int(std::lround(most))));
    painter.drawText(QRectF(bar.left() - 8, bar.bottom() + 2, bar.width() + 16, 14),
                     Qt::AlignCenter, QString::number(int(std::lround(least))));
}

void drawLegend(QPainter& painter, const QRectF& area, bool withKey) {
    struct Entry {
        Mark mark;
        QString text;
    };
    std::vector<Entry> entries{{Mark::Square, LabPlot::tr("wanted")},
                               {Mark::Circle, LabPlot::tr("candidates")}};
    if (withKey) {
        entries.push_back({Mark::Diamond, LabPlot::tr("chart's other threads")});
    }
    painter.setFont(scaledFont(0.85));
    double top = area.top();
    for (const Entry& entry : entries) {
        const QPointF at(area.left() + 7, top + 8);
        drawMark(painter, entry.mark, at, 4.5, kPlane, 1);
        painter.setPen(greys().quiet);
        painter.drawText(QRectF(area.left() + 20, top, area.width() - 20, 17), Qt::AlignVCenter,
                         entry.text);
        top += 18;
    }
}

} // namespace

LabPlot::LabPlot(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Where the colours lie"));
    setMinimumSize(200, 260);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void LabPlot::setAnswer(const SubstituteAnswer& answer) {
    m_answer = answer;
    const auto& wanted = answer.state.question.wanted;
    setAccessibleDescription(tr("Wanted %1: L* %2, a* %3, b* %4; %n candidates around it", nullptr,
                                int(answer.candidates.size()))
                                 .arg(wanted.name)
                                 .arg(wanted.lab.L, 0, 'f', 1)
                                 .arg(wanted.lab.a, 0, 'f', 1)
                                 .arg(wanted.lab.b, 0, 'f', 1));
    update();
}

void LabPlot::setChosen(int row) {
    m_chosen = row;
    update();
}

void LabPlot::paintEvent(QPaintEvent* /*event*/) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double side =
        std::min<double>(width() - kBarWidth - kBarGap, height() - kLegendHeight - 18);
    const QRectF plane(0, 16, side, side);
    Plane zoomed(painter, plane, m_answer, m_chosen);
    zoomed.draw();
    constexpr double kInsetSide = 64;
    zoomed.drawInset(QRectF(width() - kInsetSide - 1, plane.bottom() + 22, kInsetSide, kInsetSide));
    drawLightness(painter, QRectF(plane.right() + kBarGap, plane.top(), kBarWidth, side), m_answer,
                  m_chosen);
    drawLegend(painter, QRectF(0, plane.bottom() + 18, width(), kLegendHeight),
               !m_answer.state.question.key.empty());
}

} // namespace otherskein::app
