#include "colourway/pool_filter.h"

#include "colour/conversion.h"

namespace otherskein::colourway {

namespace {

bool passes(const thread::Thread& thread, const PoolFilter& filter) {
    const bool gone =
        thread.stock == thread::Stock::Out || thread.stock == thread::Stock::Discontinued;
    return !(filter.onlyStash && thread.stash <= 0) &&
           !(filter.onlyInStock && gone && thread.stash <= 0) &&
           (filter.fibre.isEmpty() ||
            filter.fibre.compare(thread.fibre, Qt::CaseInsensitive) == 0) &&
           (!filter.finish || *filter.finish == thread.finish);
}

} // namespace

std::shared_ptr<const thread::ThreadPool> poolOf(std::span<const thread::ShadeCard* const> cards,
                                                 const PoolFilter& filter) {
    std::vector<thread::PooledThread> threads;
    for (const thread::ShadeCard* card : cards) {
        for (const thread::Thread& one : card->threads) {
            if (passes(one, filter)) {
                threads.push_back({card->name, one, colour::xyzFromLab(one.lab)});
            }
        }
    }
    return std::make_shared<const thread::ThreadPool>(std::move(threads));
}

std::shared_ptr<const thread::ThreadPool> poolOf(const std::vector<thread::ShadeCard>& cards,
                                                 const PoolFilter& filter) {
    std::vector<const thread::ShadeCard*> all;
    for (const thread::ShadeCard& card : cards) {
        all.push_back(&card);
    }
    return poolOf(all, filter);
}

} // namespace otherskein::colourway
