#pragma once

#include "cli/command.h"

#include <CLI/App.hpp>

#include <memory>
#include <optional>
#include <set>
#include <string>

namespace otherskein::cli {

/// The options of one command, parsed by CLI11, which only takes the words apart: what a word means
/// is checked where it is used, and every error is ours to word.
class CommandLine {
  public:
    enum class Takes {
        Options, ///< any word that is not an option is an error
        Leading, ///< options up to the first other word; that and the rest are `rest()`
        Files    ///< words that are not options are `rest()`
    };

    /// `restStands` is what the help shows for the words that are not options.
    CommandLine(const QString& name, const QString& purpose, Takes takes = Takes::Options,
                const QString& restStands = {});

    void value(const std::string& option, const QString& stands, const QString& help);
    /// One value each time that the option is given.
    void values(const std::string& option, const QString& stands, const QString& help);
    void flag(const std::string& option, const QString& help);
    /// Stands below the options in the help.
    void footer(const QString& text);
    [[nodiscard]] std::string help() const { return m_app->help(); }

    /// Reads the words of `call` and takes up its `--workbox`. False when help was asked for, which
    /// is then printed. Errors: InputError.
    [[nodiscard]] bool read(Call& call);

    [[nodiscard]] bool has(const std::string& option) const;
    [[nodiscard]] std::optional<QString> word(const std::string& option) const;
    [[nodiscard]] QStringList words(const std::string& option) const;
    [[nodiscard]] const QStringList& rest() const { return m_rest; }

  private:
    void parse(const QStringList& words);
    /// CLI11 takes an option's name for a value, and values without end.
    void checkValues() const;

    std::unique_ptr<CLI::App> m_app; ///< it cannot be moved
    QString m_name;
    Takes m_takes;
    QStringList m_rest;
    std::set<std::string> m_repeatable;
};

} // namespace otherskein::cli
