#include "trace/detail/pdf_paths.h"

#include "trace/detail/path_reader.h"
#include "trace/detail/pdf_content.h"

#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include <algorithm>
#include <map>

namespace otherskein::trace::detail {

namespace {

constexpr int kDeepest = 8;        // forms within forms
constexpr int kMostDrawn = 20'000; // forms, each time that one is

/// From the page's own space to points from the top left as it is shown, and its size there.
struct Shown {
    cv::Matx33d map;
    cv::Size2d size;
};

Shown shownOf(QPDFPageObjectHelper page) {
    using Rectangle = QPDFObjectHandle::Rectangle;
    const Rectangle media = page.getMediaBox().getArrayAsRectangle();
    const Rectangle crop = page.getCropBox().getArrayAsRectangle();
    const double left = std::max(std::min(media.llx, media.urx), std::min(crop.llx, crop.urx));
    const double right = std::min(std::max(media.llx, media.urx), std::max(crop.llx, crop.urx));
    const double low = std::max(std::min(media.lly, media.ury), std::min(crop.lly, crop.ury));
    const double high = std::min(std::max(media.lly, media.ury), std::max(crop.lly, crop.ury));
    const double wide = right - left;
    const double tall = high - low;
    QPDFObjectHandle turn = page.getAttribute("/Rotate", false);
    const int quarters = turn.isInteger() ? ((turn.getIntValueAsInt() / 90) % 4 + 4) % 4 : 0;
    // y goes down; then turned clockwise.
    const cv::Matx33d upright(1, 0, -left, 0, -1, high, 0, 0, 1);
    switch (quarters) {
    case 1:
        return {cv::Matx33d(0, -1, tall, 1, 0, 0, 0, 0, 1) * upright, {tall, wide}};
    case 2:
        return {cv::Matx33d(-1, 0, wide, 0, -1, tall, 0, 0, 1) * upright, {wide, tall}};
    case 3:
        return {cv::Matx33d(0, 1, 0, -1, 0, wide, 0, 0, 1) * upright, {tall, wide}};
    default:
        return {upright, {wide, tall}};
    }
}

cv::Matx33d matrixOf(QPDFObjectHandle form) {
    QPDFObjectHandle array = form.getDict().getKey("/Matrix");
    if (!array.isMatrix()) {
        return cv::Matx33d::eye();
    }
    const QPDFObjectHandle::Matrix m = array.getArrayAsMatrix();
    return {m.a, m.c, m.e, m.b, m.d, m.f, 0, 0, 1};
}

QPDFObjectHandle formNamed(QPDFObjectHandle resources, const std::string& name) {
    if (resources.isDictionary()) {
        QPDFObjectHandle all = resources.getKey("/XObject");
        if (all.isDictionary() && all.hasKey(name)) {
            QPDFObjectHandle one = all.getKey(name);
            if (one.isStream() && one.getDict().getKey("/Subtype").isNameAndEquals("/Form")) {
                return one;
            }
        }
    }
    return QPDFObjectHandle::newNull();
}

/// Reads a page with the forms that it draws; each form has one number, wherever it is drawn.
class PageReader {
  public:
    void read(QPDFObjectHandle page) {
        const Shown shown = shownOf(QPDFPageObjectHelper(page));
        m_found.size = shown.size;
        PaintState state;
        state.toPage = shown.map;
        readContent(pageContent(page), 0,
                    QPDFPageObjectHelper(page).getAttribute("/Resources", false), state, 0);
    }

    [[nodiscard]] PagePaths& found() { return m_found; }
    /// Forms by their numbers.
    [[nodiscard]] const std::map<QPDFObjGen, int>& forms() const { return m_forms; }
    [[nodiscard]] bool isTooMuch() const { return m_drawn > kMostDrawn; }

  private:
    void readContent(const std::string& content, int stream, const QPDFObjectHandle& resources,
                     const PaintState& state, int depth) {
        m_bytes += content.size();
        if (m_bytes > kMostContentBytes) {
            m_drawn = kMostDrawn + 1;
            return;
        }
        PathReader reader(stream, state, m_found,
                          [&](const std::string& name, const PaintState& now) {
                              readForm(formNamed(resources, name), resources, now, depth + 1);
                          });
        filterContent(content, reader);
    }

    void readForm(QPDFObjectHandle form, const QPDFObjectHandle& resources, PaintState state,
                  int depth) {
        if (!form.isStream() || depth > kDeepest || ++m_drawn > kMostDrawn) {
            return;
        }
        const int number =
            m_forms.try_emplace(form.getObjGen(), static_cast<int>(m_forms.size()) + 1)
                .first->second;
        const auto [content, isNew] = m_contents.try_emplace(number);
        if (isNew) {
            content->second = contentOf(form, kMostContentBytes);
        }
        state.toPage = state.toPage * matrixOf(form);
        QPDFObjectHandle own = form.getDict().getKey("/Resources");
        readContent(content->second, number, own.isDictionary() ? own : resources, state, depth);
    }

    PagePaths m_found;
    std::map<QPDFObjGen, int> m_forms;
    std::map<int, std::string> m_contents;
    std::size_t m_bytes = 0;
    int m_drawn = 0;
};

/// Writes content again without what is gone: its paths are made and not painted, or only filled,
/// its text moves on and is not seen.
class PathRemover : public QPDFObjectHandle::TokenFilter {
  public:
    PathRemover(int stream, const GonePaths& gone) : m_stream(stream), m_gone(gone) {}

    void handleToken(const QPDFTokenizer::Token& token) override {
        if (token.getType() != QPDFTokenizer::tt_word) {
            m_operands.push_back(token);
            return;
        }
        const std::string& word = token.getValue();
        if (paintingOf(word)) {
            writeOperands();
            const PathPlace place{m_stream, m_painting++};
            write(m_gone.paths.contains(place)     ? "n"
                  : m_gone.strokes.contains(place) ? (word.back() == '*' ? "f*" : "f")
                                                   : word);
        } else if (showsText(word) && m_gone.texts.contains({m_stream, m_showing})) {
            write(" 3 Tr "); // neither filled nor stroked
            writeOperands();
            writeToken(token);
            write(' ' + m_mode + " Tr ");
        } else {
            if (word == "Tr") {
                m_mode = modeBefore();
            }
            writeOperands();
            writeToken(token);
        }
        m_showing += showsText(word) ? 1 : 0;
    }

    void handleEOF() override { writeOperands(); }

  private:
    void writeOperands() {
        for (const QPDFTokenizer::Token& one : m_operands) {
            writeToken(one);
        }
        m_operands.clear();
    }

    [[nodiscard]] std::string modeBefore() const {
        for (auto one = m_operands.rbegin(); one != m_operands.rend(); ++one) {
            if (one->getType() == QPDFTokenizer::tt_integer) {
                return one->getValue();
            }
        }
        return m_mode;
    }

    int m_stream;
    int m_painting = 0;
    int m_showing = 0;
    const GonePaths& m_gone;
    std::string m_mode = "0";
    std::vector<QPDFTokenizer::Token> m_operands; ///< and what is between them
};

/// Whether anything of a stream is gone.
bool hasAnyOf(const std::set<PathPlace>& places, int stream) {
    const auto first = places.lower_bound({stream, 0});
    return first != places.end() && first->stream == stream;
}

QPDFObjectHandle pageOf(QPDF& pdf, int page) {
    const std::vector<QPDFObjectHandle>& all = pdf.getAllPages();
    return page >= 1 && static_cast<std::size_t>(page) <= all.size()
               ? all[static_cast<std::size_t>(page) - 1]
               : QPDFObjectHandle::newNull();
}

} // namespace

void GonePaths::add(const GonePaths& more) {
    paths.insert(more.paths.begin(), more.paths.end());
    strokes.insert(more.strokes.begin(), more.strokes.end());
    texts.insert(more.texts.begin(), more.texts.end());
}

std::optional<PagePaths> pathsOf(const QByteArray& pdf, int page) {
    try {
        const std::unique_ptr<QPDF> file = openPdf(pdf);
        QPDFObjectHandle handle = pageOf(*file, page);
        if (!handle.isDictionary()) {
            return std::nullopt;
        }
        PageReader reader;
        reader.read(handle);
        return reader.isTooMuch() ? std::nullopt : std::optional(std::move(reader.found()));
    } catch (const std::exception&) { // what draws the page is more forgiving than qpdf
        return std::nullopt;
    }
}

QByteArray withoutPaths(const QByteArray& pdf, int page, const GonePaths& gone) {
    try {
        const std::unique_ptr<QPDF> file = openPdf(pdf);
        QPDFObjectHandle handle = pageOf(*file, page);
        PageReader reader; // numbers the forms
        reader.read(handle);
        const auto rest = [&](const std::string& content, int stream) {
            PathRemover remover(stream, gone);
            std::string result;
            filterContent(content, remover, &result);
            return result;
        };
        handle.replaceKey("/Contents", file->newStream(rest(pageContent(handle), 0)));
        for (const auto& [id, number] : reader.forms()) {
            if (hasAnyOf(gone.paths, number) || hasAnyOf(gone.strokes, number) ||
                hasAnyOf(gone.texts, number)) {
                QPDFObjectHandle form = file->getObjectByObjGen(id);
                form.replaceStreamData(rest(contentOf(form, kMostContentBytes), number),
                                       QPDFObjectHandle::newNull(), QPDFObjectHandle::newNull());
            }
        }
        QPDFWriter writer(*file);
        writer.setOutputMemory();
        writer.setStreamDataMode(qpdf_s_preserve);
        writer.setPreserveEncryption(false);
        writer.write();
        const std::shared_ptr<Buffer> bytes = writer.getBufferSharedPointer();
        return {reinterpret_cast<const char*>(bytes->getBuffer()),
                static_cast<qsizetype>(bytes->getSize())};
    } catch (const std::exception&) {
        return {};
    }
}

} // namespace otherskein::trace::detail
