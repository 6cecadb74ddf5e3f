#pragma once

#include "base/input_error.h"

#include <QString>
#include <QStringList>

#include <iosfwd>

namespace otherskein::cli {

/// What a command is called with.
struct Call {
    QStringList words; ///< after the command's own name
    QString workboxPath;
    bool workboxNamed = false; ///< by the user, not just the default place
    std::ostream& out;
};

/// A bad word: `option` stands where a file's name would.
[[nodiscard]] base::InputError badWord(const QString& option, const QString& expected,
                                       const QString& found);

// The commands. Each prints its whole answer at the end, so that an error leaves nothing behind.
// Errors: InputError.
void runSubstitute(Call call);
void runRecolour(Call call);
void runConvert(Call call);
void runGround(Call call);
void runQuantities(Call call);
void runTrace(Call call);
void runWorkbox(Call call);

} // namespace otherskein::cli
