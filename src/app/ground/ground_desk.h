#pragma once

#include "app/frame/session.h"
#include "app/ground/ground_state.h"
#include "colourway/recolour.h"
#include "colourway/ways_out.h"

#include <QObject>

#include <memory>

class QTimer;

namespace otherskein::app {

/// A ground as it is judged: with the count that the user asked for.
struct GroundColumn {
    workbox::GroundId id{};
    thread::Ground ground;
};

/// A thread, and how it stands on each of the grounds.
struct GroundRow {
    colourway::Choice choice;
    int strands = 2;
    std::optional<std::size_t> part;     ///< of the chart
    int stitches = 0;                    ///< of the part
    std::vector<colourway::Contrast> on; ///< one a column
    /// Fewest strands that cover 95 % there, one a column; none for backstitch, or beyond twelve.
    std::vector<std::optional<int>> toCover;
};

/// What lies on the table in Ground: threads against grounds, and for a chart which parts are lost
/// and what can be done. The truth is the workbox: every edit is a step of its undo history and
/// comes back by its signals. No widgets.
class GroundDesk : public QObject {
    Q_OBJECT

  public:
    explicit GroundDesk(Session& session, QObject* parent = nullptr);
    ~GroundDesk() override;

    /// While nobody looks, changes are noted and taken in later.
    void setActive(bool active);

    [[nodiscard]] const GroundState& state() const { return m_state; }
    void ask(const GroundState& state);
    void setDivider(double share) { m_state.divider = share; }

    [[nodiscard]] const std::vector<GroundColumn>& columns() const { return m_columns; }
    [[nodiscard]] const std::vector<GroundRow>& rows() const { return m_rows; }
    /// The ground in use among the columns; none where it is hidden.
    [[nodiscard]] std::optional<std::size_t> chosenColumn() const;
    /// The ground in use with the count asked for.
    [[nodiscard]] thread::Ground chosenGround() const;

    /// The chart taken apart by its key. Null unless threads are a chart's.
    [[nodiscard]] const std::shared_ptr<const colourway::Subject>& subject() const {
        return m_subject;
    }
    /// What each part is stitched in.
    [[nodiscard]] const std::vector<colourway::Choice>& now() const { return m_now; }
    /// Whether `now` is another than the chart's own, which the picture then shows beside it.
    [[nodiscard]] bool isRecoloured() const { return m_recoloured; }
    [[nodiscard]] colourway::Stitched stitched() const;
    /// How the parts stand on the ground in use, in their order.
    [[nodiscard]] const std::vector<colourway::Contrast>& contrasts() const { return m_contrasts; }
    /// Parts that vanish there, least contrast first.
    [[nodiscard]] const std::vector<std::size_t>& lost() const { return m_lost; }
    /// Grounds of the workbox besides the one in use, as `WaysOut::grounds` counts them.
    [[nodiscard]] const std::vector<GroundColumn>& otherGrounds() const { return m_others; }
    [[nodiscard]] colourway::WaysOut waysOut(std::size_t part);

    // Edits of the workbox, each one undo step.
    /// The part takes that thread in the colourway shown; without one, a new one is kept.
    void take(std::size_t part, const colourway::Choice& choice);
    /// Every lost part takes a thread that shows.
    void pushAll();
    /// The key says more strands for the part, and the key's strands are judged.
    void moreStrands(std::size_t part, int strands);

  Q_SIGNALS:
    void changed();
    void told(const QString& text);
    void refused(const QString& line);

  private:
    /// What the subject was made from.
    struct Source {
        std::shared_ptr<const chart::Chart> chart;
        QByteArray colourway;
        Session::Cards cards;
        bool operator==(const Source&) const = default;
    };

    Session& m_session;
    workbox::Document& m_document;
    QTimer* m_rememberSoon;
    bool m_isActive = false;
    bool m_isStale = true;
    GroundState m_state;
    QString m_remembered;
    Source m_source;
    std::shared_ptr<const colourway::Subject> m_subject;
    /// Of a colourway by motifs: the chart and choices that it is kept by.
    std::shared_ptr<const colourway::Subject> m_motifSubject;
    std::vector<colourway::Choice> m_motifNow;
    std::vector<colourway::Choice> m_now;
    bool m_recoloured = false;
    std::vector<GroundColumn> m_columns;
    std::vector<GroundColumn> m_others;
    std::vector<GroundRow> m_rows;
    std::vector<colourway::Contrast> m_contrasts;
    std::vector<std::size_t> m_lost;
    std::shared_ptr<const thread::ThreadPool> m_pool; ///< of all cards, made when first needed
    Session::Cards m_poolCards;

    void refresh();
    void takeSource();
    void takeColourway(const Source& source);
    void takeColumns();
    void takeRows();
    void judge();
    void remember();
    void rememberNow();
    [[nodiscard]] thread::Ground asAsked(thread::Ground ground) const;
    [[nodiscard]] const thread::ThreadPool& pool();
    [[nodiscard]] std::vector<const thread::ShadeCard*> cards();
    void addRow(const colourway::Choice& choice, int strands, std::optional<std::size_t> part,
                int stitches);
    void keep(const std::vector<colourway::Choice>& now, const std::vector<std::size_t>& changed,
              const QString& text);
};

/// A thread by itself, as charts take it.
[[nodiscard]] colourway::Choice choiceOf(const QString& card, const thread::Thread& thread,
                                         int strands);

} // namespace otherskein::app
