#pragma once

#include "trace/detail/pdf_paths.h"

#include <functional>
#include <string_view>

namespace otherskein::trace::detail {

/// How things are painted at a place in a page's content.
struct PaintState {
    cv::Matx33d toPage = cv::Matx33d::eye(); ///< from user space
    double width = 1;                        ///< of strokes, in user space
    // As the content says it, which must outlive them.
    std::string_view dashes;
    std::string_view more; ///< opacity and such, by name
    struct Ink {
        std::string_view said;
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

/// Bytes that what is read of a page may take.
inline constexpr std::size_t kRoomForPaths = 64U << 20U;

/// Reads what a stream of content paints.
class PathReader {
  public:
    /// `draws` is called where a form is drawn, with its name and how things are painted then.
    using Draws = std::function<void(std::string_view name, const PaintState& state)>;

    PathReader(int stream, PaintState state, PagePaths& found, std::size_t& room, Draws draws);

    /// Errors: std::length_error where `room`, in bytes, is not enough.
    void read(std::string_view content);

  private:
    struct Part {
        std::vector<cv::Point2d> points;
        bool isClosed = false;
        int curves = 0;
        double longestCurve = 0;
    };

    void carryOut(std::string_view word);
    void begin(Part part);
    void add(const cv::Point2d& to, int curves);
    void keep(PaintedPath path);
    void spend(std::size_t bytes);
    [[nodiscard]] bool readState(std::string_view word);
    [[nodiscard]] bool readPath(std::string_view word);
    [[nodiscard]] bool readText(std::string_view word);
    [[nodiscard]] static cv::Rect2d boxOf(const std::vector<Part>& parts);
    void paint(const Painting& painting);
    [[nodiscard]] double number(std::size_t fromEnd) const;
    [[nodiscard]] cv::Point2d point(std::size_t fromEnd) const;
    [[nodiscard]] cv::Matx33d operandMatrix() const;
    [[nodiscard]] std::string_view saidWith(std::string_view word) const;

    int m_stream;
    int m_painting = 0;
    PaintState m_state;
    std::vector<PaintState> m_saved;
    std::size_t m_unsaved = 0; ///< states deeper than are kept
    std::vector<std::string_view> m_operands;
    std::vector<Part> m_parts;
    std::size_t m_points = 0;                ///< in the parts
    cv::Matx33d m_text = cv::Matx33d::eye(); ///< from a line of text to user space
    double m_leading = 0;
    int m_showing = 0;
    int m_shownBytes = 0;
    PagePaths& m_found;
    std::size_t& m_room;
    Draws m_draws;
};

} // namespace otherskein::trace::detail
