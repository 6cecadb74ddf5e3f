#include "cli/detail/command_line.h"

#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>

#include <QCoreApplication>

#include <algorithm>
#include <ostream>

namespace otherskein::cli {

namespace {

struct CommandLineTexts {
    Q_DECLARE_TR_FUNCTIONS(CommandLine)
};

constexpr std::size_t kHelpColumn = 26;

base::InputError noValue(const QString& option, const QString& found) {
    const bool isColour =
        option == QStringLiteral("--colour") || option == QStringLiteral("--ground");
    // An unquoted # starts a comment in a shell, which then swallows the colour.
    return badWord(option,
                   isColour ? CommandLineTexts::tr("a colour in quotes after it, such as '#445d76'")
                            : CommandLineTexts::tr("a value after it"),
                   found);
}

/// CLI11 says in English what is wrong with an option; its name leads the sentence.
base::InputError mismatch(const CLI::ArgumentMismatch& error) {
    const QString said = QString::fromUtf8(error.what());
    const qsizetype colon = said.indexOf(QLatin1Char(':'));
    if (colon < 0) {
        const QString option = said.section(QLatin1Char(' '), 0, 0);
        return badWord(option.startsWith(QLatin1Char('-')) ? option : QStringLiteral("--") + option,
                       CommandLineTexts::tr("no value after it"), CommandLineTexts::tr("one"));
    }
    return noValue(said.left(colon), CommandLineTexts::tr("none"));
}

} // namespace

base::InputError badWord(const QString& option, const QString& expected, const QString& found) {
    return base::InputError({option, {}, {}, expected, found});
}

CommandLine::CommandLine(const QString& name, const QString& purpose, Takes takes,
                         const QString& restStands)
    : m_app(std::make_unique<CLI::App>(
          purpose.toStdString() + '\n',
          (name + QLatin1Char(' ') + restStands).trimmed().toStdString())),
      m_name(name), m_takes(takes) {
    m_app->allow_windows_style_options(false); // a path may begin with a slash
    m_app->set_help_flag("-h,--help", CommandLineTexts::tr("show this help").toStdString());
    m_app->get_formatter()->column_width(kHelpColumn);
    m_app->get_formatter()->label("OPTIONS", CommandLineTexts::tr("options").toStdString());
    if (takes == Takes::Leading) {
        m_app->prefix_command();
    } else {
        m_app->allow_extras();
    }
    value("--workbox", CommandLineTexts::tr("FILE"),
          CommandLineTexts::tr("use this workbox, not your usual one"));
}

void CommandLine::value(const std::string& option, const QString& stands, const QString& help) {
    // All values are taken, so that `checkValues` can say in our words that one is too many.
    m_app->add_option(option)
        ->description(help.toStdString())
        ->take_all()
        ->option_text(stands.toStdString());
}

void CommandLine::values(const std::string& option, const QString& stands, const QString& help) {
    value(option, stands, CommandLineTexts::tr("%1 (may be given again)").arg(help));
    m_repeatable.insert(option);
}

void CommandLine::flag(const std::string& option, const QString& help) {
    m_app->add_flag(option)->description(help.toStdString())->disable_flag_override();
}

void CommandLine::footer(const QString& text) {
    m_app->footer(text.toStdString());
}

bool CommandLine::read(Call& call) {
    try {
        parse(call.words);
    } catch (const CLI::CallForHelp&) {
        call.out << help();
        return false;
    } catch (const CLI::ArgumentMismatch& error) {
        throw mismatch(error);
    } catch (const CLI::Error& error) {
        throw badWord(m_name, CommandLineTexts::tr("words as its --help lists them"),
                      QString::fromUtf8(error.what()));
    }
    if (const auto path = word("--workbox")) {
        if (path->isEmpty()) {
            throw badWord(QStringLiteral("--workbox"), CommandLineTexts::tr("a file"),
                          CommandLineTexts::tr("nothing"));
        }
        call.workboxPath = *path;
        call.workboxNamed = true;
    }
    return true;
}

void CommandLine::parse(const QStringList& words) {
    std::vector<std::string> reversed; // CLI11 takes them last first
    std::transform(words.rbegin(), words.rend(), std::back_inserter(reversed),
                   [](const QString& word) { return word.toStdString(); });
    m_app->parse(reversed);
    for (const std::string& word : m_app->remaining()) {
        m_rest.push_back(QString::fromStdString(word));
    }
    checkValues();
    if (m_takes == Takes::Leading) {
        return;
    }
    const auto stray = std::ranges::find_if(m_rest, [this](const QString& word) {
        return m_takes == Takes::Options || word.startsWith(QLatin1Char('-'));
    });
    if (stray != m_rest.end()) {
        throw badWord(m_name,
                      CommandLineTexts::tr("one of its options (%1 --help lists them)").arg(m_name),
                      base::quotedForMessage(*stray));
    }
}

void CommandLine::checkValues() const {
    for (const CLI::Option* option : m_app->get_options()) {
        const QString name = QString::fromStdString(option->get_name());
        if (option->count() > 1 && !m_repeatable.contains(option->get_name())) {
            throw badWord(name, CommandLineTexts::tr("once"),
                          CommandLineTexts::tr("it %1 times").arg(option->count()));
        }
        for (const std::string& value : option->results()) {
            if (value.starts_with("--") && m_app->get_option_no_throw(value)) {
                throw noValue(name, base::quotedForMessage(QString::fromStdString(value)));
            }
        }
    }
}

bool CommandLine::has(const std::string& option) const {
    return m_app->get_option(option)->count() > 0;
}

std::optional<QString> CommandLine::word(const std::string& option) const {
    const std::vector<std::string>& given = m_app->get_option(option)->results();
    return given.empty() ? std::nullopt : std::optional(QString::fromStdString(given.front()));
}

QStringList CommandLine::words(const std::string& option) const {
    QStringList given;
    for (const std::string& word : m_app->get_option(option)->results()) {
        given.push_back(QString::fromStdString(word));
    }
    return given;
}

} // namespace otherskein::cli
