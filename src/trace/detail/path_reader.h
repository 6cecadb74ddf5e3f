#pragma once

#include "trace/detail/pdf_content.h"
#include "trace/detail/pdf_paths.h"

#include <functional>

namespace otherskein::trace::detail {

/// How things are painted at a place in a page's content.
struct PaintState {
    cv::Matx33d toPage = cv::Matx33d::eye(); ///< from user space
    double width = 1;                        ///< of strokes, in user space
    std::string dashes;
    std::string more; ///< opacity and such, by name
    struct Ink {
        std::string said; ///< as the content says it
        std::optional<cv::Vec3b> colour;
    };
    Ink stroking{"0 G", cv::Vec3b(0, 0, 0)};
    Ink filling{"0 g", cv::Vec3b(0, 0, 0)};
};

/// Whether a word of a page's content paints a path, and how; ISO 32000-1, table 60.
struct Painting {
    bool strokes = false;
    bool fills = false;
    bool closes = false;
};
[[nodiscard]] std::optional<Painting> paintingOf(std::string_view word);

/// Whether a word shows text; ISO 32000-1, table 109.
[[nodiscard]] bool showsText(std::string_view word);

/// Reads what a stream of content paints.
class PathReader : public QPDFObjectHandle::TokenFilter {
  public:
    /// `draws` is called where a form is drawn, with its name and how things are painted then.
    using Draws = std::function<void(const std::string& name, const PaintState& state)>;

    PathReader(int stream, PaintState state, PagePaths& found, Draws draws);

    void handleToken(const QPDFTokenizer::Token& token) override;

  private:
    struct Part {
        std::vector<cv::Point2d> points;
        bool isClosed = false;
        int curves = 0;
        double longestCurve = 0;
    };

    void read(const std::string& word);
    [[nodiscard]] bool readState(const std::string& word);
    [[nodiscard]] bool readPath(const std::string& word);
    [[nodiscard]] bool readText(const std::string& word);
    [[nodiscard]] static cv::Rect2d boxOf(const std::vector<Part>& parts);
    void paint(const Painting& painting);
    [[nodiscard]] double number(std::size_t fromEnd) const;
    [[nodiscard]] cv::Point2d point(std::size_t fromEnd) const;
    [[nodiscard]] cv::Matx33d operandMatrix() const;
    [[nodiscard]] std::string saidBefore(const std::string& word) const;

    int m_stream;
    int m_painting = 0;
    PaintState m_state;
    std::vector<PaintState> m_saved;
    std::vector<std::string> m_operands;
    std::vector<Part> m_parts;
    cv::Matx33d m_text = cv::Matx33d::eye(); ///< from a line of text to user space
    double m_leading = 0;
    int m_showing = 0;
    int m_shownBytes = 0;
    PagePaths& m_found;
    Draws m_draws;
};

} // namespace otherskein::trace::detail
