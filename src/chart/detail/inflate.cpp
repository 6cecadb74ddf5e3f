#include "chart/detail/inflate.h"

#include <zlib.h>

#include <algorithm>
#include <new>

namespace otherskein::chart {

namespace {

/// zlib looks without writing, but its types do not say so.
Bytef* zlibBytes(QByteArrayView bytes) {
    return reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
}

class Inflater {
  public:
    explicit Inflater(QByteArrayView stream) {
        m_state.next_in = zlibBytes(stream);
        m_state.avail_in = static_cast<uInt>(stream.size());
        if (inflateInit(&m_state) != Z_OK) {
            throw std::bad_alloc();
        }
    }
    Inflater(const Inflater&) = delete;
    Inflater& operator=(const Inflater&) = delete;
    ~Inflater() { inflateEnd(&m_state); }

    /// Fills `out` from `at` on; what zlib says.
    int fill(QByteArray& out, qsizetype at) {
        m_state.next_out = reinterpret_cast<Bytef*>(out.data() + at);
        m_state.avail_out = static_cast<uInt>(out.size() - at);
        return inflate(&m_state, Z_NO_FLUSH);
    }
    [[nodiscard]] qsizetype made() const { return static_cast<qsizetype>(m_state.total_out); }

  private:
    z_stream m_state{};
};

} // namespace

std::optional<QByteArray> inflated(QByteArrayView stream, qsizetype most) {
    constexpr qsizetype kFirstBytes = 64 * 1024;
    Inflater inflater(stream);
    QByteArray out;
    out.resize(std::min(most, kFirstBytes) + 1); // one more, to see that there are more than `most`
    while (true) {
        const int said = inflater.fill(out, inflater.made());
        if (inflater.made() > most) {
            return std::nullopt;
        }
        if (said == Z_STREAM_END) {
            out.resize(inflater.made());
            return out;
        }
        if (said != Z_OK || inflater.made() < out.size()) {
            return std::nullopt; // damaged, or there is room left and nothing to fill it with
        }
        out.resize(std::min(most + 1, 2 * out.size()));
    }
}

quint32 crc32Of(QByteArrayView bytes) {
    return static_cast<quint32>(crc32(0, zlibBytes(bytes), static_cast<uInt>(bytes.size())));
}

} // namespace otherskein::chart
