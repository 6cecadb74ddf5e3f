#pragma once

#include "thread/thread.h"

#include <QByteArray>
#include <QString>

#include <vector>

namespace otherskein::thread {

/// All the threads of one line, as entered by the user.
struct ShadeCard {
    QString name;
    std::vector<Thread> threads;
    /// The header as read, known and unknown columns, so that a file is written back in its own
    /// order. Empty for a card that was made by hand.
    std::vector<QString> columns;

    bool operator==(const ShadeCard&) const = default;
};

/// The columns of `card` that the contract does not know, in order: `Thread::extra` follows them.
[[nodiscard]] std::vector<QString> extraColumns(const ShadeCard& card);

[[nodiscard]] const Thread* findThread(const ShadeCard& card, const QString& code);

namespace limits {
inline constexpr qint64 kMostCardBytes = 64LL * 1024 * 1024;
inline constexpr int kMostThreads = 100'000;
} // namespace limits

/// Reads a shade card file, CSV or CGATS (told apart by its content). The card's name is the file's
/// stem. Errors: InputError; see shade_card_csv.h and shade_card_cgats.h for what each reader
/// accepts.
[[nodiscard]] ShadeCard readShadeCard(const QString& path);

/// The same from bytes; `source` names them in errors.
[[nodiscard]] ShadeCard parseShadeCard(const QByteArray& bytes, const QString& source);

/// The card as a CSV file that `parseShadeCard` reads back to the same card.
[[nodiscard]] QByteArray shadeCardCsv(const ShadeCard& card);

} // namespace otherskein::thread
