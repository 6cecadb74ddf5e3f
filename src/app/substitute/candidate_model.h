#pragma once

#include "app/substitute/substitute_state.h"

#include <QAbstractListModel>

namespace otherskein::app {

/// The ranked candidates, for the list and for screen readers.
class CandidateModel : public QAbstractListModel {
    Q_OBJECT

  public:
    using QAbstractListModel::QAbstractListModel;

    /// The heading over a row that begins a group; empty elsewhere.
    static constexpr int SectionRole = Qt::UserRole;

    void setAnswer(const SubstituteAnswer& answer);
    [[nodiscard]] const SubstituteAnswer& answer() const { return m_answer; }
    [[nodiscard]] const colourway::Candidate& candidate(int row) const {
        return m_answer.candidates[static_cast<std::size_t>(row)];
    }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

  private:
    SubstituteAnswer m_answer;

    [[nodiscard]] QString sectionAt(int row) const;
};

/// ΔE00 as it is shown: one decimal.
[[nodiscard]] QString differenceText(double de00);
/// "In stash: 1.5 skeins", "In stash: both", "To buy", "To buy: LF-219".
[[nodiscard]] QString stashText(const colourway::Candidate& candidate);
/// "LF-217 + LF-220" with its strands: "LF-217 + LF-220, one strand each", "2 of LF-217 + 1 of
/// LF-220".
[[nodiscard]] QString codeText(const colourway::Candidate& candidate);
/// The whole list as plain text to hand on.
[[nodiscard]] QString listText(const SubstituteAnswer& answer);

} // namespace otherskein::app
