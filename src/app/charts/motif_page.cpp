#include "app/charts/motif_page.h"

#include "app/charts/chart_overlay.h"
#include "app/charts/motif_table.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSlider>
#include <QVBoxLayout>

namespace otherskein::app {

MotifPage::MotifPage(ChartDesk& desk, QWidget* parent)
    : QWidget(parent), m_desk(desk), m_model(new MotifModel(desk, this)), m_count(new QLabel(this)),
      m_step(new QSlider(Qt::Horizontal, this)), m_table(new MotifTable(desk, *m_model, this)),
      m_join(new QPushButton(tr("Join"), this)), m_cut(new QPushButton(tr("Cut"), this)),
      m_name(new QPushButton(tr("Name"), this)),
      m_afresh(new QPushButton(tr("Start afresh"), this)), m_advice(noteLabel({}, this)) {
    m_count->setFont(scaledFont(1, 600));
    m_step->setRange(0, chart::kMotifSteps - 1);
    m_step->setPageStep(2);
    m_step->setTickPosition(QSlider::NoTicks);
    m_step->setAccessibleName(tr("Few or many motifs"));
    m_step->setToolTip(tr("To the few side motifs grow together over gaps; to the many side they "
                          "part at narrow necks"));
    m_join->setToolTip(tr("Make one motif of those chosen (J)"));
    m_cut->setToolTip(tr("Draw a line across a motif to part it (C)"));
    m_cut->setCheckable(true);
    m_name->setToolTip(tr("Give the chosen motif a name (F2)"));
    m_afresh->setToolTip(tr("Forget what was joined, cut and named by hand"));
    m_join->setShortcut(QKeySequence(Qt::Key_J));
    m_cut->setShortcut(QKeySequence(Qt::Key_C));
    for (QPushButton* button : {m_join, m_cut, m_name, m_afresh}) {
        button->setAccessibleName(button->text());
        button->setAccessibleDescription(button->toolTip());
        button->setAutoDefault(false);
        button->setStyleSheet(
            QStringLiteral(
                "QPushButton { padding: 4px 6px; } QPushButton:focus { padding: 3px 5px; }") +
            (button == m_cut
                 ? QStringLiteral("QPushButton:checked { background: palette(highlight);"
                                  " color: palette(highlighted-text); }")
                 : QString()));
    }
    layOut();
    connectParts();
    showMotifs();
}

void MotifPage::layOut() {
    auto* slider = new QHBoxLayout;
    slider->setSpacing(8);
    const auto end = [this](const QString& text) {
        QLabel* label = noteLabel(text, this);
        label->setWordWrap(false);
        return label;
    };
    slider->addWidget(end(tr("few")));
    slider->addWidget(m_step, 1);
    slider->addWidget(end(tr("many")));
    auto* buttons = new QGridLayout;
    buttons->setSpacing(6);
    buttons->addWidget(m_join, 0, 0);
    buttons->addWidget(m_cut, 0, 1);
    buttons->addWidget(m_name, 0, 2);
    buttons->addWidget(m_afresh, 1, 0, 1, 3);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    const auto inside = [column](auto* what) {
        auto* box = new QVBoxLayout;
        box->setContentsMargins(16, 0, 16, 0);
        if constexpr (std::is_base_of_v<QLayout, std::remove_pointer_t<decltype(what)>>) {
            box->addLayout(what);
        } else {
            box->addWidget(what);
        }
        column->addLayout(box);
    };
    inside(m_count);
    inside(slider);
    column->addWidget(m_table, 1);
    inside(m_advice);
    inside(buttons);
}

void MotifPage::connectParts() {
    connect(m_step, &QSlider::valueChanged, this, &MotifPage::setStep);
    connect(m_step, &QSlider::sliderPressed, this, [this] { ++m_round; });
    connect(m_join, &QPushButton::clicked, this, &MotifPage::join);
    connect(m_cut, &QPushButton::toggled, this, [this](bool down) {
        m_desk.with([down](ChartsState& state) {
            state.cutting = down;
            state.mode = MendMode::Look;
        });
    });
    connect(m_name, &QPushButton::clicked, m_table, &MotifTable::editName);
    connect(m_afresh, &QPushButton::clicked, this, [this] {
        chart::MotifPlan after = m_desk.plan();
        after.edits.clear();
        if (m_desk.changePlan(after, tr("Start the motifs afresh"))) {
            Q_EMIT m_desk.told(
                tr("What was joined, cut and named is forgotten. Undo brings it back."));
        }
    });
    connect(&m_desk, &ChartDesk::stateChanged, this, &MotifPage::showMotifs);
    connect(&m_desk, &ChartDesk::planChanged, this, &MotifPage::showMotifs);
    connect(m_model, &QAbstractItemModel::modelReset, this, &MotifPage::showMotifs);
}

void MotifPage::setStep(int step) {
    chart::MotifPlan after = m_desk.plan();
    after.step = step;
    m_desk.changePlan(after, tr("Cut the chart into more or fewer motifs"),
                      QStringLiteral("motif step %1").arg(m_round));
}

void MotifPage::join() {
    const std::vector<chart::MotifIndex> chosen = m_desk.chosenMotifs();
    if (chosen.size() < 2) {
        return;
    }
    const auto& motifs = m_desk.motifs()->motifs;
    chart::MotifPlan after = m_desk.plan();
    for (std::size_t i = 1; i < chosen.size(); ++i) {
        after.edits.push_back(
            chart::JoinMotifs{motifs[chosen.front()].first, motifs[chosen[i]].first});
    }
    m_desk.changePlan(after, tr("Join %n motifs", nullptr, static_cast<int>(chosen.size())));
}

void MotifPage::showMotifs() {
    const QSignalBlocker quiet[] = {QSignalBlocker(m_step), QSignalBlocker(m_cut)};
    const std::size_t chosen = m_desk.chosenMotifs().size();
    const bool found = m_desk.motifs() != nullptr;
    m_count->setText(found ? tr("%Ln motifs", nullptr, m_model->rowCount()) : tr("Looking…"));
    m_step->setEnabled(m_desk.chart() != nullptr);
    m_step->setValue(m_desk.plan().step);
    m_join->setEnabled(chosen >= 2);
    m_cut->setEnabled(found && m_model->rowCount() > 0);
    m_cut->setChecked(m_desk.state().cutting);
    m_name->setEnabled(chosen == 1);
    m_afresh->setEnabled(!m_desk.plan().edits.empty());
    if (m_desk.state().cutting) {
        m_advice->setText(tr("Draw a line right across the motif, from outside to outside."));
    } else if (chosen == 0) {
        m_advice->setText(tr("Click motifs in the chart; with Ctrl held, several."));
    } else if (chosen == 1) {
        m_advice->setText(tr("Ctrl-click another one to join the two."));
    } else {
        m_advice->setText(tr("%n motifs chosen.", nullptr, static_cast<int>(chosen)));
    }
}

} // namespace otherskein::app
