#pragma once

#include "chart/key.h"
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

    /// The chart's key that substitutes are judged against; empty when there is none.
    [[nodiscard]] const chart::Key& key() const { return m_key; }
    [[nodiscard]] const QString& keyName() const { return m_keyName; }
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

    /// Adds the demo's cards and grounds as one step, and its key. Errors: InputError.
    void openDemo();

  Q_SIGNALS:
    void groundChanged();
    void keyChanged();
    void wantedChanged();
    /// Cards, threads or stash are not what they were.
    void cardsChanged();
    /// The user asked for substitutes of the wanted thread from another place.
    void substituteAsked();

  private:
    workbox::Document& m_document;
    chart::Key m_key;
    QString m_keyName;
    colourway::Wanted m_wanted;
    Cards m_cards;

    void takeKey(const QByteArray& bytes, const QString& name);
};

} // namespace otherskein::app
