// Grabs the real window on the demo, for scripts/screenshots. Words: the folder, and an end for the
// file names.
#include "app/charts/charts_place.h"
#include "app/frame/look.h"
#include "app/frame/main_window.h"
#include "app/frame/message_bar.h"
#include "app/frame/texts.h"
#include "app/ground/ground_place.h"
#include "app/ground/grounds_dialog.h"
#include "app/ground/measures_dialog.h"
#include "app/ground/shopping_list.h"
#include "app/recolour/recolour_place.h"
#include "app/substitute/substitute_place.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QDir>
#include <QTemporaryDir>
#include <QTest>

#include <cstdio>

using namespace otherskein;

namespace {

bool settled(app::MainWindow& window) {
    QTest::qWait(50);
    const bool answered = QTest::qWaitFor(
        [&] {
            return !window.substitutePlace().isBusy() && !window.recolourPlace().isBusy() &&
                   !window.chartsPlace().isBusy();
        },
        60'000);
    window.messages().hide();
    QTest::qWait(250);
    return answered;
}

/// Chooses a thread on the wall, so that the picture shows what is known of it.
void choose(app::MainWindow& window, const QString& code) {
    for (auto* wall : window.findChildren<QAbstractItemView*>()) {
        if (wall->accessibleName() != QStringLiteral("Wall of threads")) {
            continue;
        }
        const auto found = wall->model()->match(wall->model()->index(0, 0), Qt::AccessibleTextRole,
                                                code, 1, Qt::MatchContains);
        if (!found.isEmpty()) {
            wall->setCurrentIndex(found.front());
        }
    }
}

bool save(app::MainWindow& window, const QString& folder, const QString& name, const QString& end) {
    const QString path = folder + QLatin1Char('/') + name + end + QStringLiteral(".png");
    const bool saved = settled(window) && window.grab().save(path);
    std::printf("%s %s\n", saved ? "wrote" : "could not write", qPrintable(path));
    return saved;
}

/// The matrix; the evening chart on dark cloth before and after its lost threads are pushed; values
/// and colour vision.
bool saveGround(app::MainWindow& window, const QString& folder, const QString& word,
                const QString& end) {
    const auto ground = [&](const QString& name) {
        for (const auto& one : window.session().document().grounds()) {
            if (one.ground.name == name) {
                window.session().chooseGround(one.id);
            }
        }
    };
    app::GroundPlace& place = window.groundPlace();
    const auto show = [&](auto change) {
        app::GroundState next = place.state();
        change(next);
        place.ask(next);
    };
    window.show(app::PlaceId::Ground);
    ground(QStringLiteral("Navy linen"));
    show([](app::GroundState& state) { state.strands = 1; });
    bool good = save(window, folder, QStringLiteral("ground-") + word, end);
    if (app::tone() == app::Tone::Dark) {
        return good;
    }
    show([](app::GroundState& state) {
        state.page = app::GroundPage::Chart;
        state.strands = 1;
    });
    good &= save(window, folder, QStringLiteral("ground-before-") + word, end);
    place.desk().pushAll();
    good &= save(window, folder, QStringLiteral("ground-after-") + word, end);
    show([](app::GroundState& state) { state.strands.reset(); });
    show([](app::GroundState& state) { state.sight.kind = colour::Sight::Kind::Values; });
    good &= save(window, folder, QStringLiteral("ground-values-") + word, end);
    show([](app::GroundState& state) { state.sight.kind = colour::Sight::Kind::Deutan; });
    good &= save(window, folder, QStringLiteral("ground-vision-") + word, end);
    return good;
}

/// Dialogs, each as it opens.
bool saveDialogs(app::MainWindow& window, const QString& folder, const QString& end) {
    app::GroundPlace& place = window.groundPlace();
    app::Session& session = window.session();
    std::vector<const thread::ShadeCard*> cards;
    for (const thread::ShadeCard& card : *session.cards()) {
        cards.push_back(&card);
    }
    app::GroundsDialog grounds(session, place.state());
    app::MeasuresDialog measures(session, place.desk().chosenGround());
    app::ShoppingList shopping(place.desk().subject()->chart.name,
                               colourway::quantitiesOf(*place.desk().subject(), place.desk().now(),
                                                       place.desk().stitched(), {}, cards),
                               {});
    bool good = true;
    for (const auto& [dialog, name] : {std::pair<QDialog*, const char*>{&grounds, "my-grounds"},
                                       {&measures, "measure"},
                                       {&shopping, "shopping-list"}}) {
        dialog->show();
        QTest::qWait(100);
        const QString path =
            folder + QLatin1Char('/') + QLatin1String(name) + end + QStringLiteral(".png");
        good &= dialog->grab().save(path);
    }
    return good;
}

} // namespace

int main(int argc, char* argv[]) {
    QApplication application(argc, argv);
    app::loadTexts(application);
    const QStringList words = QApplication::arguments().mid(1);
    const QString folder = words.value(0, QStringLiteral("."));
    const QString end = words.value(1);
    bool good = true;
    for (const app::Tone tone : {app::Tone::Light, app::Tone::Dark}) {
        const QTemporaryDir scratch;
        app::applyLook(application, tone);
        workbox::Document document(scratch.filePath(QStringLiteral("workbox.sqlite")));
        app::MainWindow window(document);
        window.QMainWindow::show();
        const QString word = app::wordOf(tone);
        if (tone == app::Tone::Light) {
            good &= save(window, folder, QStringLiteral("first-start"), end);
        }
        window.openDemo();
        if (tone == app::Tone::Dark) {
            window.session().chooseChart(document.charts().back().id);
        }
        good &= save(window, folder, QStringLiteral("recolour-") + word, end);
        window.show(app::PlaceId::Charts);
        window.session().chooseChart(document.charts().back().id);
        good &= save(window, folder, QStringLiteral("charts-") + word, end);
        window.show(app::PlaceId::Substitute);
        good &= save(window, folder, QStringLiteral("substitute-") + word, end);
        good &= saveGround(window, folder, word, end);
        if (tone == app::Tone::Light) {
            good &= saveDialogs(window, folder, end);
        }
        window.show(app::PlaceId::Threads);
        choose(window, QStringLiteral("LF-218"));
        good &= save(window, folder, QStringLiteral("threads-") + word, end);
    }
    return good ? 0 : 1;
}
