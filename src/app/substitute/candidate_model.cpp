#include "app/substitute/candidate_model.h"

#include <QLocale>

#include <algorithm>

namespace otherskein::app {

namespace {

QString warningLines(const colourway::Candidate& candidate, const QString& before) {
    QString lines;
    for (const colourway::Warning& warning : candidate.warnings) {
        lines += before + warning.text;
    }
    return lines;
}

QString wantedText(const colourway::Wanted& wanted) {
    return wanted.code.isEmpty() ? wanted.name
                                 : wanted.code + QLatin1Char(' ') + wanted.name +
                                       QStringLiteral(" (") + wanted.card + QLatin1Char(')');
}

} // namespace

void CandidateModel::setAnswer(const SubstituteAnswer& answer) {
    beginResetModel();
    m_answer = answer;
    endResetModel();
}

int CandidateModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_answer.candidates.size());
}

QVariant CandidateModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const colourway::Candidate& one = candidate(index.row());
    switch (role) {
    case SectionRole:
        return sectionAt(index.row());
    case Qt::DisplayRole:
        return codeText(one) + QStringLiteral("  ") + one.name();
    case Qt::ToolTipRole:
        return one.card() + QStringLiteral(": ") + one.name() +
               warningLines(one, QStringLiteral("\n! "));
    case Qt::AccessibleTextRole:
        return tr("%1 %2, difference %3, grey scale %4. %5. %6.%7")
            .arg(codeText(one), one.name(), differenceText(one.de00), one.greyScale, one.words,
                 stashText(one), warningLines(one, QStringLiteral(" ")));
    default:
        return {};
    }
}

QString CandidateModel::sectionAt(int row) const {
    const auto& found = m_answer.candidates;
    const auto others = std::ranges::find_if_not(found, &colourway::Candidate::isInStash);
    const int owned = static_cast<int>(others - found.begin());
    if (m_answer.state.question.order != colourway::Order::StashFirst || owned == 0 ||
        others == found.end()) {
        return {};
    }
    return row == 0       ? tr("In my stash, nearest first")
           : row == owned ? tr("The others, nearest first")
                          : QString();
}

QString differenceText(double de00) {
    return QLocale().toString(de00, 'f', 1);
}

QString stashText(const colourway::Candidate& candidate) {
    const auto skeins = [](double stash) { return QLocale().toString(stash, 'g', 4); };
    if (!candidate.isBlend()) {
        const thread::Thread& thread = candidate.portions.front().thread.thread;
        if (thread.stash <= 0) {
            return thread.stock == thread::Stock::Out ? CandidateModel::tr("Out of stock")
                   : thread.stock == thread::Stock::Discontinued
                       ? CandidateModel::tr("Discontinued")
                       : CandidateModel::tr("To buy");
        }
        return thread.stash == 1
                   ? CandidateModel::tr("In stash: 1 skein")
                   : CandidateModel::tr("In stash: %1 skeins").arg(skeins(thread.stash));
    }
    QStringList missing;
    for (const auto& portion : candidate.portions) {
        if (portion.thread.thread.stash <= 0) {
            missing.push_back(portion.thread.thread.code);
        }
    }
    if (missing.isEmpty()) {
        return CandidateModel::tr("In stash: both");
    }
    return missing.size() == 1 ? CandidateModel::tr("To buy: %1").arg(missing.front())
                               : CandidateModel::tr("To buy: both");
}

QString codeText(const colourway::Candidate& candidate) {
    if (!candidate.isBlend()) {
        return candidate.portions.front().thread.thread.code;
    }
    const auto& one = candidate.portions[0];
    const auto& other = candidate.portions[1];
    if (one.strands == other.strands) {
        return candidate.code();
    }
    return CandidateModel::tr("%1 × %2 + %3 × %4")
        .arg(one.strands)
        .arg(one.thread.thread.code)
        .arg(other.strands)
        .arg(other.thread.thread.code);
}

QString listText(const SubstituteAnswer& answer) {
    QString text =
        CandidateModel::tr("Instead of %1:").arg(wantedText(answer.state.question.wanted));
    int rank = 0;
    for (const colourway::Candidate& one : answer.candidates) {
        text +=
            QStringLiteral("\n%1. %2  %3  (%4)  ΔE00 %5, %6 %7. %8. %9")
                .arg(++rank)
                .arg(codeText(one), one.name(), one.card(), differenceText(one.de00),
                     CandidateModel::tr("grey scale"), one.greyScale, one.words, stashText(one));
        text += warningLines(one, QStringLiteral("\n     ! "));
    }
    return text + QLatin1Char('\n') +
           CandidateModel::tr("Screen colours guide; the skein in hand decides.") +
           QLatin1Char('\n');
}

} // namespace otherskein::app
