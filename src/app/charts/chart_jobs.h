#pragma once

#include "workbox/document.h"

#include <QStringList>

class QMimeData;
class QWidget;

namespace otherskein::app {

// Charts between files and the workbox.

struct OpenedCharts {
    std::vector<workbox::ChartId> charts; ///< in the order of the files
    QStringList refusals;                 ///< one line for each file that is none
};
/// Each picture is read for itself, with the key that lies beside it: one that is refused does not
/// keep the others out.
[[nodiscard]] OpenedCharts openCharts(workbox::Document& document, const QStringList& pictures);

/// Writes the picture, its key beside it and its lines. An existing picture is replaced with all
/// that belongs to it (the file dialog has asked); else nothing that stands there is touched.
/// Errors: InputError.
void exportChart(const chart::Chart& chart, const QString& picture);

/// Where the key goes: `C.key.csv` beside `C.png`.
[[nodiscard]] QString keyBeside(const QString& picture);

/// A PDF or JPEG, by its name: a printed page, and no chart's picture.
[[nodiscard]] bool isPage(const QString& file);
/// Whether a PNG that is no chart's picture has the colours or the size of a scanned page. Reads
/// it.
[[nodiscard]] bool couldBePage(const QString& picture);

/// The PNG files and pages among what is dragged.
[[nodiscard]] QStringList picturesIn(const QMimeData& data);

[[nodiscard]] QStringList askForPictures(QWidget* parent);
/// Pages to trace, `likely` being offered first; none when the user thinks better of it.
[[nodiscard]] QStringList askForPages(QWidget* parent, const QString& likely);
/// By their names, figures in them counted as numbers: scans are numbered.
[[nodiscard]] QStringList inOrderOfPages(QStringList files);
/// Empty when the user thinks better of it.
[[nodiscard]] QString askForExportPicture(QWidget* parent, const QString& chartName);

} // namespace otherskein::app
