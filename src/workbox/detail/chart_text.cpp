#include "workbox/detail/chart_text.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>
#include <cmath>

namespace otherskein::workbox::detail {

namespace {

constexpr qsizetype kKeyFields = 9;
/// Of the motif plan's text; another number is one that we do not know how to read.
constexpr int kPlanVersion = 1;

const QString kVersion = QStringLiteral("version");
const QString kStep = QStringLiteral("step");
const QString kEdits = QStringLiteral("edits");
const QString kJoin = QStringLiteral("join");
const QString kCut = QStringLiteral("cut");
const QString kName = QStringLiteral("name");

QString textOf(const QJsonDocument& document) {
    return QString::fromUtf8(document.toJson(QJsonDocument::Compact));
}

std::optional<int> wholeOf(const QJsonValue& value) {
    const double number = value.toDouble(std::nan(""));
    constexpr double kMost = std::numeric_limits<int>::max();
    const bool whole = std::abs(number) <= kMost && std::floor(number) == number;
    return whole ? std::optional(static_cast<int>(number)) : std::nullopt;
}

QJsonArray cellArray(const chart::Cell& cell) {
    return {cell.column, cell.row};
}

std::optional<chart::Cell> cellOf(const QJsonValue& value) {
    const QJsonArray array = value.toArray();
    const auto column = wholeOf(array.at(0));
    const auto row = wholeOf(array.at(1));
    if (array.size() != 2 || !column || !row) {
        return std::nullopt;
    }
    return chart::Cell{*column, *row};
}

QJsonArray pathArray(const std::vector<chart::CutMotif::Point>& path) {
    QJsonArray numbers;
    for (const chart::CutMotif::Point& point : path) {
        numbers.append(point.x);
        numbers.append(point.y);
    }
    return numbers;
}

std::optional<std::vector<chart::CutMotif::Point>> pathOf(const QJsonValue& value) {
    const QJsonArray numbers = value.toArray();
    if (!value.isArray() || numbers.size() % 2 != 0 ||
        !std::ranges::all_of(numbers, [](const QJsonValue& one) { return one.isDouble(); })) {
        return std::nullopt;
    }
    std::vector<chart::CutMotif::Point> path;
    for (qsizetype i = 0; i < numbers.size(); i += 2) {
        path.push_back({numbers[i].toDouble(), numbers[i + 1].toDouble()});
    }
    return path;
}

QJsonArray editArray(const chart::MotifEdit& edit) {
    if (const auto* join = std::get_if<chart::JoinMotifs>(&edit)) {
        return {kJoin, cellArray(join->one), cellArray(join->other)};
    }
    if (const auto* name = std::get_if<chart::NameMotif>(&edit)) {
        return {kName, cellArray(name->of), name->name};
    }
    const auto& cut = std::get<chart::CutMotif>(edit);
    return {kCut, cellArray(cut.in), pathArray(cut.path)};
}

std::optional<chart::MotifEdit> editOf(const QJsonValue& value) {
    const QJsonArray array = value.toArray();
    const auto cell = cellOf(array.at(1));
    if (array.size() != 3 || !cell) {
        return std::nullopt;
    }
    const QString kind = array[0].toString();
    if (kind == kJoin) {
        const auto other = cellOf(array[2]);
        return other ? std::optional<chart::MotifEdit>(chart::JoinMotifs{*cell, *other})
                     : std::nullopt;
    }
    if (kind == kName && array[2].isString()) {
        return chart::NameMotif{*cell, array[2].toString()};
    }
    auto path = kind == kCut ? pathOf(array[2]) : std::nullopt;
    return path ? std::optional<chart::MotifEdit>(chart::CutMotif{*cell, std::move(*path)})
                : std::nullopt;
}

std::optional<chart::KeyRow> keyRowOf(const QJsonValue& value) {
    const QJsonArray fields = value.toArray();
    const auto areAll = [&](qsizetype first, qsizetype end, QJsonValue::Type type) {
        for (qsizetype i = first; i < end; ++i) {
            if (fields[i].type() != type) {
                return false;
            }
        }
        return true;
    };
    if (fields.size() != kKeyFields || !areAll(0, 5, QJsonValue::String) ||
        !areAll(5, kKeyFields, QJsonValue::Double)) {
        return std::nullopt;
    }
    const auto pixel = colour::parseHex(fields[0].toString());
    const auto strands = wholeOf(fields[5]);
    if (!pixel || !strands) {
        return std::nullopt;
    }
    chart::KeyRow row;
    row.pixel = *pixel;
    row.symbol = fields[1].toString();
    row.card = fields[2].toString();
    row.code = fields[3].toString();
    row.name = fields[4].toString();
    row.strands = *strands;
    row.lab = {fields[6].toDouble(), fields[7].toDouble(), fields[8].toDouble()};
    return row;
}

} // namespace

QString keyText(const chart::Key& key) {
    QJsonArray rows;
    for (const chart::KeyRow& row : key) {
        rows.append(QJsonArray{colour::toHex(row.pixel), row.symbol, row.card, row.code, row.name,
                               row.strands, row.lab.L, row.lab.a, row.lab.b});
    }
    return textOf(QJsonDocument(rows));
}

std::optional<chart::Key> keyOf(const QString& text) {
    const QJsonDocument document = QJsonDocument::fromJson(text.toUtf8());
    if (!document.isArray()) {
        return std::nullopt;
    }
    chart::Key key;
    const QJsonArray rows = document.array();
    for (const QJsonValue value : rows) {
        auto row = keyRowOf(value);
        if (!row) {
            return std::nullopt;
        }
        key.push_back(std::move(*row));
    }
    return key;
}

QString planText(const chart::MotifPlan& plan) {
    QJsonArray edits;
    for (const chart::MotifEdit& edit : plan.edits) {
        edits.append(editArray(edit));
    }
    return textOf(
        QJsonDocument(QJsonObject{{kVersion, kPlanVersion}, {kStep, plan.step}, {kEdits, edits}}));
}

std::optional<chart::MotifPlan> planOf(const QString& text) {
    const QJsonObject object = QJsonDocument::fromJson(text.toUtf8()).object();
    const auto step = wholeOf(object[kStep]);
    if (object.size() != 3 || wholeOf(object[kVersion]) != kPlanVersion || !step ||
        !object[kEdits].isArray()) {
        return std::nullopt;
    }
    chart::MotifPlan plan;
    plan.step = *step;
    const QJsonArray edits = object[kEdits].toArray();
    for (const QJsonValue value : edits) {
        auto edit = editOf(value);
        if (!edit) {
            return std::nullopt;
        }
        plan.edits.push_back(std::move(*edit));
    }
    return plan;
}

} // namespace otherskein::workbox::detail
