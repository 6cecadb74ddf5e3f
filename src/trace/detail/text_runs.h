#pragma once

#include <QImage>
#include <QRectF>
#include <QString>

#include <span>
#include <utility>
#include <vector>

namespace otherskein::trace::detail {

/// A word and where it begins in its page's text.
struct TextWord {
    qsizetype start = 0;
    QString text;
    bool isSure = true; ///< its box is known, not guessed
    QRectF box;         ///< points
};

/// About how wide a text is, in heights of its capitals.
[[nodiscard]] double usualWidth(QStringView text);

[[nodiscard]] std::size_t lettersOf(std::span<const TextWord> words);

/// Boxes of a page's runs come without their text, in order. How many of them each line of the
/// text has (`lines`: the words of each): those that stand in one row, or one for each letter. None
/// where that does not come out, or is unlikely by the widths of what the lines say.
[[nodiscard]] std::vector<std::size_t> runsOfLines(std::span<const std::span<const TextWord>> lines,
                                                   std::span<const QRectF> runs);

/// How a page is shown, whose text is told as if it began at 0, 0 and was not turned.
struct TextFrame {
    QPointF corner;   ///< of the page on its paper, points from the foot's left
    int quarters = 0; ///< turns clockwise
    QSizeF size;      ///< of the page as shown, points

    [[nodiscard]] QRectF shown(const QRectF& told) const;
};

/// By how many boxes of runs then lie tightly around ink of `bgr`, the page at `scale` px a point;
/// `pdf` is the file, whose uncompressed parts say where pages may begin.
[[nodiscard]] TextFrame textFrameOf(std::span<const QRectF> runs, const QByteArray& pdf,
                                    const QImage& bgr, double scale);

/// What a page's picture shows of a run: where there is ink along it.
class RunInk {
  public:
    /// `bgr`: three bytes a pixel, `scale` px a point; outlives this.
    RunInk(const QImage& bgr, double scale) : m_picture(bgr), m_scale(scale) {}

    /// Left and right of each stretch of ink, points, without thin lines that cross the run.
    [[nodiscard]] const std::vector<std::pair<double, double>>& stretches(const QRectF& run) const;

  private:
    const QImage& m_picture;
    double m_scale;
    mutable QRectF m_run; ///< that was asked for last, mostly many times
    mutable std::vector<std::pair<double, double>> m_stretches;
};

/// Lays the words of one line to its runs, which begin where words begin, as their widths go best
/// together. Words that share a run get its parts: by the gaps in its ink, if that has gaps as wide
/// as between words, else by usual widths, and not sure if the run is much wider than they.
void layWords(std::span<TextWord> words, std::span<const QRectF> runs, const RunInk& ink);

} // namespace otherskein::trace::detail
