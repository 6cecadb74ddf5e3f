#include "cli/detail/values.h"

#include "base/number.h"

#include <QCoreApplication>

namespace otherskein::cli {

namespace {

struct ValuesTexts {
    Q_DECLARE_TR_FUNCTIONS(Values)
};

} // namespace

int wholeNumber(const CommandLine& line, const std::string& option, int least, int most,
                int otherwise) {
    const std::optional<QString> word = line.word(option);
    if (!word) {
        return otherwise;
    }
    const std::optional<int> value = base::parseWholeNumber(*word);
    if (!value || *value < least || *value > most) {
        throw badWord(QString::fromStdString(option),
                      ValuesTexts::tr("a whole number from %1 to %2").arg(least).arg(most),
                      base::quotedForMessage(*word));
    }
    return *value;
}

double numberOf(const CommandLine& line, const std::string& option, double least, double most,
                double otherwise) {
    const std::optional<QString> word = line.word(option);
    if (!word) {
        return otherwise;
    }
    const std::optional<double> value = base::parseNumber(*word);
    if (!value || *value < least || *value > most) {
        throw badWord(QString::fromStdString(option),
                      ValuesTexts::tr("a number from %1 to %2").arg(least).arg(most),
                      base::quotedForMessage(*word));
    }
    return *value;
}

colour::Srgb8 colourOf(const QString& option, const QString& word) {
    const std::optional<colour::Srgb8> srgb = colour::parseHex(word.trimmed());
    if (!srgb) {
        throw badWord(option, QStringLiteral("#rrggbb"), base::quotedForMessage(word));
    }
    return *srgb;
}

colour::Weights weightsOf(const QString& option, const QString& word) {
    if (word == QStringLiteral("1:1:1")) {
        return colour::kReferenceWeights;
    }
    if (word == QStringLiteral("2:1:1")) {
        return colour::kTextileWeights;
    }
    throw badWord(option, ValuesTexts::tr("1:1:1 or 2:1:1"), base::quotedForMessage(word));
}

thread::Finish finishOf(const QString& option, const QString& word) {
    const std::optional<thread::Finish> finish = thread::finishOf(word);
    if (word.isEmpty() || !finish) {
        throw badWord(option, ValuesTexts::tr("matt, satin, metallic or variegated"),
                      base::quotedForMessage(word));
    }
    return *finish;
}

} // namespace otherskein::cli
