#pragma once

// The cli folder: the commands, which work without a display. One file a command: it reads its
// words, asks the libraries, prints the answer. No colour arithmetic, no file formats, no widgets.

#include <QString>
#include <QStringList>

#include <iosfwd>
#include <optional>

namespace otherskein::cli {

/// Where answers and error lines go.
struct Streams {
    std::ostream& out;
    std::ostream& err;
};

/// What the words after the program's name came to.
struct Invocation {
    /// Of the command: 0 done, 2 bad input or bad words. None without a command: the window opens.
    std::optional<int> exitCode;
    /// From `--workbox`, or the default place. It need not exist.
    QString workboxPath;
    /// `--demo`: the window fills an empty workbox with the demo.
    bool demo = false;

    [[nodiscard]] bool wantsWindow() const { return !exitCode; }
};

/// Carries out the command in `words` (which lack the program's name). A QCoreApplication must
/// live: Qt finds SQLite through it when a command opens the workbox.
/// Errors: none; whatever goes wrong becomes one line on `streams.err` and exit code 2.
[[nodiscard]] Invocation run(const QStringList& words, const Streams& streams);

} // namespace otherskein::cli
