#include "app/build/stage_plan_dialog.h"

#include <QComboBox>
#include <QCompleter>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSplitter>
#include <QTreeWidget>
#include <QVBoxLayout>

#include "app/words/cautions.h"
#include "app/words/error_text.h"
#include "app/words/part_words.h"
#include "app/words/plan_words.h"
#include "app/work/file_bytes.h"
#include "app/work/output_file.h"
#include "core/build/caution.h"
#include "core/build/part_role.h"
#include "core/files/stage_plan_file.h"
#include "core/sheets/sheet_kinds.h"
#include "db/build_records.h"

namespace rodway {
namespace {

constexpr int id_role = Qt::UserRole;
constexpr int row_height_px = 26;
constexpr const char* plan_filter =
    QT_TRANSLATE_NOOP("rodway::StagePlanDialog", "Stage plans (*.json);;All files (*)");

QString text(const std::string& word) {
    return QString::fromStdString(word);
}

std::optional<std::string> if_typed(const QString& typed) {
    const QString trimmed = typed.trimmed();
    return trimmed.isEmpty() ? std::nullopt : std::optional(trimmed.toStdString());
}

/// "barring_over" → "barring over"
QString caution_name(std::string_view key) {
    return text(std::string(key)).replace('_', ' ');
}

QPushButton* button(const QString& title, QLayout* row) {
    auto* made = new QPushButton(title);
    made->setAutoDefault(false);
    row->addWidget(made);
    return made;
}

} // namespace

StagePlanDialog::StagePlanDialog(ShopSession& session, QWidget* parent)
    : QDialog(parent),
      session_(session),
      plans_(new QComboBox),
      word_(new QLineEdit),
      plan_title_(new QLineEdit),
      tree_(new QTreeWidget),
      form_(new QFormLayout),
      title_(new QLineEdit),
      detail_(new QPlainTextEdit),
      caution_(new QComboBox),
      sheet_(new QComboBox),
      parts_(new QLineEdit),
      needs_(new QLineEdit),
      meaning_(new QLabel),
      trouble_(new QLabel) {
    setWindowTitle(tr("Stage plans"));
    resize(1100, 680);
    auto* files = make_files_row();
    auto* named = make_names_row();
    auto* sides = new QSplitter;
    sides->addWidget(make_tree_side());
    sides->addWidget(make_form_side());
    sides->setSizes({560, 540});
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    keep_ = buttons->addButton(tr("&Keep as the shop's own"), QDialogButtonBox::ApplyRole);
    keep_->setObjectName("keep");
    // Enter in a box must not press one of them.
    keep_->setAutoDefault(false);
    buttons->button(QDialogButtonBox::Close)->setAutoDefault(false);
    auto* layout = new QVBoxLayout(this);
    layout->addLayout(files);
    layout->addLayout(named);
    layout->addWidget(sides, 1);
    layout->addWidget(trouble_);
    layout->addWidget(buttons);

    connect(keep_, &QPushButton::clicked, this, &StagePlanDialog::keep);
    connect(buttons, &QDialogButtonBox::rejected, this, &StagePlanDialog::reject);
    open(std::string(usual_stage_plan));
    tree_->setFocus();
}

QLayout* StagePlanDialog::make_files_row() {
    plans_->setObjectName("plans");
    plans_->setAccessibleName(tr("Plan"));
    auto* top = new QHBoxLayout;
    top->addWidget(plans_, 1);
    import_ = button(tr("&Import…"), top);
    auto* out = button(tr("E&xport…"), top);
    built_in_ = button(tr("&Back to the built-in plan"), top);
    connect(plans_, &QComboBox::activated, this,
            [this] { open(plans_->currentData().toString().toStdString()); });
    connect(import_, &QPushButton::clicked, this, [this] {
        const QString file =
            QFileDialog::getOpenFileName(this, tr("Import a stage plan"), {}, tr(plan_filter));
        if (!file.isEmpty()) import_file(file);
    });
    connect(out, &QPushButton::clicked, this, [this] {
        const QString file = QFileDialog::getSaveFileName(this, tr("Export the stage plan"),
                                                          text(draft_.word + ".json"));
        if (!file.isEmpty()) export_file(file);
    });
    connect(built_in_, &QPushButton::clicked, this, &StagePlanDialog::go_back_to_built_in);
    return top;
}

QLayout* StagePlanDialog::make_names_row() {
    word_->setAccessibleName(tr("Word of the plan"));
    word_->setToolTip(tr("Another word makes another plan beside this one."));
    plan_title_->setAccessibleName(tr("Title of the plan"));
    auto* named = new QHBoxLayout;
    named->addWidget(new QLabel(tr("Title")));
    named->addWidget(plan_title_, 2);
    named->addWidget(new QLabel(tr("Word")));
    named->addWidget(word_, 1);
    connect(plan_title_, &QLineEdit::textEdited, this, [this](const QString& typed) {
        draft_.title = typed.trimmed().toStdString();
        show_state();
    });
    connect(word_, &QLineEdit::textEdited, this, [this](const QString& typed) {
        draft_.word = typed.trimmed().toStdString();
        show_state();
    });
    return named;
}

QWidget* StagePlanDialog::make_tree_side() {
    tree_->setObjectName("plan_items");
    tree_->setAccessibleName(tr("Stages, steps and gates"));
    tree_->setHeaderHidden(true);
    tree_->setToolTip(
        tr("Alt with the up and down keys moves what is selected; Delete takes it "
           "out."));
    tree_->installEventFilter(this);
    auto* side = new QWidget;
    auto* layout = new QVBoxLayout(side);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(tree_, 1);
    auto* row = new QHBoxLayout;
    connect(button(tr("New &stage"), row), &QPushButton::clicked, this,
            &StagePlanDialog::add_stage);
    connect(button(tr("New s&tep"), row), &QPushButton::clicked, this, &StagePlanDialog::add_step);
    connect(button(tr("New &gate"), row), &QPushButton::clicked, this, &StagePlanDialog::add_gate);
    row->addStretch();
    connect(button(tr("&Up"), row), &QPushButton::clicked, this, [this] { move(-1); });
    connect(button(tr("&Down"), row), &QPushButton::clicked, this, [this] { move(1); });
    connect(button(tr("&Remove"), row), &QPushButton::clicked, this, &StagePlanDialog::remove);
    layout->addLayout(row);
    connect(tree_, &QTreeWidget::currentItemChanged, this, &StagePlanDialog::show_item);
    return side;
}

QWidget* StagePlanDialog::make_form_side() {
    title_->setObjectName("item_title");
    detail_->setObjectName("item_detail");
    detail_->setTabChangesFocus(true);
    detail_->setMaximumHeight(150);
    parts_->setObjectName("item_parts");
    QStringList roles;
    for (const std::string_view role : part_roles()) {
        roles << text(std::string(role));
    }
    roles_ = new QCompleter(roles, this);
    roles_->setWidget(parts_);
    roles_->setFilterMode(Qt::MatchContains);
    needs_->setObjectName("item_needs");
    meaning_->setWordWrap(true);
    meaning_->setAlignment(Qt::AlignTop);
    caution_->addItem(tr("none"), QString());
    for (const std::string_view key : cautions()) {
        caution_->addItem(caution_name(key), text(std::string(key)));
        caution_->setItemData(caution_->count() - 1, words::caution(text(std::string(key))),
                              Qt::ToolTipRole);
    }
    sheet_->addItem(tr("none"), QString());
    for (const SheetKind& kind : sheet_kinds()) {
        sheet_->addItem(words::sheet_title(kind.id), text(kind.id));
    }
    if (const auto own = load_records<ShopSheetKind>(session_.shop(), shop_wide)) {
        for (const ShopSheetKind& kind : *own) {
            own_titles_[kind.word] = kind.title;
            sheet_->addItem(text(kind.title), text(kind.word));
        }
    }
    form_->addRow(tr("Tit&le"), title_);
    form_->addRow(tr("D&etail"), detail_);
    form_->addRow(tr("&Caution"), caution_);
    form_->addRow(tr("S&heet"), sheet_);
    form_->addRow(tr("&Parts"), parts_);
    form_->addRow(tr("&Needs"), needs_);
    form_->addRow(QString(), meaning_);
    connect(title_, &QLineEdit::textEdited, this, &StagePlanDialog::put_title);
    connect(detail_, &QPlainTextEdit::textChanged, this, &StagePlanDialog::put_detail);
    for (QComboBox* box : {caution_, sheet_}) {
        connect(box, &QComboBox::activated, this, [this, box] { put_choice(box); });
    }
    connect(parts_, &QLineEdit::textEdited, this, &StagePlanDialog::put_parts);
    connect(roles_, qOverload<const QString&>(&QCompleter::activated), this,
            &StagePlanDialog::complete_part);
    connect(needs_, &QLineEdit::textEdited, this, &StagePlanDialog::put_needs);
    auto* side = new QWidget;
    side->setLayout(form_);
    return side;
}

void StagePlanDialog::open(const std::string& word) {
    list_plans(word);
    const auto plan = find_plan(session_.shop(), word);
    draft_ = plan ? *plan : StagePlan{word, word, {}, {}};
    stored_ = draft_;
    wrong_.clear();
    show_draft({});
    if (!plan) {
        complain(plan.error());
    }
}

void StagePlanDialog::list_plans(const std::string& word) {
    const auto known = known_plans(session_.shop());
    plans_->clear();
    may_go_back_ = false;
    for (const KnownPlan& plan : known ? *known : std::vector<KnownPlan>()) {
        plans_->addItem(plan.own ? tr("%1 (the shop's)").arg(text(plan.title)) : text(plan.title),
                        text(plan.word));
        if (plan.word == word) {
            plans_->setCurrentIndex(plans_->count() - 1);
            may_go_back_ = plan.own && plan.built_in;
        }
    }
}

void StagePlanDialog::show_draft(const std::string& selected_id) {
    filling_ = true;
    std::set<QString> unfolded;
    for (int stage = 0; stage < tree_->topLevelItemCount(); ++stage) {
        if (tree_->topLevelItem(stage)->isExpanded()) {
            unfolded.insert(tree_->topLevelItem(stage)->data(0, id_role).toString());
        }
    }
    tree_->clear();
    plan_title_->setText(text(draft_.title));
    word_->setText(text(draft_.word));
    QTreeWidgetItem* current = nullptr;
    const auto add = [&](QTreeWidgetItem* above, const PlanPlace& item) {
        auto* row = new QTreeWidgetItem({row_text(item)});
        row->setData(0, id_role, text(id_at(draft_, item)));
        row->setSizeHint(0, {0, row_height_px});
        above == nullptr ? tree_->addTopLevelItem(row) : above->addChild(row);
        if (id_at(draft_, item) == selected_id) current = row;
        return row;
    };
    for (std::size_t stage = 0; stage < draft_.stages.size(); ++stage) {
        QTreeWidgetItem* top = add(nullptr, {RecordKind::stage, stage, 0});
        for (std::size_t at = 0; at < draft_.stages[stage].steps.size(); ++at) {
            add(top, {RecordKind::step, stage, at});
        }
        for (std::size_t at = 0; at < draft_.stages[stage].gates.size(); ++at) {
            add(top, {RecordKind::gate, stage, at});
        }
        top->setExpanded(unfolded.count(text(draft_.stages[stage].id)) > 0);
    }
    filling_ = false;
    tree_->setCurrentItem(current != nullptr ? current : tree_->topLevelItem(0));
    show_item();
}

std::optional<PlanPlace> StagePlanDialog::selected() const {
    QTreeWidgetItem* row = tree_->currentItem();
    if (row == nullptr) {
        return std::nullopt;
    }
    if (row->parent() == nullptr) {
        return PlanPlace{RecordKind::stage,
                         static_cast<std::size_t>(tree_->indexOfTopLevelItem(row)), 0};
    }
    const auto stage = static_cast<std::size_t>(tree_->indexOfTopLevelItem(row->parent()));
    const auto at = static_cast<std::size_t>(row->parent()->indexOfChild(row));
    const std::size_t steps = draft_.stages[stage].steps.size();
    return at < steps ? PlanPlace{RecordKind::step, stage, at}
                      : PlanPlace{RecordKind::gate, stage, at - steps};
}

QString StagePlanDialog::row_text(const PlanPlace& item) const {
    const QString title = text(title_at(draft_, item));
    return item.kind == RecordKind::gate ? tr("Gate: %1").arg(title) : title;
}

void StagePlanDialog::show_item() {
    if (filling_) {
        return;
    }
    filling_ = true;
    const auto item = selected();
    const PlannedStage* stage = item ? &draft_.stages[item->stage] : nullptr;
    const PlannedStep* step =
        item && item->kind == RecordKind::step ? &stage->steps[item->at] : nullptr;
    const PlannedGate* gate =
        item && item->kind == RecordKind::gate ? &stage->gates[item->at] : nullptr;
    const auto typed = [&](const char* field, const std::string& read) {
        const auto found = item ? wrong_.find({id_at(draft_, *item), field}) : wrong_.end();
        return found == wrong_.end() ? text(read) : found->second.first;
    };
    title_->setText(item ? text(title_at(draft_, *item)) : QString());
    title_->setEnabled(item.has_value());
    detail_->setPlainText(step != nullptr ? text(step->detail.value_or("")) : QString());
    const auto caution = step != nullptr           ? step->caution
                         : item && gate == nullptr ? stage->caution
                                                   : std::nullopt;
    caution_->setCurrentIndex(std::max(0, caution_->findData(text(caution.value_or("")))));
    sheet_->setCurrentIndex(std::max(
        0, sheet_->findData(step != nullptr ? text(step->sheet.value_or("")) : QString())));
    parts_->setText(step != nullptr ? typed("parts", part_roles_text(step->roles)) : QString());
    needs_->setText(gate != nullptr ? typed("needs", needs_text(gate->needs)) : QString());
    for (QWidget* of_step : {static_cast<QWidget*>(detail_), static_cast<QWidget*>(sheet_),
                             static_cast<QWidget*>(parts_)}) {
        of_step->setEnabled(step != nullptr);
    }
    caution_->setEnabled(item && gate == nullptr);
    needs_->setEnabled(gate != nullptr);
    parts_->setPlaceholderText(step != nullptr ? tr("head_gasket, head_bolt") : QString());
    needs_->setPlaceholderText(gate != nullptr ? tr("steps; sheet lash; clearance") : QString());
    filling_ = false;
    show_state();
}

void StagePlanDialog::show_state() {
    const auto item = selected();
    const bool gate = item && item->kind == RecordKind::gate;
    const bool readable = !gate || wrong_.count({id_at(draft_, *item), "needs"}) == 0;
    meaning_->setText(
        gate && readable
            ? tr("Waits for: %1.")
                  .arg(words::needs(draft_.stages[item->stage].gates[item->at].needs, own_titles_))
            : QString());
    show_trouble();
    // What would put another plan in this one's place waits until it is kept.
    plans_->setEnabled(!is_changed());
    import_->setEnabled(!is_changed());
    built_in_->setEnabled(!is_changed() && may_go_back_);
    plans_->setToolTip(is_changed() ? tr("Keep or let go what was changed first.") : QString());
    keep_->setEnabled(is_changed() && wrong_.empty());
}

void StagePlanDialog::show_trouble() {
    // What is wrong here first; else somewhere, with its title.
    const auto item = selected();
    const auto here = std::find_if(wrong_.begin(), wrong_.end(), [&](const auto& entry) {
        return item && entry.first.first == id_at(draft_, *item);
    });
    if (here != wrong_.end()) {
        complain(here->second.second);
    } else if (!wrong_.empty()) {
        const auto& [key, typed] = *wrong_.begin();
        const auto place = place_in(draft_, key.first);
        RODWAY_ASSERT(place.has_value());
        trouble_->setText(
            tr("“%1”: %2").arg(text(title_at(draft_, *place)), words::error_text(typed.second)));
    } else {
        trouble_->clear();
    }
}

void StagePlanDialog::show_new(const std::string& id) {
    show_draft(id);
    title_->setFocus();
    title_->selectAll();
}

void StagePlanDialog::add_stage() {
    show_new(put_stage_behind(draft_, selected(), tr("New stage").toStdString()));
}

void StagePlanDialog::add_step() {
    if (const auto item = selected()) {
        show_new(put_step_behind(draft_, *item, tr("New step").toStdString()));
    }
}

void StagePlanDialog::add_gate() {
    if (const auto item = selected()) {
        show_new(put_gate(draft_, *item, tr("New gate").toStdString()));
    }
}

void StagePlanDialog::move(int by) {
    if (const auto item = selected()) {
        const std::string id = id_at(draft_, *item);
        move_in_plan(draft_, *item, by);
        show_draft(id);
    }
}

void StagePlanDialog::remove() {
    const auto item = selected();
    if (!item) {
        return;
    }
    const std::string above = draft_.stages[item->stage].id;
    take_out_of_plan(draft_, *item);
    // What could not be read in it is gone with it.
    std::erase_if(wrong_, [&](const auto& entry) { return !place_in(draft_, entry.first.first); });
    show_draft(above);
}

void StagePlanDialog::go_back_to_built_in() {
    const auto gone = let_plan_go(session_, stored_.word);
    if (!gone) {
        complain(gone.error());
        return;
    }
    emit said(tr("The built-in plan counts again."));
    open(stored_.word);
}

void StagePlanDialog::put_title() {
    const auto item = selected();
    if (item && !filling_) {
        title_at(draft_, *item) = title_->text().trimmed().toStdString();
        tree_->currentItem()->setText(0, row_text(*item));
        show_state();
    }
}

void StagePlanDialog::put_detail() {
    const auto item = selected();
    if (item && !filling_ && item->kind == RecordKind::step) {
        draft_.stages[item->stage].steps[item->at].detail = if_typed(detail_->toPlainText());
        show_state();
    }
}

void StagePlanDialog::put_choice(QComboBox* box) {
    const auto item = selected();
    if (!item || item->kind == RecordKind::gate) {
        return;
    }
    const auto chosen = if_typed(box->currentData().toString());
    PlannedStage& stage = draft_.stages[item->stage];
    if (item->kind == RecordKind::stage) {
        stage.caution = chosen;
    } else if (box == caution_) {
        stage.steps[item->at].caution = chosen;
    } else {
        stage.steps[item->at].sheet = chosen;
    }
    show_state();
}

void StagePlanDialog::put_parts() {
    const auto item = selected();
    if (!item || item->kind != RecordKind::step) {
        return;
    }
    const QString begun = parts_->text().section(',', -1).trimmed();
    if (!begun.isEmpty() && !is_part_role(begun.toStdString())) {
        roles_->setCompletionPrefix(begun);
        roles_->complete();
    }
    std::vector<std::string>& roles = draft_.stages[item->stage].steps[item->at].roles;
    if (parts_->text().trimmed().isEmpty()) {
        roles.clear();
        mark("parts", {}, std::nullopt);
        return;
    }
    const auto read = parse_part_roles(parts_->text().toStdString());
    if (read) {
        roles = *read;
    }
    mark("parts", parts_->text(), read ? std::nullopt : std::optional(read.error()));
}

void StagePlanDialog::complete_part(const QString& role) {
    QStringList parts = parts_->text().split(',');
    parts.last() = parts.size() > 1 ? ' ' + role : role;
    parts_->setText(parts.join(','));
    put_parts();
}

void StagePlanDialog::put_needs() {
    const auto item = selected();
    if (!item || item->kind != RecordKind::gate) {
        return;
    }
    const auto read = parse_needs(needs_->text().toStdString());
    if (read) {
        draft_.stages[item->stage].gates[item->at].needs = *read;
    }
    mark("needs", needs_->text(), read ? std::nullopt : std::optional(read.error()));
}

void StagePlanDialog::mark(const std::string& field, const QString& typed,
                           const std::optional<Error>& wrong) {
    const std::pair key(id_at(draft_, *selected()), field);
    wrong_.erase(key);
    if (wrong) {
        wrong_.emplace(key, std::pair(typed, *wrong));
    }
    show_state();
}

void StagePlanDialog::complain(const Error& error) {
    trouble_->setText(words::error_text(error));
}

bool StagePlanDialog::keep() {
    const auto kept = keep_plan(session_, write_stage_plan_file(draft_));
    if (!kept) {
        complain(kept.error());
        return false;
    }
    emit said(tr("The shop's own plan is kept. New builds begin with it."));
    const auto item = selected();
    const std::string id = item ? id_at(draft_, *item) : std::string();
    open(*kept);
    show_draft(id);
    return true;
}

void StagePlanDialog::import_file(const QString& file) {
    const auto bytes = read_file(file);
    const auto word = bytes ? keep_plan(session_, *bytes) : Result<std::string>(bytes.error());
    if (!word) {
        trouble_->setText(
            tr("%1\nNothing was taken in.").arg(words::error_in_file(file, word.error())));
        return;
    }
    open(*word);
    emit said(tr("The shop's own plan is kept. New builds begin with it."));
}

void StagePlanDialog::export_file(const QString& file) {
    const auto written = write_output(file, write_stage_plan_file(draft_));
    if (!written) {
        trouble_->setText(words::error_in_file(file, written.error()));
        return;
    }
    trouble_->setText(tr("Wrote %1.").arg(file));
}

bool StagePlanDialog::eventFilter(QObject* watched, QEvent* event) {
    if (watched == tree_ && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool alt = key->modifiers() & Qt::AltModifier;
        if (alt && (key->key() == Qt::Key_Up || key->key() == Qt::Key_Down)) {
            move(key->key() == Qt::Key_Up ? -1 : 1);
            return true;
        }
        if (key->key() == Qt::Key_Delete) {
            remove();
            return true;
        }
    }
    return QDialog::eventFilter(watched, event);
}

void StagePlanDialog::reject() {
    if (is_changed()) {
        QMessageBox ask(QMessageBox::Question, tr("Stage plans"),
                        tr("The plan was changed and isn't kept yet."), QMessageBox::NoButton,
                        this);
        ask.setObjectName("ask_keep");
        auto* keep_it = ask.addButton(tr("Keep it"), QMessageBox::AcceptRole);
        auto* let_go = ask.addButton(tr("Let the changes go"), QMessageBox::DestructiveRole);
        ask.addButton(tr("Go on editing"), QMessageBox::RejectRole);
        ask.exec();
        if (ask.clickedButton() != let_go && (ask.clickedButton() != keep_it || !keep())) {
            return;
        }
    }
    QDialog::reject();
}

} // namespace rodway
