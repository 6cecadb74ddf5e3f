#include "trace/detail/pdf_content.h"

#include <qpdf/Pl_QPDFTokenizer.hh>

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

std::string contentOf(QPDFObjectHandle stream, std::size_t most) {
    std::string result;
    Keeper keeper(result, most);
    // What the keeper throws may be taken for damage and kept quiet.
    const bool isRead = stream.pipeStreamData(&keeper, 0, qpdf_dl_generalized, true);
    if (!isRead || keeper.isFull()) {
        return {};
    }
    return result;
}

std::string pageContent(QPDFObjectHandle page) {
    QPDFObjectHandle contents = page.getKey("/Contents");
    std::string result;
    const auto add = [&](QPDFObjectHandle one) {
        if (one.isStream() && result.size() < kMostContentBytes) {
            result += contentOf(one, kMostContentBytes - result.size());
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

void filterContent(const std::string& content, QPDFObjectHandle::TokenFilter& filter,
                   std::string* to) {
    std::string rest;
    Keeper keeper(to != nullptr ? *to : rest, 2 * kMostContentBytes);
    Pl_QPDFTokenizer tokens("content", &filter, to != nullptr ? &keeper : nullptr);
    tokens.write(reinterpret_cast<const unsigned char*>(content.data()), content.size());
    tokens.finish();
}

} // namespace otherskein::trace::detail
