#include "trace/detail/path_reader.h"

#include "trace/detail/content_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

namespace otherskein::trace::detail {

namespace {

constexpr std::size_t kMostSaved = 256;        // states that wait
constexpr std::size_t kMostOperands = 64;      // before a word; more is no path
constexpr std::size_t kMostSaid = 256;         // letters
constexpr std::size_t kMostPoints = 1'000'000; // of one path
constexpr double kThin = 0.34;                 // of its length, that a filled line is wide
constexpr double kThickest = 8;                // points
constexpr double kCircle = 0.785;              // of its box
constexpr double kOfCircle = 0.08;
constexpr double kRoundest = 0.12; // by which a round thing's sides differ

/// Adds what content says, with one blank wherever it has some.
void addSaid(std::string_view said, std::string& to) {
    bool isBlank = false;
    for (const char c : said.substr(0, kMostSaid)) {
        if (c > ' ' || c < 0) {
            to += c;
        } else if (!isBlank) {
            to += ' ';
        }
        isBlank = c <= ' ' && c >= 0;
    }
    to += '/';
}

cv::Point2d through(const cv::Matx33d& map, const cv::Point2d& point) {
    return {map(0, 0) * point.x + map(0, 1) * point.y + map(0, 2),
            map(1, 0) * point.x + map(1, 1) * point.y + map(1, 2)};
}

/// How much longer lengths are on the page, on the whole.
double scaleOf(const cv::Matx33d& map) {
    return std::sqrt(std::abs(map(0, 0) * map(1, 1) - map(0, 1) * map(1, 0)));
}

uchar byteOf(double share) {
    return static_cast<uchar>(std::lround(255 * std::clamp(share, 0.0, 1.0)));
}

/// The middle of a filled quadrangle that is as narrow as a line.
std::optional<PathLine> narrowArea(std::vector<cv::Point2d> corners) {
    if (corners.size() == 5 && cv::norm(corners[4] - corners[0]) < 1e-6) {
        corners.pop_back();
    }
    if (corners.size() != 4) {
        return std::nullopt;
    }
    const std::array sides{cv::norm(corners[1] - corners[0]), cv::norm(corners[2] - corners[1]),
                           cv::norm(corners[3] - corners[2]), cv::norm(corners[0] - corners[3])};
    const std::size_t end = sides[0] < sides[1] ? 0 : 1; // a side that is an end
    const double width = (sides[end] + sides[end + 2]) / 2;
    const double length = (sides[1 - end] + sides[3 - end]) / 2;
    if (width > kThin * length || width > kThickest ||
        std::abs(sides[end] - sides[end + 2]) > 0.2 * width) {
        return std::nullopt;
    }
    const cv::Point2d from = (corners[end] + corners[end + 1]) / 2;
    const cv::Point2d to = (corners[end + 2] + corners[(end + 3) % 4]) / 2;
    return PathLine{from, to, width};
}

/// The box of a part that is a circle or nearly so, as high as it is wide: curves only, or many
/// corners around as much area.
std::optional<cv::Rect2d> roundBox(const std::vector<cv::Point2d>& points, int curves) {
    constexpr std::size_t kCorners = 8;
    if (points.size() < 4 || (curves < 4 && points.size() < kCorners)) {
        return std::nullopt;
    }
    const auto [left, right] = std::ranges::minmax(points, {}, &cv::Point2d::x);
    const auto [top, bottom] = std::ranges::minmax(points, {}, &cv::Point2d::y);
    const cv::Rect2d box(left.x, top.y, right.x - left.x, bottom.y - top.y);
    const bool isRound = std::abs(box.width - box.height) < kRoundest * box.width;
    double area = 0;
    for (std::size_t i = 0; i < points.size() && curves == 0; ++i) {
        area += points[i].cross(points[(i + 1) % points.size()]) / 2;
    }
    const bool isFull = curves > 0 || std::abs(std::abs(area) / box.area() - kCircle) < kOfCircle;
    return isRound && isFull ? std::optional(box) : std::nullopt;
}

} // namespace

std::optional<Painting> paintingOf(std::string_view word) {
    struct Named {
        std::string_view word;
        Painting painting;
    };
    static constexpr std::array kWords{
        Named{"S", {true, false, false}},  Named{"s", {true, false, true}},
        Named{"f", {false, true, false}},  Named{"F", {false, true, false}},
        Named{"f*", {false, true, false}}, Named{"B", {true, true, false}},
        Named{"B*", {true, true, false}},  Named{"b", {true, true, true}},
        Named{"b*", {true, true, true}}};
    const auto* found = std::ranges::find(kWords, word, &Named::word);
    return found == kWords.end() ? std::nullopt : std::optional(found->painting);
}

bool showsText(std::string_view word) {
    return word == "Tj" || word == "TJ" || word == "'" || word == "\"";
}

PathReader::PathReader(int stream, PaintState state, PagePaths& found, std::size_t& room,
                       Draws draws)
    : m_stream(stream), m_state(std::move(state)), m_found(found), m_room(room),
      m_draws(std::move(draws)) {}

void PathReader::read(std::string_view content) {
    ContentWords words(content);
    while (const std::optional<ContentWord> word = words.next()) {
        if (word->kind == ContentWord::Kind::Operator) {
            carryOut(word->text);
            m_operands.clear();
            m_shownBytes = 0;
        } else if (word->kind == ContentWord::Kind::String) {
            m_shownBytes += static_cast<int>(std::min<std::size_t>(bytesIn(word->text), 1000));
            m_shownBytes = std::min(m_shownBytes, 1000);
        } else if (word->kind == ContentWord::Kind::Operand && m_operands.size() < kMostOperands) {
            m_operands.push_back(word->text);
        }
    }
}

double PathReader::number(std::size_t fromEnd) const {
    return fromEnd < m_operands.size() ? numberIn(m_operands[m_operands.size() - 1 - fromEnd]) : 0;
}

cv::Point2d PathReader::point(std::size_t fromEnd) const {
    return through(m_state.toPage, {number(fromEnd + 1), number(fromEnd)});
}

cv::Matx33d PathReader::operandMatrix() const {
    return {number(5), number(3), number(1), number(4), number(2), number(0), 0, 0, 1};
}

std::string_view PathReader::saidWith(std::string_view word) const {
    if (m_operands.empty()) {
        return word;
    }
    const char* from = m_operands.front().data();
    return {from, static_cast<std::size_t>(word.data() + word.size() - from)};
}

void PathReader::carryOut(std::string_view word) {
    if (const std::optional<Painting> painting = paintingOf(word)) {
        paint(*painting);
        ++m_painting;
        m_parts.clear();
        m_points = 0;
    } else if (word == "n") {
        m_parts.clear();
        m_points = 0;
    } else if (word == "Do" && !m_operands.empty()) {
        m_draws(m_operands.back(), m_state);
    } else if (!readPath(word) && !readText(word)) {
        (void)readState(word);
    }
}

bool PathReader::readText(std::string_view word) {
    const auto move = [&](double x, double y) {
        m_text = m_text * cv::Matx33d(1, 0, x, 0, 1, y, 0, 0, 1);
    };
    if (word == "BT") {
        m_text = cv::Matx33d::eye();
    } else if (word == "Tm") {
        m_text = operandMatrix();
    } else if (word == "TL") {
        m_leading = number(0);
    } else if (word == "Td") {
        move(number(1), number(0));
    } else if (word == "TD") {
        m_leading = -number(0);
        move(number(1), number(0));
    } else if (word == "T*") {
        move(0, -m_leading);
    } else if (showsText(word)) {
        if (word == "'" || word == "\"") {
            move(0, -m_leading);
        }
        // Where the line begins: what is shown after something else, and not moved to, is no
        // number.
        spend(sizeof(ShownText));
        m_found.texts.push_back(
            {{m_stream, m_showing}, through(m_state.toPage * m_text, {0, 0}), m_shownBytes});
        ++m_showing;
    } else {
        return false;
    }
    return true;
}

void PathReader::begin(Part part) {
    m_points += part.points.size();
    m_parts.push_back(std::move(part));
    if (m_points > kMostPoints) {
        throw std::length_error("more points than a path needs");
    }
}

void PathReader::add(const cv::Point2d& to, int curves) {
    if (m_parts.empty()) {
        begin({});
    } else if (m_parts.back().isClosed) { // goes on from where the last one began
        begin({{m_parts.back().points.front()}, false, 0});
    }
    if (++m_points > kMostPoints) {
        throw std::length_error("more points than a path needs");
    }
    Part& part = m_parts.back();
    part.points.push_back(to);
    part.curves += curves;
    if (curves > 0 && part.points.size() > 1) {
        part.longestCurve =
            std::max(part.longestCurve, cv::norm(to - part.points[part.points.size() - 2]));
    }
}

void PathReader::keep(PaintedPath path) {
    path.lines.shrink_to_fit();
    spend(sizeof(PaintedPath) + path.look.size() + path.lines.size() * sizeof(PathLine));
    m_found.paths.push_back(std::move(path));
}

void PathReader::spend(std::size_t bytes) {
    if (bytes > m_room) {
        throw std::length_error("more paths than a page needs");
    }
    m_room -= bytes;
}

bool PathReader::readPath(std::string_view word) {
    if (word == "m") {
        begin({{point(0)}, false, 0});
    } else if (word == "l") {
        add(point(0), 0);
    } else if (word == "c" || word == "v" || word == "y") {
        add(point(0), 1);
    } else if (word == "h") {
        if (!m_parts.empty()) {
            m_parts.back().isClosed = true;
        }
    } else if (word == "re") {
        const cv::Point2d from(number(3), number(2));
        const cv::Point2d size(number(1), number(0));
        Part part;
        for (const cv::Point2d& corner : {from, cv::Point2d(from.x + size.x, from.y), from + size,
                                          cv::Point2d(from.x, from.y + size.y)}) {
            part.points.push_back(through(m_state.toPage, corner));
        }
        part.isClosed = true;
        begin(std::move(part));
    } else {
        return false;
    }
    return true;
}

bool PathReader::readState(std::string_view word) {
    const auto grey = [&] {
        const uchar value = byteOf(number(0));
        return cv::Vec3b(value, value, value);
    };
    const auto rgb = [&] {
        return cv::Vec3b(byteOf(number(0)), byteOf(number(1)), byteOf(number(2)));
    };
    const bool isStroking = !word.empty() && word[0] >= 'A' && word[0] <= 'Z';
    PaintState::Ink& ink = isStroking ? m_state.stroking : m_state.filling;
    if (word == "q") {
        if (m_saved.size() < kMostSaved) {
            m_saved.push_back(m_state);
        } else {
            ++m_unsaved;
        }
    } else if (word == "Q") {
        if (m_unsaved > 0) {
            --m_unsaved;
        } else if (!m_saved.empty()) {
            m_state = std::move(m_saved.back());
            m_saved.pop_back();
        }
    } else if (word == "cm") {
        m_state.toPage = m_state.toPage * operandMatrix();
    } else if (word == "w") {
        m_state.width = number(0);
    } else if (word == "d") {
        const bool isNone = m_operands.size() > 1 && m_operands[0] == "[" && m_operands[1] == "]";
        m_state.dashes = isNone ? std::string_view() : saidWith(word);
    } else if (word == "gs") {
        m_state.more = saidWith(word);
    } else if (word == "G" || word == "g") {
        ink = {saidWith(word), grey()};
    } else if (word == "RG" || word == "rg") {
        ink = {saidWith(word), rgb()};
    } else if (word == "K" || word == "k" || word == "CS" || word == "cs" || word == "SC" ||
               word == "sc" || word == "SCN" || word == "scn") {
        ink = {saidWith(word), std::nullopt};
    } else {
        return false;
    }
    return true;
}

cv::Rect2d PathReader::boxOf(const std::vector<Part>& parts) {
    cv::Point2d low(1e9, 1e9);
    cv::Point2d high(-1e9, -1e9);
    for (const Part& part : parts) {
        for (const cv::Point2d& point : part.points) {
            low = {std::min(low.x, point.x), std::min(low.y, point.y)};
            high = {std::max(high.x, point.x), std::max(high.y, point.y)};
        }
    }
    return {low.x, low.y, std::max(0.0, high.x - low.x), std::max(0.0, high.y - low.y)};
}

void PathReader::paint(const Painting& painting) {
    const PaintState::Ink& ink = painting.strokes ? m_state.stroking : m_state.filling;
    PaintedPath path;
    path.place = {m_stream, m_painting};
    path.colour = ink.colour;
    const double width = m_state.width * scaleOf(m_state.toPage);
    bool isOfLines = true;
    for (const Part& part : m_parts) {
        const std::size_t count = part.points.size();
        if (painting.strokes) {
            const bool isClosed = count > 2 && (part.isClosed || painting.closes ||
                                                part.points.front() == part.points.back());
            path.isClosed |= isClosed;
            path.isFilled |= painting.fills && count > 2;
            isOfLines &= part.curves == 0;
            m_found.longestCurve = std::max(m_found.longestCurve, part.longestCurve);
            for (std::size_t i = 0; i + (isClosed ? 0 : 1) < count; ++i) {
                const cv::Point2d& to = part.points[(i + 1) % count];
                if (part.points[i] != to) {
                    path.lines.push_back({part.points[i], to, width});
                }
            }
        } else if (const auto line = part.curves == 0 ? narrowArea(part.points) : std::nullopt) {
            path.lines.push_back(*line);
            path.isNarrow = true;
        } else if (count > 1) {
            isOfLines = false;
        }
    }
    const bool isFinite = std::ranges::all_of(path.lines, [](const PathLine& line) {
        return std::isfinite(cv::norm(line.to - line.from) + line.from.x + line.from.y +
                             line.width);
    });
    if (!isOfLines || !isFinite) {
        path.lines.clear();
    }
    if (m_parts.size() == 1) {
        path.round = roundBox(m_parts[0].points, m_parts[0].curves);
    }
    if (path.lines.empty() && !painting.strokes) {
        spend(sizeof(FilledArea));
        m_found.areas.push_back({path.place, boxOf(m_parts)});
    }
    if (path.lines.empty() && !path.round) {
        return;
    }
    const double wide = path.lines.empty() || painting.strokes ? width : path.lines[0].width;
    addSaid(ink.said, path.look);
    addSaid(painting.strokes ? m_state.dashes : "filled", path.look);
    addSaid(m_state.more, path.look);
    path.look += std::to_string(std::lround(20 * wide));
    keep(std::move(path));
}

} // namespace otherskein::trace::detail
