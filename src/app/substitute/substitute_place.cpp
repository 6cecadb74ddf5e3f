#include "app/substitute/substitute_place.h"

#include "app/frame/chip.h"
#include "app/frame/look.h"
#include "app/frame/panel.h"
#include "app/frame/segmented.h"
#include "app/substitute/answer_worker.h"
#include "app/substitute/candidate_delegate.h"
#include "app/substitute/candidate_model.h"
#include "app/substitute/lab_plot.h"
#include "app/substitute/question_panel.h"
#include "app/substitute/remembered_state.h"
#include "base/input_error.h"

#include <QClipboard>
#include <QFileDialog>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QListView>
#include <QLocale>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace otherskein::app {

namespace {

const QString kStateSetting = QStringLiteral("substitute");

QString signedNumber(double value) {
    const QString digits = QLocale().toString(std::abs(value), 'f', 1);
    return (value < 0 ? QString(QChar(0x2212)) : QStringLiteral("+")) + digits;
}

/// A list that keeps its rows as wide as itself and scrolls by pixels.
QListView* candidateList(CandidateModel* model, CandidateDelegate* delegate, QWidget* parent) {
    auto* list = new QListView(parent);
    list->setModel(model);
    list->setItemDelegate(delegate);
    list->setResizeMode(QListView::Adjust);
    list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    list->verticalScrollBar()->setSingleStep(24);
    list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list->setAccessibleName(SubstitutePlace::tr("Candidates, nearest first"));
    list->setFrameShape(QFrame::NoFrame);
    list->setMouseTracking(true);
    return list;
}

} // namespace

SubstitutePlace::SubstitutePlace(Session& session, QWidget* parent)
    : QWidget(parent), m_session(session), m_worker(new AnswerWorker(this)),
      m_model(new CandidateModel(this)), m_delegate(new CandidateDelegate(this)),
      m_question(new QuestionPanel(session, this)) {
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(m_question);
    scroll->setWidgetResizable(true);
    scroll->setFixedWidth(m_question->width());
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setVerticalScrollBarPolicy(Qt::ScrollBarAsNeeded);

    auto* across = new QHBoxLayout(this);
    across->setContentsMargins(0, 0, 0, 0);
    across->setSpacing(0);
    across->addWidget(scroll);
    across->addWidget(buildMiddle(), 1);
    m_plotPanel = buildPlotPanel();
    across->addWidget(m_plotPanel);
    setFocusProxy(m_list);
    connectAll();
    m_state = rememberedState(session.document().store().setting(kStateSetting), m_state);
    takeFromSession();
}

SubstitutePlace::~SubstitutePlace() = default;

void SubstitutePlace::resizeEvent(QResizeEvent* event) {
    // In a small window the candidates need the room more than the plot does.
    constexpr int kRoomForPlot = 960;
    m_plotPanel->setVisible(width() >= kRoomForPlot);
    QWidget::resizeEvent(event);
}

QWidget* SubstitutePlace::buildHeader() {
    auto* header = new Panel(PanelEdge::Below, this);
    header->column()->setContentsMargins(16, 9, 12, 9);
    m_title = titleLabel({}, header);
    m_subtitle = noteLabel({}, header);
    m_subtitle->setWordWrap(false);
    m_subtitle->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_title->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_order = new Segmented(tr("Order"), {tr("My stash first"), tr("Nearest"), tr("For the chart")},
                            header);
    m_weights = new Segmented(tr("Weights of lightness, chroma and hue"),
                              {QStringLiteral("1:1:1"), QStringLiteral("2:1:1")}, header);
    m_weights->setToolTip(
        tr("CIEDE2000 weights kL:kC:kH. 2:1:1 is textile practice: a difference in "
           "lightness counts half."));
    m_copy = new QPushButton(tr("Copy list"), header);

    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    auto* texts = new QVBoxLayout;
    texts->setSpacing(1);
    texts->addWidget(m_title);
    texts->addWidget(m_subtitle);
    row->addLayout(texts, 1);
    row->addWidget(m_order);
    row->addWidget(m_weights);
    row->addWidget(m_copy);
    header->column()->addLayout(row);
    return header;
}

QWidget* SubstitutePlace::buildMiddle() {
    auto* middle = new QWidget(this);
    auto* column = new QVBoxLayout(middle);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(buildHeader());
    m_list = candidateList(m_model, m_delegate, middle);
    m_empty = noteLabel({}, middle);
    m_empty->setAlignment(Qt::AlignCenter);
    m_empty->setMargin(40);
    column->addWidget(m_empty, 1);
    column->addWidget(m_list, 1);
    return middle;
}

QWidget* SubstitutePlace::buildPlotPanel() {
    auto* panel = new Panel(PanelEdge::Leading, this);
    panel->setFixedWidth(268);
    panel->addHeading(tr("Where they lie"));
    m_plot = new LabPlot(panel);
    panel->column()->addWidget(m_plot);
    panel->addHeading(tr("The chosen one, against the wanted"));
    m_detail = new QLabel(panel);
    m_detail->setWordWrap(true);
    m_detail->setTextInteractionFlags(Qt::TextSelectableByMouse);
    panel->column()->addWidget(m_detail);
    panel->column()->addStretch();
    panel->addNote(tr("The skein in hand decides: compare in the light where the piece will hang. "
                      "Dye lots differ."));
    return panel;
}

void SubstitutePlace::connectAll() {
    connect(m_worker, &AnswerWorker::answered, this, &SubstitutePlace::showAnswer);
    connect(m_worker, &AnswerWorker::failed, this, &SubstitutePlace::refused);
    connect(m_question, &QuestionPanel::asked, this, &SubstitutePlace::ask);
    connect(m_question, &QuestionPanel::keyAsked, this, &SubstitutePlace::askForKey);
    connect(m_question, &QuestionPanel::told, this, &SubstitutePlace::told);
    connect(m_question, &QuestionPanel::refused, this, &SubstitutePlace::refused);
    for (const auto change : {&Session::cardsChanged, &Session::groundChanged, &Session::keyChanged,
                              &Session::wantedChanged}) {
        connect(&m_session, change, this, &SubstitutePlace::takeFromSession);
    }
    connect(m_order, &Segmented::chosen, this, [this](int index) {
        SubstituteState next = m_state;
        constexpr colourway::Order kOrders[] = {
            colourway::Order::StashFirst, colourway::Order::Nearest, colourway::Order::InChart};
        next.question.order = kOrders[index];
        ask(next);
    });
    connect(m_weights, &Segmented::chosen, this, [this](int index) {
        SubstituteState next = m_state;
        next.question.weights = index == 0 ? colour::kReferenceWeights : colour::kTextileWeights;
        ask(next);
    });
    connect(m_copy, &QPushButton::clicked, this, &SubstitutePlace::copyList);
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this,
            [this](const QModelIndex& index) { showChosen(index.row()); });
    connect(m_list, &QListView::activated, this, &SubstitutePlace::wantCandidate);
}

const SubstituteAnswer& SubstitutePlace::answer() const {
    return m_model->answer();
}

bool SubstitutePlace::isBusy() const {
    return m_worker->isBusy();
}

void SubstitutePlace::focusWanted() {
    m_question->focusWanted();
}

void SubstitutePlace::takeFromSession() {
    SubstituteState next = m_state;
    next.question.wanted = m_session.wanted();
    // The card may know more of the thread by now (its stash, a new reading).
    if (const auto fresh =
            m_session.wantedThread(next.question.wanted.card, next.question.wanted.code)) {
        next.question.wanted = *fresh;
    }
    next.question.key = m_session.key();
    next.question.touching = m_session.touching();
    ask(next);
}

void SubstitutePlace::ask(const SubstituteState& state) {
    m_state = state;
    if (!(m_session.wanted() == state.question.wanted)) {
        m_session.setWanted(state.question.wanted); // comes back here by way of wantedChanged
        return;
    }
    // Each setting is synced to disk, so typing a code must not write the switches again.
    if (const QString switches = rememberedText(state); switches != m_remembered) {
        m_session.document().store().setSetting(kStateSetting, switches);
        m_remembered = switches;
    }
    m_question->show(state);
    m_order->setCurrent(static_cast<int>(state.question.order == colourway::Order::StashFirst ? 0
                                         : state.question.order == colourway::Order::Nearest  ? 1
                                                                                              : 2));
    m_weights->setCurrent(state.question.weights == colour::kTextileWeights ? 1 : 0);
    if (state.question.wanted.name.isEmpty() && state.question.wanted.code.isEmpty()) {
        showAnswer({state, {}, 0, 0});
        return;
    }
    SubstituteState judged = state;
    const colourway::Wanted& wanted = state.question.wanted;
    // A thread that the chart does not call for cannot spoil the chart.
    if (wanted.thread && std::ranges::find(state.question.key, wanted.code, &chart::KeyRow::code) ==
                             state.question.key.end()) {
        judged.question.key.clear();
        judged.question.touching.clear();
    }
    m_worker->ask(judged, m_session.cards());
}

void SubstitutePlace::showAnswer(const SubstituteAnswer& answer) {
    m_delegate->setGround(toQColor(m_session.ground().shown));
    m_model->setAnswer(answer);
    m_plot->setAnswer(answer);
    const bool none = answer.candidates.empty();
    const bool asked = !answer.state.question.wanted.name.isEmpty() ||
                       !answer.state.question.wanted.code.isEmpty();
    m_list->setVisible(!none);
    m_empty->setVisible(none);
    m_empty->setText(
        asked ? tr("No thread passes. Look among more cards, or take a switch off on the left.")
              : tr("Type the code or the name of the thread that you cannot get, or a colour as "
                   "#hex. Candidates appear as you type."));
    m_copy->setEnabled(!none);
    m_title->setText(tr("%n substitutes", nullptr, int(answer.candidates.size())));
    m_subtitle->setText(tr("of %n threads", nullptr, int(answer.threadsLookedAt)));
    if (!none) {
        m_list->setCurrentIndex(m_model->index(0));
        m_list->scrollToTop();
    }
    showChosen(none ? -1 : 0);
    Q_EMIT answered();
}

void SubstitutePlace::showChosen(int row) {
    m_plot->setChosen(row);
    if (row < 0 || row >= m_model->rowCount()) {
        m_detail->clear();
        return;
    }
    const colourway::Candidate& one = m_model->candidate(row);
    QString text =
        QStringLiteral("<b>%1</b><br>ΔL* %2 &nbsp; ΔC* %3 &nbsp; ΔH* %4<br>ΔE00 %5 &nbsp; ΔE*ab %6")
            .arg(codeText(one).toHtmlEscaped(), signedNumber(one.parts.dL),
                 signedNumber(one.parts.dC), signedNumber(one.parts.dH),
                 QLocale().toString(one.de00, 'f', 2), QLocale().toString(one.deEab, 'f', 2));
    for (const colourway::Warning& warning : one.warnings) {
        text += QStringLiteral("<br>!&nbsp; ") + warning.text.toHtmlEscaped();
    }
    m_detail->setText(text);
}

void SubstitutePlace::askForKey() {
    const QString path = QFileDialog::getOpenFileName(this, tr("Open a chart's key"), {},
                                                      tr("Chart keys (*.csv);;All files (*)"));
    if (path.isEmpty()) {
        return;
    }
    try {
        m_session.openKey(path);
        Q_EMIT told(tr("%n rows of the key read.", nullptr, int(m_session.key().size())));
    } catch (const base::InputError& error) {
        Q_EMIT refused(error.line());
    }
}

void SubstitutePlace::copyList() {
    QGuiApplication::clipboard()->setText(listText(m_model->answer()));
    Q_EMIT told(tr("The list is on the clipboard as text."));
}

void SubstitutePlace::wantCandidate(const QModelIndex& index) {
    const colourway::Candidate& one = m_model->candidate(index.row());
    if (!one.isBlend()) {
        const auto& thread = one.portions.front().thread;
        if (const auto wanted = m_session.wantedThread(thread.card, thread.thread.code)) {
            SubstituteState next = m_state;
            next.question.wanted = *wanted;
            ask(next);
        }
    }
}

} // namespace otherskein::app
