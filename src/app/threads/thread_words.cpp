// How threads are written for the user: the texts of thread_columns.h.

#include "app/threads/thread_columns.h"

#include <QCoreApplication>
#include <QLocale>

#include <limits>

namespace otherskein::app {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("Threads", text);
}

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
        return tr("Colour");
    case Column::Difference:
        return tr("ΔE00");
    case Column::Code:
        return tr("Code");
    case Column::Name:
        return tr("Name");
    case Column::Card:
        return tr("Card");
    case Column::L:
        return tr("L*");
    case Column::A:
        return tr("a*");
    case Column::B:
        return tr("b*");
    case Column::Fibre:
        return tr("Fibre");
    case Column::Finish:
        return tr("Finish");
    case Column::Plies:
        return tr("Plies");
    case Column::Length:
        return tr("Length m");
    case Column::Stash:
        return tr("Stash");
    case Column::Stock:
        return tr("Stock");
    case Column::Lot:
        return tr("Lot");
    case Column::Spread:
        return tr("Spread");
    case Column::Note:
        break;
    }
    return tr("Note");
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
        return tr("matt");
    case thread::Finish::Satin:
        return tr("satin");
    case thread::Finish::Metallic:
        return tr("metallic");
    case thread::Finish::Variegated:
        return tr("variegated");
    case thread::Finish::Unstated:
        break;
    }
    return tr("not stated");
}

QString shownWord(thread::Stock stock) {
    switch (stock) {
    case thread::Stock::In:
        return tr("in stock");
    case thread::Stock::Out:
        return tr("out of stock");
    case thread::Stock::Discontinued:
        return tr("discontinued");
    case thread::Stock::Unstated:
        break;
    }
    return tr("not stated");
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
    return tr("L* %1  a* %2  b* %3")
        .arg(shownNumber(lab.L, 1), shownNumber(lab.a, 1), shownNumber(lab.b, 1));
}

QString shownStash(const thread::Thread& thread) {
    if (thread.stash <= 0) {
        return {};
    }
    return (thread.stash == 1 ? tr("%1 skein in the stash") : tr("%1 skeins in the stash"))
        .arg(shortNumber(thread.stash));
}

QString shownCount(int threads) {
    return threads == 1 ? tr("1 thread") : tr("%1 threads").arg(QLocale().toString(threads));
}

QString description(const ThreadItem& item, const QString& separator) {
    const thread::Thread& thread = item.thread;
    QStringList lines{QStringLiteral("%1  %2").arg(thread.code, thread.name).trimmed(), item.card,
                      QStringLiteral("%1  ·  %2")
                          .arg(shownLab(thread.lab), cellEntry(thread, indexOf(Column::Colour)))};
    QStringList facts;
    if (item.distance > 0) {
        facts.push_back(tr("ΔE00 %1").arg(shownNumber(item.distance, 1)));
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
