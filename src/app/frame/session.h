#pragma once

#include "chart/neighbours.h"
#include "colourway/coverage.h"
#include "colourway/substitute.h"
#include "workbox/document.h"

#include <QObject>

#include <optional>

namespace otherskein::app {

/// What the places share: the workbox, and the few choices that go with the user from place to
/// place. Choices outlive the session as settings of the workbox.
class Session : public QObject {
    Q_OBJECT

  public:
    explicit Session(workbox::Document& document, QObject* parent = nullptr);

    [[nodiscard]] workbox::Document& document() const { return m_document; }

    /// The fabric in use: the chosen one, else the first of the workbox, else plain white
    /// evenweave.
    [[nodiscard]] thread::Ground ground() const;
    [[nodiscard]] std::optional<workbox::GroundId> groundId() const;
    void chooseGround(workbox::GroundId id);

    /// The chart in use: the chosen one, else the first of the workbox.
    [[nodiscard]] std::optional<workbox::ChartId> chartId() const;
    void chooseChart(workbox::ChartId id);

    /// The key that substitutes are judged against, with its threads' colours; empty when there is
    /// none.
    [[nodiscard]] const chart::Key& key() const { return m_key; }
    [[nodiscard]] const QString& keyName() const { return m_keyName; }
    /// What touches what, by rows of `key`; empty where only a key file is known.
    [[nodiscard]] const std::vector<chart::Neighbours>& touching() const { return m_touching; }
    /// The workbox's chart that the key is of; none for a key file.
    [[nodiscard]] std::optional<workbox::ChartId> keyChart() const { return m_keyChart; }
    /// Takes the key of a chart in the workbox, and goes along when that chart changes.
    void judgeIn(workbox::ChartId id);
    /// Reads a key file and keeps it in the workbox. Errors: InputError; then the old key stays.
    void openKey(const QString& path);
    void clearKey();

    [[nodiscard]] const colourway::Wanted& wanted() const { return m_wanted; }
    void setWanted(const colourway::Wanted& wanted);
    /// The thread of that card and code, if the workbox has it.
    [[nodiscard]] std::optional<colourway::Wanted> wantedThread(const QString& card,
                                                                const QString& code) const;

    /// All cards as values, shared with workers; made anew when a card changes.
    using Cards = std::shared_ptr<const std::vector<thread::ShadeCard>>;
    [[nodiscard]] const Cards& cards();

    /// How wide one strand lies, by fibre, as far as the user has measured it.
    [[nodiscard]] const colourway::PlyWidths& plyWidths() const { return m_plyWidths; }
    void setPlyWidths(const colourway::PlyWidths& widths);
    /// Share of thread that goes into tails and ways, 0.2 where the user has not said.
    [[nodiscard]] double waste() const { return m_waste; }
    void setWaste(double share);

    /// Adds the demo's cards, grounds and charts as one step, and its key. Errors: InputError.
    void openDemo();

  Q_SIGNALS:
    void groundChanged();
    void chartChosen();
    void keyChanged();
    void wantedChanged();
    /// Widths of strands or the waste are not what they were.
    void measuresChanged();
    /// Cards, threads or stash are not what they were.
    void cardsChanged();
    /// The user asked for substitutes of the wanted thread from another place.
    void substituteAsked();

  private:
    workbox::Document& m_document;
    chart::Key m_key;
    QString m_keyName;
    std::vector<chart::Neighbours> m_touching;
    std::optional<workbox::ChartId> m_keyChart;
    colourway::Wanted m_wanted;
    Cards m_cards;
    colourway::PlyWidths m_plyWidths;
    double m_waste = 0.2;

    void takeKey(const QByteArray& bytes, const QString& name);
    /// Key and neighbours of m_keyChart, as that chart is now.
    void refreshKey();
    void followCharts();
    void readMeasures();
};

} // namespace otherskein::app
