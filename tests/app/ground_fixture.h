#pragma once

#include "app/ground/ground_matrix.h"
#include "app/ground/ground_place.h"
#include "app/recolour_fixture.h"

#include <QPushButton>

namespace otherskein::tests {

/// The place Ground alone in a window: the round card, a chart of four colours whose third is
/// nearly the dark cloth, and three cloths.
struct OpenGround {
    QTemporaryDir folder;
    std::unique_ptr<workbox::Document> document;
    std::unique_ptr<app::Session> session;
    std::unique_ptr<app::GroundPlace> place;
    workbox::ChartId chart{};
    std::vector<workbox::GroundId> grounds;

    OpenGround() {
        openDocument();
        document->addCard(roundCard());
        chart = document->addChart(squaresInFour());
        const colour::Srgb8 lost = *roundCard().threads[14].entered;
        for (const auto& [name, srgb] : {std::pair{QStringLiteral("Like it"), lost},
                                         {QStringLiteral("Chalk"), {250, 248, 240}},
                                         {QStringLiteral("Coal"), {24, 24, 28}}}) {
            grounds.push_back(document->addGround(thread::groundOfSrgb(name, srgb)));
        }
        session->chooseGround(grounds[0]);
        openPlace();
    }

    void openDocument() {
        document =
            std::make_unique<workbox::Document>(folder.filePath(QStringLiteral("workbox.sqlite")));
        session = std::make_unique<app::Session>(*document);
    }
    void openPlace() {
        place = std::make_unique<app::GroundPlace>(*session);
        place->resize(1194, 776);
        place->show();
        [[maybe_unused]] const bool shown = QTest::qWaitForWindowExposed(place.get());
    }
    void reopen() {
        place.reset();
        session.reset();
        document.reset();
        openDocument();
        openPlace();
    }
    template <typename Widget>
    [[nodiscard]] Widget& named(const char* name) const {
        for (auto* one : place->findChildren<Widget*>()) {
            if (one->accessibleName() == QLatin1String(name)) {
                return *one;
            }
        }
        FAIL("no control is called " << name);
        std::abort();
    }
    [[nodiscard]] QPushButton* wayThatSays(const QString& text) const {
        for (auto* one : place->findChildren<QPushButton*>()) {
            if (one->isVisible() && one->accessibleName().startsWith(text)) {
                return one;
            }
        }
        return nullptr;
    }
    [[nodiscard]] app::GroundMatrix& matrix() const {
        return *place->findChild<app::GroundMatrix*>();
    }
    [[nodiscard]] app::GroundDesk& desk() const { return place->desk(); }
    [[nodiscard]] std::vector<QString> lostCodes() const {
        std::vector<QString> codes;
        for (const std::size_t part : desk().lost()) {
            codes.push_back(desk().now()[part].code());
        }
        return codes;
    }
};

} // namespace otherskein::tests
