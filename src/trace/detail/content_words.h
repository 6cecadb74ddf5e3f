#pragma once

#include <optional>
#include <string_view>

namespace otherskein::trace::detail {

/// A word of a page's content; ISO 32000-1, 7.2 and 7.8.
struct ContentWord {
    enum class Kind {
        Operator,
        Operand, ///< a number, a name, or an array's bracket
        String,
        Other ///< a dictionary's bracket
    };
    Kind kind = Kind::Other;
    std::string_view text; ///< as it stands in the content
};

/// Cuts a page's content into words, one after another; pictures within it are passed over. Never
/// fails: damage is cut into words somehow, and an operator that nobody knows does nothing.
class ContentWords {
  public:
    explicit ContentWords(std::string_view content) : m_content(content) {}

    [[nodiscard]] std::optional<ContentWord> next();
    /// Where it has come to: behind the word, and the picture if it begins one.
    [[nodiscard]] std::size_t at() const { return m_at; }

  private:
    void passBlanks();
    void passPicture();
    [[nodiscard]] std::string_view taken(std::size_t from) const {
        return m_content.substr(from, m_at - from);
    }

    std::string_view m_content;
    std::size_t m_at = 0;
};

/// A number as PDFs write it; 0 where it is none.
[[nodiscard]] double numberIn(std::string_view text);

/// How many bytes a string says that stands in content so.
[[nodiscard]] std::size_t bytesIn(std::string_view string);

} // namespace otherskein::trace::detail
