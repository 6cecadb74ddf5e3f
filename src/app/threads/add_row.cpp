#include "app/threads/add_row.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/threads/big_chip.h"
#include "app/threads/thread_columns.h"
#include "base/input_error.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace otherskein::app {

AddRow::AddRow(workbox::Document& document, QWidget* parent)
    : Panel(PanelEdge::Below, parent), m_document(document), m_cards(new QComboBox(this)),
      m_code(new QLineEdit(this)), m_name(new QLineEdit(this)), m_colour(new QLineEdit(this)),
      m_swatch(new BigChip(this)) {
    column()->setContentsMargins(16, 10, 16, 10);
    m_cards->setAccessibleName(tr("Card of the new thread"));
    m_cards->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_cards->setMinimumContentsLength(12);
    const std::pair<QLineEdit*, QString> fields[] = {
        {m_code, tr("Code")}, {m_name, tr("Name")}, {m_colour, tr("#rrggbb")}};
    for (const auto& [field, text] : fields) {
        field->setPlaceholderText(text);
        connect(field, &QLineEdit::returnPressed, this, &AddRow::add);
    }
    m_code->setAccessibleName(tr("Code of the new thread"));
    m_name->setAccessibleName(tr("Name of the new thread"));
    m_colour->setAccessibleName(tr("Colour of the new thread, #rrggbb"));
    m_code->setFixedWidth(90);
    m_colour->setFixedWidth(90);
    m_swatch->setAccessibleName(tr("Colour typed"));
    m_swatch->setFixedSize(30, 30);
    auto* addButton = new QPushButton(tr("Add"), this);
    addButton->setAccessibleName(tr("Add this thread"));
    addButton->setProperty("strong", true);
    auto* closeButton = new QPushButton(tr("Close"), this);
    closeButton->setAccessibleName(tr("Stop adding threads"));

    auto* across = new QHBoxLayout;
    across->setSpacing(8);
    across->addWidget(m_cards);
    across->addWidget(m_code);
    across->addWidget(m_name, 1);
    across->addWidget(m_colour);
    across->addWidget(m_swatch);
    across->addWidget(addButton);
    across->addWidget(closeButton);
    column()->addLayout(across);

    connect(addButton, &QPushButton::clicked, this, &AddRow::add);
    connect(closeButton, &QPushButton::clicked, this, &AddRow::close);
    connect(m_colour, &QLineEdit::textChanged, this, [this](const QString& text) {
        const auto srgb = colour::parseHex(text.trimmed());
        static_cast<BigChip*>(m_swatch)->show(srgb ? std::vector<QColor>{toQColor(*srgb)}
                                                   : std::vector<QColor>{});
    });
    connect(&document, &workbox::Document::cardsChanged, this, &AddRow::fillCards);
    fillCards();
    hide();
}

void AddRow::fillCards() {
    const QVariant before = m_cards->currentData();
    m_cards->clear();
    for (const workbox::StoredCard& card : m_document.cards()) {
        m_cards->addItem(card.name, static_cast<qint64>(card.id));
    }
    m_cards->setCurrentIndex(std::max(0, m_cards->findData(before)));
}

void AddRow::open(std::optional<workbox::CardId> card) {
    m_card = card;
    m_cards->setVisible(!card);
    show();
    m_code->setFocus();
    m_code->selectAll();
}

void AddRow::close() {
    hide();
    Q_EMIT closed();
}

void AddRow::add() {
    const workbox::CardId card =
        m_card.value_or(workbox::CardId{m_cards->currentData().toLongLong()});
    const workbox::StoredCard* stored = m_document.card(card);
    if (stored == nullptr) {
        Q_EMIT refused(tr("A thread needs a card to stand on: make a new card first."));
        return;
    }
    ThreadRef added{card, {}};
    try {
        thread::Thread thread =
            thread::threadOfSrgb(m_code->text().trimmed(), m_name->text().trimmed(),
                                 typedColour(m_colour->text(), stored->name));
        thread.extra.resize(thread::extraColumns({stored->name, {}, stored->columns}).size());
        added.id = m_document.addThread(card, thread);
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
        (m_code->text().trimmed().isEmpty() ? m_code : m_colour)->setFocus();
        return;
    }
    for (QLineEdit* field : {m_code, m_name, m_colour}) {
        field->clear();
    }
    m_code->setFocus();
    Q_EMIT this->added(added);
}

void AddRow::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        close();
        return;
    }
    Panel::keyPressEvent(event);
}

} // namespace otherskein::app
