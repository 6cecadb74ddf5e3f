#pragma once

#include "cli/command.h"
#include "thread/shade_card.h"

#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace otherskein::cli {

/// Opens the shade cards that a command names: a CARD is the path of a file, or the name of a card
/// in the workbox. Each is read once, so two words for one card give the same object, and cards
/// can be told apart by address even where they share a name. The workbox is opened only when a
/// word is no file, and never made.
class CardFinder {
  public:
    explicit CardFinder(const Call& call);
    ~CardFinder();
    CardFinder(const CardFinder&) = delete;
    CardFinder& operator=(const CardFinder&) = delete;

    /// Errors: InputError when there is no such card, or it cannot be read.
    [[nodiscard]] const thread::ShadeCard& open(const QString& word);
    /// The cards of several words, each once, in the order of their first word.
    [[nodiscard]] std::vector<const thread::ShadeCard*> openAll(const QStringList& words);

    struct Chosen {
        const thread::ShadeCard* card = nullptr;
        const thread::Thread* thread = nullptr;
    };
    /// The thread that `CARD:CODE` means. Paths and codes may hold colons themselves: the last
    /// colon that leaves a card before it counts. Errors: InputError; `option` names a word that
    /// cannot be taken apart.
    [[nodiscard]] Chosen thread(const QString& option, const QString& word);

  private:
    [[nodiscard]] bool isCard(const QString& word);
    [[nodiscard]] const std::vector<thread::ShadeCard>& workboxCards();
    [[nodiscard]] const thread::ShadeCard* workboxCard(const QString& name);
    [[nodiscard]] base::InputError noSuchCard(const QString& word);

    QString m_workboxPath;
    bool m_workboxNamed;
    std::map<QString, std::unique_ptr<const thread::ShadeCard>> m_files; ///< by canonical path
    std::optional<std::vector<thread::ShadeCard>> m_workboxCards;
};

} // namespace otherskein::cli
