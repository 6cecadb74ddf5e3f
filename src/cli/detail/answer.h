#pragma once

#include "colour/lab.h"
#include "colour/srgb.h"
#include "thread/thread.h"

#include <QJsonArray>
#include <QJsonObject>
#include <QString>

#include <iosfwd>

namespace otherskein::cli {

// How answers are written: numbers in full for `--json`, rounded as a person reads them in text.

[[nodiscard]] QJsonArray labJson(const colour::Lab& lab);

/// Puts into `object` what tells the thread and its colour: card, code, name, lab, srgb.
void addColour(QJsonObject& object, const QString& card, const thread::Thread& thread);

/// The same and the stash; fibre, finish, stock and spread where they are stated.
void addThread(QJsonObject& object, const QString& card, const thread::Thread& thread);

/// One JSON document and a line end.
void print(std::ostream& out, const QJsonObject& document);
void print(std::ostream& out, const QString& text);

/// A ΔE00 with one decimal, below 1 with two.
[[nodiscard]] QString differenceText(double de00);

/// "#445d76  (L* 38.1, a* -3.2, b* -16.3)".
[[nodiscard]] QString colourText(const colour::Lab& lab, const colour::Srgb8& srgb);

/// The last line of every answer about colours.
[[nodiscard]] QString caution();

} // namespace otherskein::cli
