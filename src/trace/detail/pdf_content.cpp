#include "trace/detail/pdf_content.h"

#include <qpdf/Pipeline.hh>

#include <stdexcept>

namespace otherskein::trace::detail {

namespace {

/// Keeps what comes, up to a limit.
class Keeper : public Pipeline {
  public:
    Keeper(std::string& to, std::size_t most)
        : Pipeline("content", nullptr), m_to(to), m_most(most) {}

    void write(unsigned char const* bytes, std::size_t count) override {
        if (m_to.size() + count > m_most) {
            m_isFull = true;
            throw std::length_error("more content than a page needs");
        }
        m_to.append(reinterpret_cast<const char*>(bytes), count);
    }
    void finish() override {}

    [[nodiscard]] bool isFull() const { return m_isFull; }

  private:
    std::string& m_to;
    std::size_t m_most;
    bool m_isFull = false;
};

} // namespace

std::unique_ptr<QPDF> openPdf(const QByteArray& pdf) {
    auto result = std::make_unique<QPDF>();
    result->setSuppressWarnings(true);
    result->processMemoryFile("page", pdf.constData(), static_cast<std::size_t>(pdf.size()));
    return result;
}

std::optional<std::string> contentOf(QPDFObjectHandle stream, std::size_t most) {
    std::string result;
    Keeper keeper(result, most);
    // What the keeper throws may be taken for damage and kept quiet.
    const bool isRead = stream.pipeStreamData(&keeper, 0, qpdf_dl_generalized, true);
    if (keeper.isFull()) {
        throw std::length_error("more content than a page needs");
    }
    return isRead ? std::optional(std::move(result)) : std::nullopt;
}

std::string pageContent(QPDFObjectHandle page) {
    QPDFObjectHandle contents = page.getKey("/Contents");
    std::string result;
    const auto add = [&](QPDFObjectHandle one) {
        if (!one.isStream()) {
            return;
        }
        const auto content = contentOf(one, kMostContentBytes - result.size());
        if (!content) { // what draws the page may show a part of it
            throw std::runtime_error("content that cannot be read");
        }
        result += *content;
        if (result.size() < kMostContentBytes) {
            result += '\n';
        }
    };
    if (contents.isArray()) {
        for (const QPDFObjectHandle& one : contents.getArrayAsVector()) {
            add(one);
        }
    } else {
        add(contents);
    }
    return result;
}

} // namespace otherskein::trace::detail
