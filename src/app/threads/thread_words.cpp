// How threads are written for the user: the texts of thread_columns.h.

#include "app/threads/thread_columns.h"
#include "app/threads/threads_text.h"

#include <QCoreApplication>
#include <QLocale>

#include <limits>

namespace otherskein::app {

namespace {

/// As few digits as the value needs, at most two.
QString shortNumber(double value) {
    QString text = QString::number(value, 'f', 2);
    while (text.endsWith(u'0')) {
        text.chop(1);
    }
    if (text.endsWith(u'.')) {
        text.chop(1);
    }
    return text;
}

} // namespace

QString columnTitle(Column column) {
    switch (column) {
    case Column::Colour:
        return threadsText("Colour");
    case Column::Difference:
        return threadsText("ΔE00");
    case Column::Code:
        return threadsText("Code");
    case Column::Name:
        return threadsText("Name");
    case Column::Card:
        return threadsText("Card");
    case Column::L:
        return threadsText("L*");
    case Column::A:
        return threadsText("a*");
    case Column::B:
        return threadsText("b*");
    case Column::Fibre:
        return threadsText("Fibre");
    case Column::Finish:
        return threadsText("Finish");
    case Column::Plies:
        return threadsText("Plies");
    case Column::Length:
        return threadsText("Length m");
    case Column::Stash:
        return threadsText("Stash");
    case Column::Stock:
        return threadsText("Stock");
    case Column::Lot:
        return threadsText("Lot");
    case Column::Spread:
        return threadsText("Spread");
    case Column::Note:
        break;
    }
    return threadsText("Note");
}

bool isNumberColumn(int column) {
    return columnIs(column, Column::Difference) || columnIs(column, Column::Spread) ||
           (column >= indexOf(Column::L) && column <= indexOf(Column::B)) ||
           (column >= indexOf(Column::Plies) && column <= indexOf(Column::Stash));
}

bool isEditableColumn(int column) {
    return !columnIs(column, Column::Difference) && !columnIs(column, Column::Card);
}

double cellNumber(const ThreadItem& item, int column) {
    const thread::Thread& thread = item.thread;
    switch (static_cast<Column>(column)) {
    case Column::Difference:
        return item.distance;
    case Column::L:
        return thread.lab.L;
    case Column::A:
        return thread.lab.a;
    case Column::B:
        return thread.lab.b;
    case Column::Plies:
        return thread.strands;
    case Column::Length:
        return thread.lengthM;
    case Column::Stash:
        return thread.stash;
    default:
        return thread.spread.value_or(-std::numeric_limits<double>::infinity());
    }
}

QString cellText(const ThreadItem& item, int column) {
    const thread::Thread& thread = item.thread;
    if (column >= kFixedColumns) {
        return cellEntry(thread, column);
    }
    switch (static_cast<Column>(column)) {
    case Column::Difference:
    case Column::L:
    case Column::A:
    case Column::B:
        return shownNumber(cellNumber(item, column), 1);
    case Column::Card:
        return item.card;
    case Column::Finish:
        return thread.finish == thread::Finish::Unstated ? QString() : shownWord(thread.finish);
    case Column::Stock:
        return thread.stock == thread::Stock::Unstated ? QString() : shownWord(thread.stock);
    case Column::Stash:
        return thread.stash > 0 ? shortNumber(thread.stash) : QString();
    default:
        return cellEntry(thread, column);
    }
}

QString shownWord(thread::Finish finish) {
    switch (finish) {
    case thread::Finish::Matt:
        return threadsText("matt");
    case thread::Finish::Satin:
        return threadsText("satin");
    case thread::Finish::Metallic:
        return threadsText("metallic");
    case thread::Finish::Variegated:
        return threadsText("variegated");
    case thread::Finish::Unstated:
        break;
    }
    return threadsText("not stated");
}

QString shownWord(thread::Stock stock) {
    switch (stock) {
    case thread::Stock::In:
        return threadsText("in stock");
    case thread::Stock::Out:
        return threadsText("out of stock");
    case thread::Stock::Discontinued:
        return threadsText("discontinued");
    case thread::Stock::Unstated:
        break;
    }
    return threadsText("not stated");
}

QString shownNumber(double value, int digits) {
    QString text = QString::number(value, 'f', digits);
    if (text.startsWith(u'-')) {
        const bool isNought = text.count(u'0') + text.count(u'.') + 1 == text.size();
        text.replace(0, 1, isNought ? QString() : QString(QChar(u'\u2212')));
    }
    return text;
}

QString shownLab(const colour::Lab& lab) {
    return threadsText("L* %1  a* %2  b* %3")
        .arg(shownNumber(lab.L, 1), shownNumber(lab.a, 1), shownNumber(lab.b, 1));
}

QString shownStash(const thread::Thread& thread) {
    if (thread.stash <= 0) {
        return {};
    }
    return (thread.stash == 1 ? threadsText("%1 skein in the stash")
                              : threadsText("%1 skeins in the stash"))
        .arg(shortNumber(thread.stash));
}

QString shownCount(int threads) {
    return threads == 1 ? threadsText("1 thread")
                        : threadsText("%1 threads").arg(QLocale().toString(threads));
}

QString description(const ThreadItem& item, const QString& separator) {
    const thread::Thread& thread = item.thread;
    QStringList lines{QStringLiteral("%1  %2").arg(thread.code, thread.name).trimmed(), item.card,
                      QStringLiteral("%1  ·  %2")
                          .arg(shownLab(thread.lab), cellEntry(thread, indexOf(Column::Colour)))};
    QStringList facts;
    if (item.distance > 0) {
        facts.push_back(threadsText("ΔE00 %1").arg(shownNumber(item.distance, 1)));
    }
    if (thread.finish != thread::Finish::Unstated) {
        facts.push_back(shownWord(thread.finish));
    }
    if (thread.stock != thread::Stock::Unstated) {
        facts.push_back(shownWord(thread.stock));
    }
    if (thread.stash > 0) {
        facts.push_back(shownStash(thread));
    }
    if (!facts.isEmpty()) {
        lines.push_back(facts.join(QStringLiteral(", ")));
    }
    return lines.join(separator);
}

} // namespace otherskein::app
