#include "thread/shade_card_cgats.h"

#include "base/number.h"
#include "colour/conversion.h"
#include "thread/cgats_text.h"
#include "thread/field_checks.h"

#include <QFileInfo>
#include <QSet>

#include <lcms2.h>

#include <array>
#include <cmath>
#include <initializer_list>
#include <memory>

namespace otherskein::thread {

namespace {

struct FreeSheet {
    void operator()(void* sheet) const { cmsIT8Free(sheet); }
};
struct FreeContext {
    void operator()(cmsContext context) const { cmsDeleteContext(context); }
};
using Sheet = std::unique_ptr<void, FreeSheet>;
using Context = std::unique_ptr<std::remove_pointer_t<cmsContext>, FreeContext>;

/// Catches the reader's own words, which name the line.
void keepMessage(cmsContext context, cmsUInt32Number /*code*/, const char* text) {
    if (auto* kept = static_cast<QString*>(cmsGetContextUserData(context)); kept->isEmpty()) {
        *kept = QString::fromUtf8(text).simplified();
        if (kept->startsWith(QStringLiteral(": "))) {
            kept->remove(0, 2); // it would put a file's name there
        }
    }
}

class Samples {
  public:
    Samples(void* sheet, QString source) : m_sheet(sheet), m_source(std::move(source)) {
        char** names = nullptr;
        const int count = cmsIT8EnumDataFormat(m_sheet, &names);
        // Data without a format leave the names null, whatever the count.
        for (int i = 0; names != nullptr && i < count; ++i) {
            if (names[i] == nullptr) {
                continue;
            }
            const QString field = QString::fromUtf8(names[i]).toUpper();
            if (m_fields.contains(field)) {
                throw base::InputError({m_source,
                                        {},
                                        field,
                                        QStringLiteral("each field once"),
                                        QStringLiteral("it twice")});
            }
            m_fields.insert(field, QByteArray(names[i]));
        }
    }

    [[nodiscard]] bool has(const QString& field) const { return m_fields.contains(field); }
    [[nodiscard]] bool hasAll(std::initializer_list<const char*> fields) const {
        return std::ranges::all_of(
            fields, [this](const char* field) { return has(QString::fromLatin1(field)); });
    }

    [[nodiscard]] QString text(int sample, const QString& field) const {
        const auto name = m_fields.constFind(field);
        if (name == m_fields.constEnd()) {
            return {};
        }
        const int column = cmsIT8FindDataFormat(m_sheet, name->constData());
        const char* cell = column < 0 ? nullptr : cmsIT8GetDataRowCol(m_sheet, sample, column);
        return cell == nullptr ? QString() : QString::fromUtf8(cell);
    }

    [[nodiscard]] double number(int sample, const char* field, double least, double most) const {
        const QString name = QString::fromLatin1(field);
        return numberIn({m_source, sample + 1, name}, text(sample, name), least, most);
    }

  private:
    void* m_sheet;
    QString m_source;
    QHash<QString, QByteArray> m_fields;
};

Sheet load(const Context& context, const QByteArray& bytes, const QString& source,
           const QString& message) {
    QByteArray copy = bytes; // the reader wants memory that it may write to
    Sheet sheet(
        cmsIT8LoadFromMem(context.get(), copy.data(), static_cast<cmsUInt32Number>(copy.size())));
    if (!sheet) {
        throw base::InputError({source,
                                {},
                                {},
                                QStringLiteral("CGATS text"),
                                message.isEmpty() ? QStringLiteral("something else") : message});
    }
    return sheet;
}

} // namespace

ShadeCard parseShadeCardCgats(const QByteArray& bytes, const QString& source) {
    const QByteArray mended = mendedCgats(bytes, source);
    QString message;
    const Context context(cmsCreateContext(nullptr, &message));
    cmsSetLogErrorHandlerTHR(context.get(), keepMessage);
    const Sheet sheet = load(context, mended, source, message);

    const Samples samples(sheet.get(), source);
    const bool lab = samples.hasAll({"LAB_L", "LAB_A", "LAB_B"});
    if (!lab && !samples.hasAll({"RGB_R", "RGB_G", "RGB_B"})) {
        throw base::InputError(
            {source,
             {},
             {},
             QStringLiteral("the fields LAB_L LAB_A LAB_B, or RGB_R RGB_G RGB_B"),
             QStringLiteral("neither")});
    }
    const bool shortId =
        samples.has(QStringLiteral("SAMPLEID")) && !samples.has(QStringLiteral("SAMPLE_ID"));
    const QString idField = shortId ? QStringLiteral("SAMPLEID") : QStringLiteral("SAMPLE_ID");
    const double sets = cmsIT8GetPropertyDbl(sheet.get(), "NUMBER_OF_SETS");
    if (!(sets >= 1 && sets <= limits::kMostThreads)) {
        throw base::InputError({source,
                                {},
                                QStringLiteral("NUMBER_OF_SETS"),
                                QStringLiteral("1 to %1 samples").arg(limits::kMostThreads),
                                base::formatNumber(sets)});
    }

    ShadeCard card{QFileInfo(source).completeBaseName(), {}, {}};
    QSet<QString> codes;
    for (int sample = 0; sample < static_cast<int>(sets); ++sample) {
        Thread thread;
        thread.code = samples.text(sample, idField).trimmed();
        const CellPlace place{source, sample + 1, idField};
        if (thread.code.isEmpty()) {
            throw badCell(place, QStringLiteral("a code"), QStringLiteral("none"));
        }
        if (codes.contains(thread.code)) {
            throw badCell(place, QStringLiteral("each code once"),
                          base::quotedForMessage(thread.code) + QStringLiteral(" again"));
        }
        codes.insert(thread.code);
        const QString name = samples.text(sample, QStringLiteral("SAMPLE_NAME")).trimmed();
        thread.name = name.isEmpty() ? thread.code : name;
        if (lab) {
            thread.lab = {samples.number(sample, "LAB_L", 0, limits::kMostLightness),
                          samples.number(sample, "LAB_A", -limits::kMostAb, limits::kMostAb),
                          samples.number(sample, "LAB_B", -limits::kMostAb, limits::kMostAb)};
        } else {
            thread.lab = colour::labFromSrgb(samples.number(sample, "RGB_R", 0, 255) / 255,
                                             samples.number(sample, "RGB_G", 0, 255) / 255,
                                             samples.number(sample, "RGB_B", 0, 255) / 255);
        }
        card.threads.push_back(std::move(thread));
    }
    return card;
}

} // namespace otherskein::thread
