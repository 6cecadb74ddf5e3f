#include "app/ground/grounds_dialog.h"

#include "app/frame/chip.h"
#include "app/frame/panel.h"
#include "app/ground/piece_form.h"
#include "base/input_error.h"

#include <QDialogButtonBox>
#include <QHBoxLayout>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>

namespace otherskein::app {

namespace {

constexpr int kIdRole = Qt::UserRole;

QIcon clothIcon(const thread::Ground& ground) {
    QPixmap pixmap(22, 16);
    pixmap.fill(toQColor(ground.shown));
    return {pixmap};
}

} // namespace

GroundsDialog::GroundsDialog(Session& session, const GroundState& state, QWidget* parent)
    : QDialog(parent), m_session(session), m_state(state), m_list(new QListWidget(this)),
      m_form(new PieceForm(this)), m_remove(new QPushButton(tr("Remove"), this)) {
    setWindowTitle(tr("My grounds"));
    build();
    connect(m_list, &QListWidget::currentRowChanged, this, &GroundsDialog::showPiece);
    connect(m_list, &QListWidget::itemChanged, this, &GroundsDialog::tick);
    connect(m_form, &PieceForm::edited, this, &GroundsDialog::save);
    connect(&session, &Session::groundChanged, this, [this] {
        if (!m_isSaving) {
            showList(); // undone, or changed elsewhere
        }
    });
    showList();
}

void GroundsDialog::build() {
    auto* add = new QPushButton(tr("Add a fabric"), this);
    for (QPushButton* button : {add, m_remove}) {
        button->setAutoDefault(false);
    }
    m_list->setAccessibleName(tr("My grounds"));
    m_list->setIconSize({22, 16});
    m_list->setMinimumWidth(230);
    auto* left = new QVBoxLayout;
    left->setSpacing(8);
    left->addWidget(m_list, 1);
    left->addWidget(noteLabel(tr("A tick shows the fabric among the others."), this));
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(add);
    buttons->addWidget(m_remove);
    left->addLayout(buttons);
    auto* right = new QVBoxLayout;
    right->addWidget(m_form);
    right->addStretch();
    auto* across = new QHBoxLayout;
    across->setSpacing(18);
    across->addLayout(left);
    across->addLayout(right, 1);
    auto* close = new QDialogButtonBox(QDialogButtonBox::Close, this);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(18, 18, 18, 14);
    column->setSpacing(12);
    column->addLayout(across, 1);
    column->addWidget(close);
    resize(720, 520);
    connect(close, &QDialogButtonBox::rejected, this, &QDialog::close);
    connect(add, &QPushButton::clicked, this, &GroundsDialog::addPiece);
    connect(m_remove, &QPushButton::clicked, this, &GroundsDialog::removePiece);
}

std::optional<workbox::GroundId> GroundsDialog::chosen() const {
    const QListWidgetItem* item = m_list->currentItem();
    return item != nullptr ? std::optional(workbox::GroundId{item->data(kIdRole).toLongLong()})
                           : std::nullopt;
}

void GroundsDialog::showList() {
    const auto before = chosen() ? chosen() : m_session.groundId();
    {
        const QSignalBlocker quiet(m_list);
        m_list->clear();
        for (const workbox::StoredGround& one : m_session.document().grounds()) {
            auto* item = new QListWidgetItem(clothIcon(one.ground), one.ground.name, m_list);
            item->setData(kIdRole, qint64(one.id));
            item->setSizeHint({0, 30});
            item->setFlags(item->flags() | Qt::ItemIsUserCheckable);
            const bool hidden = std::ranges::find(m_state.hidden, one.id) != m_state.hidden.end();
            item->setCheckState(hidden ? Qt::Unchecked : Qt::Checked);
            if (before == one.id) {
                m_list->setCurrentItem(item);
            }
        }
        if (m_list->currentRow() < 0 && m_list->count() > 0) {
            m_list->setCurrentRow(0);
        }
    }
    showPiece();
}

void GroundsDialog::showPiece() {
    const auto id = chosen();
    const workbox::StoredGround* stored = id ? m_session.document().ground(*id) : nullptr;
    m_form->setEnabled(stored != nullptr);
    m_remove->setEnabled(stored != nullptr);
    if (stored != nullptr) {
        m_form->show(stored->ground, m_state.inches);
    }
}

void GroundsDialog::save() {
    const auto id = chosen();
    // A name that is empty for a moment, while another is typed, is no reason to scold.
    if (!id || m_form->ground().name.trimmed().isEmpty()) {
        return;
    }
    m_isSaving = true;
    try {
        m_session.document().changeGround(
            *id, m_form->ground(),
            QStringLiteral("piece-%1-%2").arg(qint64(*id)).arg(m_form->field()));
        const QSignalBlocker quiet(m_list);
        m_list->currentItem()->setText(m_form->ground().name.trimmed());
        m_list->currentItem()->setIcon(clothIcon(m_form->ground()));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
    m_isSaving = false;
}

void GroundsDialog::addPiece() {
    try {
        thread::Ground ground = thread::groundOfSrgb(tr("New fabric"), {0xe8, 0xe2, 0xd4});
        ground.weave = tr("evenweave");
        ground.count = 28;
        const auto id = m_session.document().addGround(ground);
        showList();
        for (int i = 0; i < m_list->count(); ++i) {
            if (m_list->item(i)->data(kIdRole).toLongLong() == qint64(id)) {
                m_list->setCurrentRow(i);
            }
        }
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void GroundsDialog::removePiece() {
    if (const auto id = chosen()) {
        try {
            m_session.document().removeGround(*id);
        } catch (const base::InputError& error) {
            Q_EMIT refused(error.line());
        }
    }
}

void GroundsDialog::tick(QListWidgetItem* item) {
    const workbox::GroundId id{item->data(kIdRole).toLongLong()};
    std::erase(m_state.hidden, id);
    if (item->checkState() == Qt::Unchecked) {
        m_state.hidden.push_back(id);
    }
    Q_EMIT asked(m_state);
}

} // namespace otherskein::app
