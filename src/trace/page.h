#pragma once

// The trace folder: a printed page becomes a chart. Reads pages (PDF, PNG, JPEG), finds the grid,
// tells its cells apart and says which of them to look at. Knows neither threads nor a window; what
// a hand does to a traced chart afterwards is chart/mending.h.

#include <QByteArray>
#include <QImage>
#include <QRectF>
#include <QString>

#include <functional>
#include <vector>

namespace otherskein::trace {

/// A run of text on a page, where a PDF tells it.
struct Word {
    QRectF box; ///< px of the page's picture
    QString text;
};

/// One page to trace.
struct Page {
    QString source; ///< the file, as the user knows it
    int number = 1; ///< from 1
    QImage picture; ///< Format_BGR888
    std::vector<Word> words = {};
    /// The file, if a PDF: what it draws can be drawn again, larger. Empty where that is not worth
    /// its room.
    QByteArray pdf = {};
    bool isTurnedOver = false; ///< `picture` is: the file has it light on dark
};

/// Limits: a page has at most that many pixels, and a file that many bytes and pages.
inline constexpr qint64 kMostPagePixels = 48'000'000;
inline constexpr qint64 kMostPageBytes = 256LL * 1024 * 1024;
inline constexpr qint64 kMostKeptBytes = 32LL * 1024 * 1024; ///< that a page keeps
inline constexpr int kMostPages = 200;
inline constexpr int kPageDpi = 300; ///< that PDFs are rendered at

/// Pages of a PDF; 1 of a PNG or JPEG.
/// Errors: InputError in one line: missing, too large, not one of these, damaged, asks for a
/// password, no pages.
[[nodiscard]] int pageCount(const QString& path);

/// Reads a page, a PDF's rendered at kPageDpi. Pictures with an ICC profile become sRGB; clear
/// pixels become white; a negative, light lines on dark, is turned over.
/// Errors: as pageCount; a picture that is cut short; no such page; a page of more than
/// kMostPagePixels, seen before memory is spent.
[[nodiscard]] Page readPage(const QString& path, int number = 1);

} // namespace otherskein::trace
