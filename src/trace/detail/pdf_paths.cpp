#include "trace/detail/pdf_paths.h"

#include "trace/detail/content_words.h"
#include "trace/detail/path_reader.h"
#include "trace/detail/pdf_content.h"

#include <qpdf/QPDFPageDocumentHelper.hh>
#include <qpdf/QPDFPageObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include <algorithm>
#include <map>
#include <stdexcept>

namespace otherskein::trace::detail {

namespace {

constexpr int kDeepest = 8;             // forms within forms
constexpr std::size_t kMostModes = 256; // of text, that wait
constexpr int kMostDrawn = 20'000;      // forms, each time that one is

/// From the page's own space to points from the top left as it is shown, and its size there.
struct Shown {
    cv::Matx33d map;
    cv::Size2d size;
};

/// A box of the page with its sides in order; none where it has no area, as for what draws pages.
std::optional<cv::Rect2d> boxOf(QPDFPageObjectHelper page, const std::string& name) {
    constexpr double kMostSide = 1e5; // points; the largest that a PDF may have is 14,400
    QPDFObjectHandle array = page.getAttribute(name, false);
    if (!array.isRectangle()) {
        return std::nullopt;
    }
    const QPDFObjectHandle::Rectangle box = array.getArrayAsRectangle();
    const cv::Rect2d result(cv::Point2d(box.llx, box.lly), cv::Point2d(box.urx, box.ury));
    const bool isPlain = result.width > 0 && result.height > 0 && std::abs(box.llx) < kMostSide &&
                         std::abs(box.lly) < kMostSide && std::abs(box.urx) < kMostSide &&
                         std::abs(box.ury) < kMostSide;
    return isPlain ? std::optional(result) : std::nullopt;
}

/// Errors: std::runtime_error where nothing of the page is shown.
Shown shownOf(QPDFPageObjectHelper page) {
    // The size that pages without one are drawn at.
    const cv::Rect2d media = boxOf(page, "/MediaBox").value_or(cv::Rect2d(0, 0, 612, 792));
    const cv::Rect2d box = media & boxOf(page, "/CropBox").value_or(media);
    if (box.width <= 0 || box.height <= 0) {
        throw std::runtime_error("nothing of the page is shown");
    }
    const double left = box.x;
    const double high = box.y + box.height; // y goes up here
    const double wide = box.width;
    const double tall = box.height;
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
        const std::string content = pageContent(page);
        readContent(content, 0, QPDFPageObjectHelper(page).getAttribute("/Resources", false), state,
                    0);
    }

    [[nodiscard]] PagePaths& found() { return m_found; }
    /// Forms by their numbers.
    [[nodiscard]] const std::map<QPDFObjGen, int>& forms() const { return m_forms; }

  private:
    void readContent(const std::string& content, int stream, const QPDFObjectHandle& resources,
                     const PaintState& state, int depth) {
        m_bytes += content.size();
        if (m_bytes > kMostContentBytes) {
            throw std::length_error("more content than a page needs");
        }
        std::map<std::string, QPDFObjectHandle, std::less<>> named;
        PathReader reader(stream, state, m_found, m_room,
                          [&](std::string_view name, const PaintState& now) {
                              auto form = named.find(name);
                              if (form == named.end()) {
                                  const std::string own(name);
                                  form = named.emplace(own, formNamed(resources, own)).first;
                              }
                              readForm(form->second, resources, now, depth + 1);
                          });
        reader.read(content);
    }

    void readForm(QPDFObjectHandle form, const QPDFObjectHandle& resources, PaintState state,
                  int depth) {
        if (!form.isStream() || depth > kDeepest) {
            return;
        }
        if (++m_drawn > kMostDrawn) {
            throw std::length_error("more forms than a page needs");
        }
        const int number =
            m_forms.try_emplace(form.getObjGen(), static_cast<int>(m_forms.size()) + 1)
                .first->second;
        const auto [content, isNew] = m_contents.try_emplace(number);
        if (isNew) {
            content->second = contentOf(form, kMostContentBytes).value_or(std::string());
        }
        state.toPage = state.toPage * matrixOf(form);
        QPDFObjectHandle own = form.getDict().getKey("/Resources");
        readContent(content->second, number, own.isDictionary() ? own : resources, state, depth);
    }

    PagePaths m_found;
    std::map<QPDFObjGen, int> m_forms;
    std::map<int, std::string> m_contents;
    std::size_t m_bytes = 0;
    std::size_t m_room = kRoomForPaths;
    int m_drawn = 0;
};

/// Content without what is gone: its paths are made and not painted, or only filled, its text moves
/// on and is not seen.
std::string without(const std::string& content, int stream, const GonePaths& gone) {
    std::string result;
    result.reserve(content.size());
    ContentWords words(content);
    std::size_t from = 0;  // what is still to be copied
    std::size_t begin = 0; // of what belongs to the next operator
    const auto copyTo = [&](std::size_t end) {
        result.append(content, from, end - from);
        from = end;
    };
    int painting = 0;
    int showing = 0;
    std::string_view operand;
    std::vector<char> modes{'0'}; // of text
    while (const std::optional<ContentWord> word = words.next()) {
        if (word->kind != ContentWord::Kind::Operator) {
            operand = word->text;
            continue;
        }
        const std::string_view said = word->text;
        const auto at = static_cast<std::size_t>(said.data() - content.data());
        if (paintingOf(said)) {
            const PathPlace place{stream, painting++};
            if (gone.paths.contains(place) || gone.strokes.contains(place)) {
                copyTo(at);
                result += gone.paths.contains(place) ? "n" : said.back() == '*' ? "f*" : "f";
                from = at + said.size();
            }
        } else if (showsText(said)) {
            if (gone.texts.contains({stream, showing++})) {
                copyTo(begin);
                result += " 3 Tr "; // neither filled nor stroked
                copyTo(at + said.size());
                result += ' ';
                result += modes.back();
                result += " Tr ";
            }
        } else if (said == "Tr") {
            modes.back() =
                operand.empty() || operand[0] < '0' || operand[0] > '7' ? '0' : operand[0];
        } else if (said == "q" && modes.size() < kMostModes) {
            modes.push_back(modes.back());
        } else if (said == "Q" && modes.size() > 1) {
            modes.pop_back();
        }
        begin = words.at();
    }
    copyTo(content.size());
    return result;
}

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
        return std::move(reader.found());
    } catch (const std::exception&) { // too much of it, or what draws it is more forgiving
        return std::nullopt;
    }
}

QByteArray withoutPaths(const QByteArray& pdf, int page, const GonePaths& gone) {
    try {
        const std::unique_ptr<QPDF> file = openPdf(pdf);
        QPDFObjectHandle handle = pageOf(*file, page);
        PageReader reader; // numbers the forms
        reader.read(handle);
        handle.replaceKey("/Contents", file->newStream(without(pageContent(handle), 0, gone)));
        for (const auto& [id, number] : reader.forms()) {
            if (hasAnyOf(gone.paths, number) || hasAnyOf(gone.strokes, number) ||
                hasAnyOf(gone.texts, number)) {
                QPDFObjectHandle form = file->getObjectByObjGen(id);
                form.replaceStreamData(
                    without(contentOf(form, kMostContentBytes).value(), number, gone),
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
