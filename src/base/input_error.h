#pragma once

// The base folder: the few things that every folder needs (the one error for bad input, numbers
// as text, CSV records, whole files). Nothing here knows a colour, a thread or a window.

#include <QString>

#include <optional>
#include <stdexcept>

namespace otherskein::base {

/// What is wrong with something that came from outside.
struct InputProblem {
    QString source;         ///< file, option or statement as the user knows it
    std::optional<int> row; ///< from 1; the header of a table is row 1
    QString column;         ///< empty where there is none
    QString expected;       ///< a noun phrase, with what to do where that is not plain
    QString found;          ///< as it stood; made printable and cut when the line is built
};

/// Bad input. `what()` is the finished line, UTF-8, never more than one line:
/// `harbour.csv:14: column srgb: expected #rrggbb, found "#12345"`.
class InputError : public std::runtime_error {
  public:
    explicit InputError(InputProblem problem);

    [[nodiscard]] const InputProblem& problem() const { return m_problem; }
    [[nodiscard]] QString line() const { return QString::fromUtf8(what()); }

  private:
    InputProblem m_problem;
};

/// `text` in quotes, with control characters shown as escapes and long text cut: one printable
/// line.
[[nodiscard]] QString quotedForMessage(const QString& text);

} // namespace otherskein::base
