#pragma once

#include "colourway/detail/targets.h"

#include <optional>

namespace otherskein::colourway {

/// Ours, found by looking at results (no source): how the jobs word themselves as a Problem.
namespace job {
/// Choices that are looked at for each part, and how many in all at most (roughly).
inline constexpr std::size_t kMostNear = 60;
inline constexpr std::size_t kLeastNear = 12;
inline constexpr std::size_t kAboutChoices = 900;
/// For each pair of rows that share a thread: more than any colour can bring.
inline constexpr double kOwnThread = 1000;
inline constexpr std::size_t kMostParts = 3000;
} // namespace job

/// One choice a part, and what the solver says it costs.
struct Solved {
    std::vector<Choice> now;
    Cost cost;
};

/// Every part takes the choice nearest to its target that keeps order and separation. Parts that
/// the key calls for in the same thread keep sharing one. Empty when stopped.
[[nodiscard]] std::optional<Solved> solveColours(const Subject& subject,
                                                 const RecolourQuestion& question,
                                                 const thread::ThreadPool& pool,
                                                 const std::vector<Target>& targets,
                                                 const Progress& progress);

/// A palette near `targets`, its colours told apart, then spread over the motifs so that neighbours
/// differ by the floor. Empty when stopped.
[[nodiscard]] std::optional<Solved> solveMotifs(const Subject& subject,
                                                const RecolourQuestion& question,
                                                const thread::ThreadPool& pool,
                                                const std::vector<Target>& targets,
                                                std::uint64_t variation, const Progress& progress);

/// What a palette of `count` colours aims at under the question's theme: a scheme a variation.
struct Scheme {
    QString name; ///< translated; a few words for the wall
    std::vector<Target> targets;
};
[[nodiscard]] Scheme schemeOf(const RecolourQuestion& question, std::size_t count,
                              std::uint64_t variation);
/// Colours that are given: those of locks, and threads that the theme asks for by code.
[[nodiscard]] std::vector<Choice> fixedChoices(const RecolourQuestion& question,
                                               const thread::ThreadPool& pool);
/// How many colours suit so many motifs, where the user leaves it open.
[[nodiscard]] std::size_t coloursFor(const RecolourQuestion& question, std::size_t motifs);

} // namespace otherskein::colourway
