#include "trace/detail/picture_file.h"

#include <QtEndian>

#include <algorithm>
#include <array>
#include <new>
#include <optional>

#include <zlib.h>

namespace otherskein::trace::detail {

namespace {

constexpr qsizetype kSignature = 8;
constexpr qsizetype kFrame = 12; // a chunk's length, name and sum
constexpr qsizetype kHeadBytes = 13;

/// zlib looks without writing, but its types do not say so.
Bytef* zlibBytes(QByteArrayView bytes) {
    return reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
}

struct Chunk {
    QByteArrayView all; ///< with its frame
    QByteArrayView name;
    QByteArrayView data;

    [[nodiscard]] bool hasRightSum() const {
        const QByteArrayView summed = all.sliced(4, 4 + data.size());
        return crc32(0, zlibBytes(summed), static_cast<uInt>(summed.size())) ==
               qFromBigEndian<quint32>(all.data() + all.size() - 4);
    }
    /// Chunks that a decoder may not pass over have a capital first.
    [[nodiscard]] bool isCritical() const { return name[0] >= 'A' && name[0] <= 'Z'; }
};

/// The chunk at `at`; none where the bytes end before it does.
std::optional<Chunk> chunkAt(QByteArrayView png, qsizetype at) {
    if (at + kFrame > png.size()) {
        return std::nullopt;
    }
    const auto length = static_cast<qsizetype>(qFromBigEndian<quint32>(png.data() + at));
    if (length > png.size() - at - kFrame) {
        return std::nullopt;
    }
    return Chunk{png.sliced(at, length + kFrame), png.sliced(at + 4, 4),
                 png.sliced(at + 8, length)};
}

/// Counts what a stream of pixels unpacks to.
class Unpacked {
  public:
    Unpacked() {
        if (inflateInit(&m_state) != Z_OK) {
            throw std::bad_alloc();
        }
    }
    Unpacked(const Unpacked&) = delete;
    Unpacked& operator=(const Unpacked&) = delete;
    ~Unpacked() { inflateEnd(&m_state); }

    /// False where the stream is damaged.
    bool add(QByteArrayView bytes, quint64 most) {
        m_state.next_in = zlibBytes(bytes);
        m_state.avail_in = static_cast<uInt>(bytes.size());
        while (!m_atEnd && m_state.total_out <= most) {
            m_state.next_out = m_room.data();
            m_state.avail_out = static_cast<uInt>(m_room.size());
            const int said = inflate(&m_state, Z_NO_FLUSH);
            m_atEnd = said == Z_STREAM_END;
            if (said == Z_BUF_ERROR || (said == Z_OK && m_state.avail_out > 0)) {
                return true; // wants more
            }
            if (said != Z_OK && !m_atEnd) {
                return false;
            }
        }
        return true;
    }
    [[nodiscard]] bool atEnd() const { return m_atEnd; }
    [[nodiscard]] quint64 made() const { return m_state.total_out; }

  private:
    z_stream m_state{};
    std::array<Bytef, 64 * 1024> m_room{};
    bool m_atEnd = false;
};

/// Bytes of the rows as a PNG packs them, each with its filter's byte.
quint64 packedBytes(const Chunk& head) {
    const quint64 width = qFromBigEndian<quint32>(head.data.data());
    const quint64 height = qFromBigEndian<quint32>(head.data.data() + 4);
    const auto bits = static_cast<quint64>(head.data[8]);
    const char colours = head.data[9];
    const quint64 samples = colours == 2 ? 3 : colours == 4 ? 2 : colours == 6 ? 4 : 1;
    const auto rows = [&](quint64 across, quint64 down) {
        return across == 0 ? 0 : down * (1 + (across * bits * samples + 7) / 8);
    };
    if (head.data[12] == 0) {
        return rows(width, height);
    }
    // Interlaced: seven passes, by where each begins and how far it steps.
    struct Pass {
        quint64 x, y, stepX, stepY;
    };
    quint64 sum = 0;
    for (const Pass& pass : {Pass{0, 0, 8, 8}, Pass{4, 0, 8, 8}, Pass{0, 4, 4, 8}, Pass{2, 0, 4, 4},
                             Pass{0, 2, 2, 4}, Pass{1, 0, 2, 2}, Pass{0, 1, 1, 2}}) {
        const auto count = [](quint64 side, quint64 from, quint64 step) {
            return side > from ? (side - from + step - 1) / step : 0;
        };
        sum += rows(count(width, pass.x, pass.stepX), count(height, pass.y, pass.stepY));
    }
    return sum;
}

bool isHead(const Chunk& chunk) {
    return chunk.name == "IHDR" && chunk.data.size() == kHeadBytes && chunk.hasRightSum();
}

} // namespace

PngHead pngHead(QByteArrayView bytes) {
    const auto head = chunkAt(bytes, kSignature);
    if (!head || !isHead(*head)) {
        return {};
    }
    return {qFromBigEndian<quint32>(head->data.data()),
            qFromBigEndian<quint32>(head->data.data() + 4)};
}

Wholeness pngWholeness(QByteArrayView bytes) {
    const auto head = chunkAt(bytes, kSignature);
    if (!head) {
        return Wholeness::CutShort;
    }
    if (!isHead(*head)) {
        return Wholeness::Damaged;
    }
    const quint64 wanted = packedBytes(*head);
    Unpacked pixels;
    for (qsizetype at = kSignature;;) {
        const auto chunk = chunkAt(bytes, at);
        if (!chunk) {
            return Wholeness::CutShort;
        }
        if (chunk->isCritical() && !chunk->hasRightSum()) {
            return Wholeness::Damaged;
        }
        if (chunk->name == "IDAT" && !pixels.add(chunk->data, wanted)) {
            return Wholeness::Damaged;
        }
        if (chunk->name == "IEND") {
            return pixels.atEnd() && pixels.made() == wanted ? Wholeness::Whole
                                                             : Wholeness::Damaged;
        }
        at += chunk->all.size();
    }
}

Wholeness jpegWholeness(QByteArrayView bytes) {
    const auto byte = [&](qsizetype at) { return static_cast<unsigned char>(bytes[at]); };
    qsizetype at = 2; // behind the start marker
    while (at + 1 < bytes.size()) {
        // Between markers stand the packed pixels; 0xff there is followed by 0 or a restart's mark.
        const unsigned char mark = byte(at + 1);
        if (byte(at) != 0xff || mark == 0 || mark == 0xff || mark == 0x01 ||
            (mark >= 0xd0 && mark <= 0xd8)) {
            ++at;
            continue;
        }
        if (mark == 0xd9) {
            return Wholeness::Whole;
        }
        if (at + 3 >= bytes.size()) {
            break;
        }
        at += 2 + std::max<qsizetype>(2, qFromBigEndian<quint16>(bytes.data() + at + 2));
    }
    return Wholeness::CutShort;
}

QByteArray neededChunks(QByteArrayView png) {
    static constexpr std::array<QByteArrayView, 7> kNeeded{"tRNS", "iCCP", "sRGB", "gAMA",
                                                           "cHRM", "eXIf", "pHYs"};
    QByteArray kept = png.first(std::min(png.size(), kSignature)).toByteArray();
    kept.reserve(png.size());
    for (qsizetype at = kSignature;;) {
        const auto chunk = chunkAt(png, at);
        if (!chunk) {
            return kept;
        }
        if (chunk->isCritical() ||
            (std::ranges::find(kNeeded, chunk->name) != kNeeded.end() && chunk->hasRightSum())) {
            kept.append(chunk->all);
        }
        at += chunk->all.size();
    }
}

} // namespace otherskein::trace::detail
