#pragma once

// The app folder: the window. frame/ holds what all places share (the look, the rail, the session);
// each place has a folder. Thin over the libraries: no colour science and no file format here.

#include <QColor>
#include <QString>

class QApplication;
class QFont;

namespace otherskein::app {

enum class Tone { Light, Dark };

/// The greys of one tone. No tint anywhere, so that colours are judged against a neutral surround
/// (ISO 3664). Text colours reach WCAG AA (4.5:1) on every ground that they stand on.
struct Greys {
    QColor chrome;   ///< panels and bars
    QColor surround; ///< behind colours
    QColor field;    ///< what can be typed into or chosen from
    QColor chosen;   ///< a selected row
    QColor text;
    QColor quiet;  ///< second-rank text
    QColor line;   ///< hairlines
    QColor edge;   ///< outlines of controls, 3:1 on chrome
    QColor strong; ///< filled controls; text on them is `onStrong`
    QColor onStrong;
};

[[nodiscard]] const Greys& greys();
[[nodiscard]] Tone tone();

/// Dresses the whole application; widgets repaint by themselves.
void applyLook(QApplication& application, Tone tone);

[[nodiscard]] QString wordOf(Tone tone);
[[nodiscard]] Tone toneOf(const QString& word);

/// Text a step larger or smaller than the application's.
[[nodiscard]] QFont scaledFont(double factor, int weight = 400);

} // namespace otherskein::app
