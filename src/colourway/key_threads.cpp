#include "colourway/key_threads.h"

namespace otherskein::colourway {

const thread::Thread* threadOf(const chart::KeyRow& row,
                               std::span<const thread::ShadeCard* const> cards) {
    for (const thread::ShadeCard* card : cards) {
        if (row.card.isEmpty() || row.card == card->name) {
            if (const thread::Thread* thread = thread::findThread(*card, row.code)) {
                return thread;
            }
        }
    }
    return nullptr;
}

chart::Key withThreadColours(chart::Key key, std::span<const thread::ShadeCard* const> cards) {
    for (chart::KeyRow& row : key) {
        if (const thread::Thread* thread = threadOf(row, cards)) {
            row.lab = thread->lab;
        }
    }
    return key;
}

} // namespace otherskein::colourway
