#include "app/frame/look.h"

#include <QApplication>
#include <QFont>
#include <QFontDatabase>
#include <QPalette>
#include <QStyleFactory>

/// Resources of a static library are linked only when they are asked for, and outside any
/// namespace.
static void takeInResources() {
    Q_INIT_RESOURCE(app);
}

namespace otherskein::app {

namespace {

const Greys kLight{QColor(0xec, 0xec, 0xec), QColor(0xda, 0xda, 0xda), QColor(0xff, 0xff, 0xff),
                   QColor(0xf8, 0xf8, 0xf8), QColor(0x18, 0x18, 0x18), QColor(0x50, 0x50, 0x50),
                   QColor(0xc2, 0xc2, 0xc2), QColor(0x82, 0x82, 0x82), QColor(0x1a, 0x1a, 0x1a),
                   QColor(0xff, 0xff, 0xff)};
const Greys kDark{QColor(0x2a, 0x2a, 0x2a), QColor(0x36, 0x36, 0x36), QColor(0x1c, 0x1c, 0x1c),
                  QColor(0x46, 0x46, 0x46), QColor(0xf2, 0xf2, 0xf2), QColor(0xbe, 0xbe, 0xbe),
                  QColor(0x4c, 0x4c, 0x4c), QColor(0x8c, 0x8c, 0x8c), QColor(0xee, 0xee, 0xee),
                  QColor(0x14, 0x14, 0x14)};

Tone currentTone = Tone::Light;

QPalette paletteOf(const Greys& g) {
    QPalette palette;
    palette.setColor(QPalette::Window, g.chrome);
    palette.setColor(QPalette::WindowText, g.text);
    palette.setColor(QPalette::Base, g.field);
    palette.setColor(QPalette::AlternateBase, g.chrome);
    palette.setColor(QPalette::Text, g.text);
    palette.setColor(QPalette::PlaceholderText, g.quiet);
    palette.setColor(QPalette::Button, g.chrome);
    palette.setColor(QPalette::ButtonText, g.text);
    palette.setColor(QPalette::BrightText, g.text);
    palette.setColor(QPalette::ToolTipBase, g.strong);
    palette.setColor(QPalette::ToolTipText, g.onStrong);
    palette.setColor(QPalette::Highlight, g.strong);
    palette.setColor(QPalette::HighlightedText, g.onStrong);
    palette.setColor(QPalette::Link, g.text);
    palette.setColor(QPalette::Mid, g.line);
    palette.setColor(QPalette::Dark, g.edge);
    palette.setColor(QPalette::Light, g.field);
    palette.setColor(QPalette::Midlight, g.line);
    palette.setColor(QPalette::Shadow, g.edge);
    for (const auto role : {QPalette::Text, QPalette::WindowText, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, g.edge);
    }
    return palette;
}

QString styleSheetOf(const Greys& g) {
    QString sheet = QStringLiteral(R"(
        QToolTip { color: @onStrong; background: @strong; border: 0; padding: 4px 6px; }
        QLineEdit, QSpinBox, QDoubleSpinBox, QComboBox, QPlainTextEdit {
            background: @field; color: @text; border: 1px solid @edge; border-radius: 6px; padding: 5px 8px;
            selection-background-color: @strong; selection-color: @onStrong; min-height: 18px; }
        QLineEdit:focus, QSpinBox:focus, QDoubleSpinBox:focus, QComboBox:focus, QPlainTextEdit:focus {
            border: 2px solid @text; padding: 4px 7px; }
        QComboBox::drop-down { border: 0; width: 24px; }
        QComboBox::down-arrow { image: url(@down); width: 10px; height: 10px; }
        QSpinBox::up-button, QDoubleSpinBox::up-button { subcontrol-origin: border;
            subcontrol-position: top right; width: 20px; border: 0; margin: 2px 2px 0 0; }
        QSpinBox::down-button, QDoubleSpinBox::down-button { subcontrol-origin: border;
            subcontrol-position: bottom right; width: 20px; border: 0; margin: 0 2px 2px 0; }
        QSpinBox::up-arrow, QDoubleSpinBox::up-arrow { image: url(@up); width: 9px; height: 9px; }
        QSpinBox::down-arrow, QDoubleSpinBox::down-arrow { image: url(@down); width: 9px; height: 9px; }
        QComboBox QAbstractItemView { background: @field; color: @text; border: 1px solid @edge; }
        QPushButton { background: @field; color: @text; border: 1px solid @edge; border-radius: 6px;
            padding: 6px 12px; }
        QPushButton:hover { border-color: @text; }
        QPushButton:focus { border: 2px solid @text; padding: 5px 11px; }
        QPushButton:pressed { background: @line; }
        QPushButton:disabled { color: @edge; border-color: @line; background: @chrome; }
        QPushButton[strong="true"] { background: @strong; color: @onStrong; border-color: @strong; }
        QPushButton[strong="true"]:focus { border: 2px solid @edge; }
        QPushButton[strong="true"]:disabled { background: @line; color: @quiet; border-color: @line; }
        QPushButton[segment="first"], QPushButton[segment="middle"], QPushButton[segment="last"] {
            border-radius: 0; padding: 5px 11px; margin: 0; border-right-width: 0; }
        QPushButton[segment="first"] { border-top-left-radius: 6px; border-bottom-left-radius: 6px; }
        QPushButton[segment="last"] { border-top-right-radius: 6px; border-bottom-right-radius: 6px;
            border-right-width: 1px; }
        QPushButton[segment]:checked { background: @strong; color: @onStrong; border-color: @strong; }
        QPushButton[segment]:focus { text-decoration: underline; border: 1px solid @text; padding: 5px 11px; }
        QCheckBox { spacing: 8px; color: @text; padding: 2px; }
        QCheckBox:focus { background: @line; border-radius: 4px; }
        QCheckBox::indicator { width: 14px; height: 14px; border: 1px solid @edge; border-radius: 4px;
            background: @field; }
        QCheckBox::indicator:checked { background: @strong; border-color: @strong; image: url(@tick); }
        QListView::indicator { width: 14px; height: 14px; border: 1px solid @edge; border-radius: 4px;
            background: @field; }
        QListView::indicator:checked { background: @strong; image: url(@tick); }
        QSlider::groove:horizontal { height: 3px; background: @edge; border-radius: 1px; }
        QSlider::handle:horizontal { width: 14px; height: 14px; margin: -6px 0; border-radius: 7px;
            background: @strong; }
        QSlider::handle:horizontal:focus { border: 2px solid @edge; }
        QMenuBar { background: @chrome; color: @text; }
        QMenuBar::item:selected { background: @line; }
        QMenu { background: @field; color: @text; border: 1px solid @edge; padding: 4px; }
        QMenu::item { padding: 5px 22px; border-radius: 4px; }
        QMenu::item:selected { background: @strong; color: @onStrong; }
        QMenu::item:disabled { color: @edge; }
        QMenu::separator { height: 1px; background: @line; margin: 4px; }
        QScrollBar:vertical { background: transparent; width: 12px; margin: 0; }
        QScrollBar:horizontal { background: transparent; height: 12px; margin: 0; }
        QScrollBar::handle { background: @edge; border-radius: 4px; min-height: 28px; min-width: 28px; margin: 2px; }
        QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
        QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
        QHeaderView::section { background: @chrome; color: @quiet; border: 0; padding: 6px 8px;
            border-bottom: 1px solid @line; }
        QTableView { gridline-color: @line; }
        QTableCornerButton::section { background: @surround; border: 0; border-bottom: 1px solid @line; }
        QAbstractItemView { border: 0; outline: 0; }
        QScrollArea { border: 0; background: transparent; }
        QSplitter::handle { background: @line; }
    )");
    const std::pair<const char*, QColor> colours[] = {
        {"@onStrong", g.onStrong}, {"@strong", g.strong}, {"@surround", g.surround},
        {"@chrome", g.chrome},     {"@field", g.field},   {"@quiet", g.quiet},
        {"@text", g.text},         {"@line", g.line},     {"@edge", g.edge}};
    for (const auto& [name, colour] : colours) {
        sheet.replace(QLatin1String(name), colour.name());
    }
    const QString tone = &g == &kDark ? QStringLiteral("dark") : QStringLiteral("light");
    for (const char* drawing : {"tick", "up", "down"}) {
        sheet.replace(QLatin1Char('@') + QLatin1String(drawing),
                      QStringLiteral(":/icons/%1-%2.svg").arg(QLatin1String(drawing), tone));
    }
    return sheet;
}

} // namespace

const Greys& greys() {
    return currentTone == Tone::Dark ? kDark : kLight;
}

Tone tone() {
    return currentTone;
}

void applyLook(QApplication& application, Tone tone) {
    takeInResources();
    currentTone = tone;
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    QApplication::setPalette(paletteOf(greys()));
#ifdef Q_OS_LINUX
    // Inter is drawn for screens and free; where it is not installed, the system's own font serves.
    QFont font = QApplication::font();
    if (QFontDatabase::families().contains(QStringLiteral("Inter"))) {
        font.setFamilies({QStringLiteral("Inter"), font.family()});
    }
    font.setPointSizeF(10);
    QApplication::setFont(font);
#endif
    application.setStyleSheet(styleSheetOf(greys()));
}

QString wordOf(Tone tone) {
    return tone == Tone::Dark ? QStringLiteral("dark") : QStringLiteral("light");
}

Tone toneOf(const QString& word) {
    return word == QLatin1String("dark") ? Tone::Dark : Tone::Light;
}

QFont scaledFont(double factor, int weight) {
    QFont font = QApplication::font();
    font.setPointSizeF(font.pointSizeF() * factor);
    font.setWeight(QFont::Weight(weight));
    return font;
}

} // namespace otherskein::app
