#pragma once

#include "workbox/chart_samples.h"
#include "workbox/samples.h"

namespace otherskein::workbox {

/// Makes a workbox of an old schema from the statements that made it then.
inline void makeOldWorkbox(const QString& path, int schema = 1) {
    const QByteArray text =
        bytesOf(QStringLiteral(OTHERSKEIN_SOURCE_DIR "/tests/workbox/schema_%1.sql").arg(schema));
    runSql(path, QString::fromUtf8(text).trimmed().split(QStringLiteral("\n\n")).mid(1));
}

/// What it holds.
inline Contents oldContents() {
    thread::Thread slate;
    slate.code = QStringLiteral("h2");
    slate.name = QStringLiteral("Slate");
    slate.lab = {41.25, -2.5, -9.75};
    slate.fibre = QStringLiteral("cotton");
    slate.finish = thread::Finish::Matt;
    slate.stash = 1.5;
    slate.stock = thread::Stock::In;
    slate.lot = QStringLiteral("B7");
    slate.spread = 0.4;
    slate.note = QStringLiteral("top shelf");
    slate.extra = {QStringLiteral("left")};
    thread::Thread foam;
    foam.code = QStringLiteral("h1");
    foam.name = QStringLiteral("Foam");
    foam.lab = {92, -1, 2};
    foam.entered = colour::Srgb8{0xe9, 0xe8, 0xe4};
    foam.strands = 4;
    foam.lengthM = 10;
    const std::vector<QString> columns{QStringLiteral("code"), QStringLiteral("name"),
                                       QStringLiteral("L"),    QStringLiteral("a"),
                                       QStringLiteral("b"),    QStringLiteral("drawer")};
    return {{{CardId{3},
              QStringLiteral("Harbour"),
              columns,
              {{ThreadId{12}, slate}, {ThreadId{11}, foam}}}},
            {},
            {},
            {}};
}

/// What that of schema 2 holds.
inline Contents oldContents2() {
    Contents contents = oldContents();
    contents.cards[0].columns = {QStringLiteral("code"),  QStringLiteral("name"),
                                 QStringLiteral("L"),     QStringLiteral("a"),
                                 QStringLiteral("b"),     QStringLiteral("stash"),
                                 QStringLiteral("drawer")};
    contents.cards[0].threads.pop_back();
    thread::Ground mist;
    mist.name = QStringLiteral("Sea mist");
    mist.lab = {70.5, -3, -4.25};
    mist.shown = {0xa5, 0xae, 0xb3};
    mist.count = 32;
    mist.over = 2;
    mist.weave = QStringLiteral("linen");
    contents.grounds = {{GroundId{2}, mist}};
    return contents;
}

/// What that of schema 3 holds; charts by their facts.
inline Contents oldContents3() {
    Contents contents = oldContents2();
    StoredChart slope;
    slope.facts = factsOf(ChartId{1}, sampleChart(7, 5, 2));
    contents.charts = {slope};
    contents.colourways = {{ColourwayId{1}, ChartId{1}, QStringLiteral("Dusk"),
                            QByteArrayLiteral(R"({"by":"colour"})")}};
    return contents;
}

/// What that of schema 4 holds: the ground's size and photo besides.
inline Contents oldContents4() {
    Contents contents = oldContents3();
    thread::Ground& piece = contents.grounds.front().ground;
    piece.widthMm = 457.2;
    piece.heightMm = 685.8;
    piece.photo = QByteArray("\x89PNG\0", 5);
    return contents;
}

} // namespace otherskein::workbox
