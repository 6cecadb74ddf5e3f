#include "app/threads/thread_filter.h"

#include <algorithm>

namespace otherskein::app {

namespace {

bool isBeginningOfHex(const QString& text) {
    return text.startsWith(u'#') && text.size() < 7 &&
           std::all_of(text.begin() + 1, text.end(), [](QChar c) {
               return (c >= u'0' && c <= u'9') || (c.toLower() >= u'a' && c.toLower() <= u'f');
           });
}

} // namespace

Search parsedSearch(const QString& text) {
    const QString trimmed = text.trimmed();
    if (const auto near = colour::parseHex(trimmed)) {
        return {{}, near};
    }
    if (isBeginningOfHex(trimmed)) {
        return {};
    }
    return {trimmed.split(u' ', Qt::SkipEmptyParts), std::nullopt};
}

bool passes(const ThreadItem& item, const ThreadsState& state, const Search& search) {
    const thread::Thread& thread = item.thread;
    if (state.onlyStash && thread.stash <= 0) {
        return false;
    }
    if (state.withoutOut &&
        (thread.stock == thread::Stock::Out || thread.stock == thread::Stock::Discontinued)) {
        return false;
    }
    if (state.finish && thread.finish != *state.finish) {
        return false;
    }
    return std::ranges::all_of(search.words, [&](const QString& word) {
        return thread.code.contains(word, Qt::CaseInsensitive) ||
               thread.name.contains(word, Qt::CaseInsensitive);
    });
}

} // namespace otherskein::app
