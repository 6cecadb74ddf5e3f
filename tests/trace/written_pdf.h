#pragma once

#include <QBuffer>
#include <QImage>
#include <QPdfDocument>

#include <catch2/catch.hpp>

#include <map>

/// A PDF that a test writes by hand, object by object. Object 1 is the catalogue, 2 the page tree,
/// 3 the first page, 4 its content; others follow as they are added.
class WrittenPdf {
  public:
    enum class Packing { Plain, Deflated };

    QByteArray boxes = "/MediaBox [0 0 200 150]"; ///< with anything else that the page says
    QByteArray resources = "<< >>";
    QByteArray contents = "4 0 R";

    explicit WrittenPdf(const QByteArray& content, Packing packing = Packing::Plain) {
        m_objects[4] = stream({}, content, packing);
    }

    /// Adds an object and says its number.
    int add(const QByteArray& object) {
        const int number = std::max(4, m_objects.rbegin()->first) + 1;
        m_objects[number] = object;
        return number;
    }
    int addForm(const QByteArray& content, const QByteArray& more = {},
                Packing packing = Packing::Plain) {
        return add(stream("/Type /XObject /Subtype /Form /BBox [-9999 -9999 9999 9999] " + more,
                          content, packing));
    }
    void put(int number, const QByteArray& object) { m_objects[number] = object; }

    static QByteArray stream(const QByteArray& dictionary, const QByteArray& content,
                             Packing packing = Packing::Plain) {
        const bool isPacked = packing == Packing::Deflated;
        // Qt puts the length before what zlib writes.
        const QByteArray bytes = isPacked ? qCompress(content, 9).mid(4) : content;
        return "<< " + dictionary + (isPacked ? " /Filter /FlateDecode" : "") + " /Length " +
               QByteArray::number(bytes.size()) + " >>\nstream\n" + bytes + "\nendstream";
    }

    /// The file with a table of where objects stand.
    [[nodiscard]] QByteArray bytes() const {
        QByteArray file;
        const auto places = written(whole(), file);
        const int count = places.rbegin()->first + 1;
        const qsizetype table = file.size();
        file += "xref\n0 " + QByteArray::number(count) + "\n0000000000 65535 f \n";
        for (int i = 1; i < count; ++i) {
            const auto found = places.find(i);
            file += found == places.end()
                        ? QByteArray("0000000000 00000 f \n")
                        : QByteArray::number(found->second).rightJustified(10, '0') + " 00000 n \n";
        }
        return file + "trailer\n<< /Size " + QByteArray::number(count) +
               " /Root 1 0 R >>\nstartxref\n" + QByteArray::number(table) + "\n%%EOF\n";
    }

    /// The file with all objects but streams in one stream, and where they stand in another.
    [[nodiscard]] QByteArray bytesInStreams() const {
        std::map<int, QByteArray> loose;
        std::map<int, int> packed; // places in the stream of objects
        QByteArray heads;
        QByteArray bodies;
        for (const auto& [number, object] : whole()) {
            if (object.contains("endstream")) {
                loose[number] = object;
            } else {
                packed[number] = static_cast<int>(packed.size());
                heads += QByteArray::number(number) + ' ' + QByteArray::number(bodies.size()) + ' ';
                bodies += object + '\n';
            }
        }
        const int holder = std::max(loose.rbegin()->first, packed.rbegin()->first) + 1;
        const int table = holder + 1;
        loose[holder] = stream("/Type /ObjStm /N " + QByteArray::number(qsizetype(packed.size())) +
                                   " /First " + QByteArray::number(heads.size()),
                               heads + bodies, Packing::Deflated);
        QByteArray file;
        auto places = written(loose, file);
        places[table] = file.size();
        QByteArray rows;
        const auto row = [&rows](int kind, qsizetype where, int index) {
            rows += static_cast<char>(kind);
            for (const int shift : {24, 16, 8, 0}) {
                rows += static_cast<char>((where >> shift) & 0xFF);
            }
            rows += static_cast<char>(index);
        };
        for (int i = 0; i <= table; ++i) {
            if (packed.contains(i)) {
                row(2, holder, packed[i]);
            } else {
                row(places.contains(i) ? 1 : 0, places.contains(i) ? places[i] : 0, 0);
            }
        }
        return file + QByteArray::number(table) + " 0 obj\n" +
               stream("/Type /XRef /W [1 4 1] /Root 1 0 R /Size " + QByteArray::number(table + 1),
                      rows, Packing::Deflated) +
               "\nendobj\nstartxref\n" + QByteArray::number(places[table]) + "\n%%EOF\n";
    }

  private:
    [[nodiscard]] std::map<int, QByteArray> whole() const {
        std::map<int, QByteArray> result{{1, "<< /Type /Catalog /Pages 2 0 R >>"},
                                         {2, "<< /Type /Pages /Kids [3 0 R] /Count 1 >>"},
                                         {3, "<< /Type /Page /Parent 2 0 R " + boxes +
                                                 " /Resources " + resources + " /Contents " +
                                                 contents + " >>"}};
        for (const auto& [number, object] : m_objects) {
            result[number] = object;
        }
        return result;
    }

    static std::map<int, qsizetype> written(const std::map<int, QByteArray>& objects,
                                            QByteArray& file) {
        std::map<int, qsizetype> places;
        file = "%PDF-1.7\n";
        for (const auto& [number, object] : objects) {
            places[number] = file.size();
            file += QByteArray::number(number) + " 0 obj\n" + object + "\nendobj\n";
        }
        return places;
    }

    std::map<int, QByteArray> m_objects;
};

/// A PDF's first page as Qt draws it, `scale` px a point, on white.
inline QImage drawnByQt(const QByteArray& pdf, double scale = 4) {
    QBuffer buffer;
    buffer.setData(pdf);
    buffer.open(QIODevice::ReadOnly);
    QPdfDocument document(nullptr);
    document.load(&buffer);
    REQUIRE(document.status() == QPdfDocument::Status::Ready);
    const QSizeF points = document.pagePointSize(0);
    const QImage ink = document.render(0, (points * scale).toSize());
    QImage page(ink.size(), QImage::Format_RGB32);
    page.fill(Qt::white);
    for (int y = 0; y < page.height(); ++y) {
        for (int x = 0; x < page.width(); ++x) {
            const QColor colour = ink.pixelColor(x, y);
            const auto onWhite = [&](int value) {
                return 255 + (value - 255) * colour.alpha() / 255;
            };
            page.setPixel(
                x, y, qRgb(onWhite(colour.red()), onWhite(colour.green()), onWhite(colour.blue())));
        }
    }
    return page;
}
