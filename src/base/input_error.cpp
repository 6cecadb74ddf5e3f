#include "base/input_error.h"

namespace otherskein::base {

namespace {

constexpr qsizetype kLongestShown = 60;

QString printable(const QString& text) {
    QString shown;
    for (const QChar c : text) {
        const bool breaksLine = c.category() == QChar::Other_Control ||
                                c.category() == QChar::Separator_Line ||
                                c.category() == QChar::Separator_Paragraph;
        if (breaksLine) {
            shown += QStringLiteral("\\x%1").arg(int(c.unicode()), 2, 16, QLatin1Char('0'));
        } else {
            shown += c;
        }
    }
    return shown;
}

std::string lineOf(const InputProblem& problem) {
    QString line = printable(problem.source);
    if (problem.row) {
        line += QLatin1Char(':') + QString::number(*problem.row);
    }
    line += QStringLiteral(": ");
    if (!problem.column.isEmpty()) {
        line += QStringLiteral("column ") + printable(problem.column) + QStringLiteral(": ");
    }
    line += QStringLiteral("expected ") + printable(problem.expected) + QStringLiteral(", found ") +
            printable(problem.found);
    return line.toStdString();
}

} // namespace

InputError::InputError(InputProblem problem)
    : std::runtime_error(lineOf(problem)), m_problem(std::move(problem)) {}

QString quotedForMessage(const QString& text) {
    QString shown = text.left(kLongestShown);
    if (!shown.isEmpty() && shown.back().isHighSurrogate()) {
        shown.chop(1);
    }
    const QString more = shown.size() < text.size() ? QStringLiteral("…") : QString();
    return QLatin1Char('"') + printable(shown) + more + QLatin1Char('"');
}

} // namespace otherskein::base
