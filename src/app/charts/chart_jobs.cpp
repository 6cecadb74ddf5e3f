#include "app/charts/chart_jobs.h"

#include "base/input_error.h"
#include "chart/chart_files.h"
#include "trace/page.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QImageReader>
#include <QMimeData>
#include <QUrl>

#include <algorithm>
#include <set>

namespace otherskein::app {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("Charts", text);
}

/// So that page 10 comes after page 9. (QCollator knows numbers only where Qt has ICU and a locale
/// other than C.)
QString withPaddedNumbers(const QString& name) {
    constexpr int kDigits = 12;
    QString padded;
    QString digits;
    const auto end = [&] {
        padded += digits.isEmpty() ? digits : digits.rightJustified(kDigits, QLatin1Char('0'));
        digits.clear();
    };
    for (const QChar c : name.toCaseFolded()) {
        if (c.isDigit()) {
            digits += c;
        } else {
            end();
            padded += c;
        }
    }
    end();
    return padded;
}

bool isPicture(const QString& path) {
    return path.endsWith(QStringLiteral(".png"), Qt::CaseInsensitive);
}

} // namespace

bool isPage(const QString& file) {
    const QString end = QFileInfo(file).suffix().toLower();
    return end == QStringLiteral("pdf") || end == QStringLiteral("jpg") ||
           end == QStringLiteral("jpeg");
}

bool couldBePage(const QString& picture) {
    QImageReader reader(picture);
    const QSize size = reader.format() == "png" ? reader.size() : QSize();
    if (!size.isValid() || qint64{1} * size.width() * size.height() > trace::kMostPagePixels) {
        return false;
    }
    if (size.width() > chart::kMostColumns || size.height() > chart::kMostRows) {
        return true;
    }
    const QImage image = reader.read().convertToFormat(QImage::Format_RGB32);
    std::set<QRgb> colours;
    for (int y = 0; y < image.height() && colours.size() <= chart::kMostKeyRows; ++y) {
        const auto* line = reinterpret_cast<const QRgb*>(image.constScanLine(y));
        colours.insert(line, line + image.width());
    }
    return colours.size() > chart::kMostKeyRows;
}

OpenedCharts openCharts(workbox::Document& document, const QStringList& pictures) {
    OpenedCharts opened;
    for (const QString& picture : pictures) {
        try {
            const chart::Chart chart = chart::readChart(chart::pathsBeside(picture));
            opened.charts.push_back(document.addChart(chart));
        } catch (const base::InputError& error) {
            opened.refusals.push_back(error.line());
        }
    }
    return opened;
}

QString keyBeside(const QString& picture) {
    const QFileInfo info(picture);
    return info.dir().filePath(info.completeBaseName() + QStringLiteral(".key.csv"));
}

void exportChart(const chart::Chart& chart, const QString& picture) {
    const QString path = isPicture(picture) ? picture : picture + QStringLiteral(".png");
    chart::writeChart(chart, path, keyBeside(path),
                      QFileInfo::exists(picture) ? base::Existing::Replace
                                                 : base::Existing::Refuse);
}

QStringList picturesIn(const QMimeData& data) {
    QStringList paths;
    for (const QUrl& url : data.urls()) {
        if (url.isLocalFile() && (isPicture(url.toLocalFile()) || isPage(url.toLocalFile()))) {
            paths.push_back(url.toLocalFile());
        }
    }
    return paths;
}

QStringList askForPictures(QWidget* parent) {
    return QFileDialog::getOpenFileNames(parent, tr("Open chart pictures"), {},
                                         tr("Chart pictures (*.png);;All files (*)"));
}

QStringList askForPages(QWidget* parent, const QString& likely) {
    return QFileDialog::getOpenFileNames(parent, tr("Trace a page, or several of one chart"),
                                         likely,
                                         tr("Pages (*.pdf *.jpg *.jpeg *.png);;All files (*)"));
}

QStringList inOrderOfPages(QStringList files) {
    std::ranges::sort(files, [](const QString& one, const QString& other) {
        return withPaddedNumbers(one) < withPaddedNumbers(other);
    });
    return files;
}

QString askForExportPicture(QWidget* parent, const QString& chartName) {
    QString name = chartName;
    for (QChar& c : name) {
        if (QStringLiteral("<>:\"/\\|?*").contains(c) || c < u' ') {
            c = u'-';
        }
    }
    return QFileDialog::getSaveFileName(parent, tr("Export the chart"),
                                        name + QStringLiteral(".png"),
                                        tr("Chart pictures (*.png)"));
}

} // namespace otherskein::app
