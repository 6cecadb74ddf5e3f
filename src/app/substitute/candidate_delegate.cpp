#include "app/substitute/candidate_delegate.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/substitute/candidate_model.h"
#include "colour/conversion.h"

#include <QPainter>

namespace otherskein::app {

namespace {

constexpr int kMostChipWidth = 216;
constexpr int kSectionHeight = 28;
constexpr int kGap = 16;
constexpr int kFigureWidth = 104;
constexpr int kTop = 11;
constexpr int kBottom = 11;
constexpr int kLeastHeight = 92;
constexpr std::size_t kMostWarnings = 3;

const CandidateModel& modelOf(const QModelIndex& index) {
    return *static_cast<const CandidateModel*>(index.model());
}

/// The lines of text under each other, so that painting and measuring cannot disagree.
struct Lines {
    QFont code = scaledFont(1.08, 600);
    QFont body = scaledFont(1.0);
    QFont small = scaledFont(0.88);
    QFont warning = scaledFont(0.88, 600);

    [[nodiscard]] int height(std::size_t warnings) const {
        return kTop + QFontMetrics(code).height() + QFontMetrics(body).height() + 4 +
               QFontMetrics(small).height() +
               static_cast<int>(warnings) * (QFontMetrics(warning).height() + 1) + kBottom;
    }
};

std::size_t shownWarnings(const colourway::Candidate& candidate) {
    return std::min(candidate.warnings.size(), kMostWarnings);
}

QString warningText(const colourway::Candidate& candidate, std::size_t i) {
    const std::size_t hidden = candidate.warnings.size() - kMostWarnings;
    if (i + 1 == kMostWarnings && candidate.warnings.size() > kMostWarnings) {
        return candidate.warnings[i].text +
               CandidateModel::tr("  (and %n more)", nullptr, static_cast<int>(hidden));
    }
    return candidate.warnings[i].text;
}

QColor shown(const colour::Lab& lab) {
    return toQColor(colour::srgbFromLab(lab));
}

/// Height of the heading over this row.
int sectionHeight(const QModelIndex& index) {
    return index.data(CandidateModel::SectionRole).toString().isEmpty() ? 0 : kSectionHeight;
}

void paintSection(QPainter& painter, const QRect& strip, const QString& text,
                  Qt::LayoutDirection direction) {
    painter.fillRect(strip, greys().chrome);
    painter.setPen(greys().line);
    painter.drawLine(strip.bottomLeft(), strip.bottomRight());
    painter.setPen(greys().quiet);
    painter.setFont(scaledFont(0.88, 600));
    painter.drawText(strip.adjusted(14, 0, -14, 0),
                     int(QStyle::visualAlignment(direction, Qt::AlignLeft) | Qt::AlignVCenter),
                     text);
}

class RowPainter {
  public:
    RowPainter(QPainter& painter, const QRect& row, Qt::LayoutDirection direction)
        : m_painter(painter), m_row(row), m_direction(direction),
          m_chipWidth(std::min(kMostChipWidth, row.width() / 3)) {}

    void chip(const colourway::Candidate& one, const colour::Lab& wanted, const QColor& ground) {
        const QRect area = placed(0, m_chipWidth);
        paintAbutting(m_painter, area, shown(wanted), shown(one.lab), ground, 14);
        if (!one.isBlend()) {
            paintFinishMark(m_painter, area.adjusted(14, 14, -14, -14),
                            one.portions.front().thread.thread.finish, shown(one.lab));
        }
    }

    void text(const colourway::Candidate& one, const Lines& lines) {
        const int left = m_chipWidth + kGap;
        const int width = m_row.width() - left - kFigureWidth - kGap;
        m_at = m_row.top() + kTop;
        const QFontMetrics codeSize(lines.code);
        const QString code = codeText(one);
        const int codeWidth = std::min(width, codeSize.horizontalAdvance(code) + 8);
        line(left, width, code, lines.code, greys().text, Step::Stay);
        line(left + codeWidth, width - codeWidth, one.name(), lines.body, greys().text, Step::Stay);
        m_at += codeSize.height();
        line(left, width, one.words, lines.body, greys().text, Step::Down);
        m_at += 4;
        line(left, width, stashText(one) + QStringLiteral("  ·  ") + one.card(), lines.small,
             greys().quiet, Step::Down);
        for (std::size_t i = 0; i < shownWarnings(one); ++i) {
            line(left, width + kFigureWidth, QStringLiteral("!  ") + warningText(one, i),
                 lines.warning, greys().text, Step::Down);
            m_at += 1;
        }
    }

    void figures(const colourway::Candidate& one, const Lines& lines) {
        const int left = m_row.width() - kFigureWidth - kGap;
        m_alignment = Qt::AlignRight;
        m_at = m_row.top() + kTop - 3;
        line(left, kFigureWidth, differenceText(one.de00), scaledFont(1.75, 600), greys().text,
             Step::Down);
        line(left, kFigureWidth, CandidateModel::tr("ΔE00 · grey %1").arg(one.greyScale),
             lines.small, greys().quiet, Step::Down);
    }

  private:
    enum class Step { Stay, Down };

    QPainter& m_painter;
    QRect m_row;
    Qt::LayoutDirection m_direction;
    int m_chipWidth;
    Qt::Alignment m_alignment = Qt::AlignLeft;
    int m_at = 0;

    /// A part of the row, mirrored where text runs from right to left.
    [[nodiscard]] QRect placed(int left, int width) const {
        const int x =
            m_direction == Qt::RightToLeft ? m_row.right() + 1 - left - width : m_row.left() + left;
        return {x, m_row.top(), width, m_row.height()};
    }

    void line(int left, int width, const QString& text, const QFont& font, const QColor& ink,
              Step step) {
        const QFontMetrics size(font);
        QRect area = placed(left, width);
        area.setTop(m_at);
        area.setHeight(size.height());
        m_painter.setFont(font);
        m_painter.setPen(ink);
        m_painter.drawText(
            area, int(QStyle::visualAlignment(m_direction, m_alignment) | Qt::AlignVCenter),
            size.elidedText(text, Qt::ElideRight, width));
        if (step == Step::Down) {
            m_at += size.height();
        }
    }
};

} // namespace

void CandidateDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const {
    const CandidateModel& model = modelOf(index);
    const colourway::Candidate& one = model.candidate(index.row());
    const Greys& g = greys();
    painter->save();
    QRect row = option.rect;
    row.setTop(row.top() + sectionHeight(index));
    if (row.top() > option.rect.top()) {
        paintSection(*painter, QRect(option.rect.topLeft(), QPoint(row.right(), row.top() - 1)),
                     index.data(CandidateModel::SectionRole).toString(), option.direction);
    }
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    painter->fillRect(row, chosen ? g.chosen : g.surround);
    painter->setPen(g.line);
    painter->drawLine(row.bottomLeft(), row.bottomRight());

    const Lines lines;
    RowPainter drawn(*painter, row.adjusted(0, 0, 0, -1), option.direction);
    drawn.chip(one, model.answer().state.question.wanted.lab, m_ground);
    drawn.text(one, lines);
    drawn.figures(one, lines);
    if (chosen && option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(g.text, 2));
        painter->drawRect(row.adjusted(1, 1, -1, -2));
    }
    painter->restore();
}

QSize CandidateDelegate::sizeHint(const QStyleOptionViewItem& option,
                                  const QModelIndex& index) const {
    const int height = Lines().height(shownWarnings(modelOf(index).candidate(index.row())));
    return {option.rect.width(), std::max(kLeastHeight, height) + sectionHeight(index)};
}

} // namespace otherskein::app
