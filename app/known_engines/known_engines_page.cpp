#include "app/known_engines/known_engines_page.h"

#include <QDate>
#include <QFileDialog>
#include <QHeaderView>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <set>

#include "app/edit_stack/shop_session.h"
#include "app/known_engines/engine_file_dialog.h"
#include "app/widgets/typed_form.h"
#include "app/words/describe_words.h"
#include "app/words/error_text.h"
#include "app/words/typed_words.h"
#include "app/work/describe_acts.h"
#include "app/work/known_engines.h"
#include "app/work/output_file.h"
#include "core/describe/description.h"
#include "core/files/known_engine_file.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

constexpr int id_role = Qt::UserRole;
constexpr int owner_role = Qt::UserRole;
constexpr int dimension_role = Qt::UserRole + 1;

QTableWidgetItem* fixed_cell(const QString& text) {
    auto* item = new QTableWidgetItem(text);
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    item->setToolTip(text);
    return item;
}

QString text_of(const std::optional<std::string>& text) {
    return QString::fromStdString(text.value_or(std::string()));
}

} // namespace

KnownEnginesPage::KnownEnginesPage(QWidget* parent)
    : PlacePage(parent),
      list_(new QListWidget),
      empty_(new QLabel),
      right_(new QWidget),
      about_(new QLabel),
      form_(new TypedForm(TypedForm::Shape::row)),
      sizes_(new QTableWidget(0, 3)) {
    auto* title = new QLabel(tr("Known engines"));
    title->setObjectName("title");
    empty_->setAlignment(Qt::AlignCenter);
    empty_->setWordWrap(true);
    empty_->setText(
        tr("No engine is known yet. Describe one in a build and keep it here for next "
           "time, or take one in from a file."));
    auto* across = new QHBoxLayout;
    across->addWidget(make_left());
    across->addWidget(make_right(), 1);
    across->addWidget(empty_, 1);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title);
    layout->addLayout(across, 1);
}

QWidget* KnownEnginesPage::make_left() {
    list_->setObjectName("known_engines");
    list_->setAccessibleName(tr("Known engines, newest version first"));
    keep_from_build_ = new QPushButton(tr("Keep the open build's engine"));
    import_ = new QPushButton(tr("Take one in from a file…"));
    auto* left = new QWidget;
    left->setFixedWidth(280);
    auto* layout = new QVBoxLayout(left);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(list_, 1);
    layout->addWidget(keep_from_build_);
    layout->addWidget(import_);
    connect(list_, &QListWidget::currentRowChanged, this, [this] { show_selected(); });
    connect(keep_from_build_, &QPushButton::clicked, this, &KnownEnginesPage::keep_from_build);
    connect(import_, &QPushButton::clicked, this, &KnownEnginesPage::import_file);
    return left;
}

QWidget* KnownEnginesPage::make_right() {
    about_->setWordWrap(true);
    form_->add_line("name", tr("Engine"), {}, 2);
    form_->add_line("measured_by", tr("Measured by"));
    form_->add_line("measured_on", tr("On"), tr("2026-11-30"));
    form_->add_line("note", tr("Note"), {}, 3);
    auto* keep = new QPushButton(tr("Keep"));
    form_->add_at_end(keep);
    sizes_->setObjectName("known_sizes");
    sizes_->setAccessibleName(tr("Sizes of the known engine"));
    sizes_->setHorizontalHeaderLabels({tr("Size"), tr("As typed"), tr("How well it is known")});
    sizes_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    sizes_->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
    sizes_->verticalHeader()->hide();
    sizes_->setTabKeyNavigation(false);
    begin_ = new QPushButton(tr("New build from it…"));
    export_ = new QPushButton(tr("Share as a file…"));
    let_go_ = new QPushButton(tr("Let this version go"));
    auto* buttons = new QHBoxLayout;
    for (QPushButton* button : {begin_, export_, let_go_}) {
        buttons->addWidget(button);
    }
    buttons->addStretch();
    auto* layout = new QVBoxLayout(right_);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(form_);
    layout->addWidget(about_);
    layout->addWidget(sizes_, 1);
    layout->addLayout(buttons);
    connect(keep, &QPushButton::clicked, this, &KnownEnginesPage::keep_words);
    connect(form_, &TypedForm::entered, this, &KnownEnginesPage::keep_words);
    connect(sizes_, &QTableWidget::cellChanged, this, [this](int row, int column) {
        if (!filling_ && column == 1) {
            keep_size(row);
        }
    });
    connect(begin_, &QPushButton::clicked, this, [this] {
        if (const KnownEngine* engine = selected()) {
            emit build_wanted(engine->id);
        }
    });
    connect(export_, &QPushButton::clicked, this, &KnownEnginesPage::export_file);
    connect(let_go_, &QPushButton::clicked, this, &KnownEnginesPage::let_go);
    return right_;
}

void KnownEnginesPage::take(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    refresh();
}

void KnownEnginesPage::refresh() {
    const std::int64_t had = selected() != nullptr ? selected()->id : 0;
    engines_.clear();
    if (session_ != nullptr) {
        const auto all = known_engines(session_->shop());
        if (!all) {
            emit failed(words::error_text(all.error()));
            return;
        }
        engines_ = *all;
    }
    const bool may_write = session_ != nullptr && !session_->shop().look_only();
    for (QPushButton* button : {import_, begin_, let_go_}) {
        button->setEnabled(may_write);
    }
    keep_from_build_->setEnabled(may_write && build_id_ != 0);
    const QSignalBlocker quiet(list_);
    list_->clear();
    for (const KnownEngine& engine : engines_) {
        auto* item = new QListWidgetItem(
            tr("%1, version %2").arg(QString::fromStdString(engine.name)).arg(engine.version));
        item->setData(id_role, QVariant::fromValue<qlonglong>(engine.id));
        list_->addItem(item);
    }
    select(had);
    show_selected();
}

const KnownEngine* KnownEnginesPage::selected() const {
    const int row = list_->currentRow();
    return row < 0 || row >= static_cast<int>(engines_.size())
               ? nullptr
               : &engines_[static_cast<std::size_t>(row)];
}

void KnownEnginesPage::select(std::int64_t id) {
    int row = engines_.empty() ? -1 : 0;
    for (std::size_t at = 0; at < engines_.size(); ++at) {
        if (engines_[at].id == id) {
            row = static_cast<int>(at);
        }
    }
    list_->setCurrentRow(row);
}

void KnownEnginesPage::go_to_record(const RecordRef& record) {
    select(record.id);
}

void KnownEnginesPage::show_selected() {
    const KnownEngine* engine = selected();
    right_->setVisible(engine != nullptr);
    empty_->setVisible(engine == nullptr);
    if (engine == nullptr) {
        shown_.reset();
        return;
    }
    const bool other = !shown_ || shown_->id != engine->id;
    const bool words_changed =
        other || shown_->name != engine->name || shown_->measured_by != engine->measured_by ||
        shown_->measured_on != engine->measured_on || shown_->note != engine->note;
    const bool fields_changed = other || shown_->fields != engine->fields;
    shown_ = *engine;
    if (words_changed) {
        form_->set_text("name", QString::fromStdString(engine->name));
        form_->set_text("measured_by", text_of(engine->measured_by));
        form_->set_text("measured_on", text_of(engine->measured_on));
        form_->set_text("note", text_of(engine->note));
        form_->quiet();
    }
    if (fields_changed) {
        about_->setText(engine_in_words(engine->fields));
        show_sizes(*engine);
    }
}

void KnownEnginesPage::show_sizes(const KnownEngine& engine) {
    filling_ = true;
    const int row_now = sizes_->currentRow();
    sizes_->setRowCount(0);
    const auto description = Description::read(engine.fields);
    if (is_described(engine.fields) && description) {
        std::set<std::string> seen;
        for (const EngineDimension& dimension : dimensions()) {
            for (const DescribedValve& valve : description->valves()) {
                const auto size = description->size(dimension, valve);
                if (!size || !seen.insert(described_path(size->owner, dimension)).second) {
                    continue;
                }
                const int row = sizes_->rowCount();
                sizes_->insertRow(row);
                auto* name = fixed_cell(words::dimension_of(dimension, size->owner));
                name->setData(owner_role, QString::fromStdString(size->owner));
                name->setData(dimension_role, QString::fromStdString(std::string(dimension.name)));
                sizes_->setItem(row, 0, name);
                sizes_->setItem(row, 1,
                                new QTableWidgetItem(QString::fromStdString(
                                    described_text(engine.fields, size->owner, dimension))));
                sizes_->setItem(row, 2,
                                fixed_cell(words::stand_sign(*size) + ' ' +
                                           words::size_stand(dimension, *size)));
            }
        }
    }
    sizes_->setVisible(sizes_->rowCount() > 0);
    if (row_now >= 0 && row_now < sizes_->rowCount()) {
        sizes_->setCurrentCell(row_now, 1);
    }
    filling_ = false;
}

void KnownEnginesPage::keep_size(int row) {
    const KnownEngine* engine = selected();
    const QTableWidgetItem* name = sizes_->item(row, 0);
    if (engine == nullptr || name == nullptr) {
        return;
    }
    const std::string owner = name->data(owner_role).toString().toStdString();
    const EngineDimension* dimension =
        dimension_called(name->data(dimension_role).toString().toStdString());
    RODWAY_ASSERT(dimension != nullptr);
    const std::string text = sizes_->item(row, 1)->text().trimmed().toStdString();
    const auto kept = keep_described_size(*session_, geometry_of(*engine), owner, *dimension, text);
    if (!kept) {
        // What was typed stays in its cell.
        emit failed(words::typed_error(kept.error(), words::dimension_of(*dimension, owner)));
    }
}

void KnownEnginesPage::keep_words() {
    const KnownEngine* engine = selected();
    if (engine == nullptr) {
        return;
    }
    const auto kept = change_known_engine(*session_, *engine,
                                          {form_->text("name"), form_->text("measured_by"),
                                           form_->text("measured_on"), form_->text("note")});
    if (!kept) {
        form_->complain(kept.error());
        return;
    }
    form_->quiet();
    emit said(tr("Kept."));
}

void KnownEnginesPage::keep_from_build() {
    const auto set_up = newest_set_up(session_->shop(), build_id_);
    if (!set_up || !*set_up) {
        emit failed(set_up ? tr("The open build has no set-up yet: describe its engine first.")
                           : words::error_text(set_up.error()));
        return;
    }
    const SetUpFields& fields = (*set_up)->fields;
    const auto name = fields.find("engine/name");
    const auto id = keep_known_engine(
        *session_,
        {name == fields.end() ? (*set_up)->name : name->second.text, session_->who().toStdString(),
         QDate::currentDate().toString(Qt::ISODate).toStdString(), std::nullopt},
        fields);
    if (!id) {
        emit failed(
            tr("%1\nAn engine is kept when it is whole.").arg(words::error_text(id.error())));
        return;
    }
    refresh();
    select(*id);
    emit said(tr("Kept as a known engine; Undo takes it back."));
}

void KnownEnginesPage::import_file() {
    EngineFileDialog dialog(tr("Take in a known engine"), tr("Keep it"), this);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    const KnownEngine& engine = *dialog.engine();
    const auto id = keep_known_engine(
        *session_, {engine.name, engine.measured_by, engine.measured_on, engine.note},
        engine.fields);
    if (!id) {
        emit failed(words::error_text(id.error()));
        return;
    }
    refresh();
    select(*id);
    emit said(tr("%1 is known now.").arg(QString::fromStdString(engine.name)));
}

void KnownEnginesPage::export_file() {
    const KnownEngine* engine = selected();
    if (engine == nullptr) {
        return;
    }
    const QString file =
        QFileDialog::getSaveFileName(this, tr("Share the engine as a file"), tr("engine.json"),
                                     tr("Engine files (*.json);;All files (*)"));
    if (file.isEmpty()) {
        return;
    }
    if (const auto written = write_output(file, write_known_engine_file(*engine)); !written) {
        emit failed(words::error_in_file(file, written.error()));
        return;
    }
    emit said(tr("Wrote %1.").arg(file));
}

void KnownEnginesPage::let_go() {
    const KnownEngine* engine = selected();
    if (engine == nullptr) {
        return;
    }
    if (const auto gone = let_known_engine_go(*session_, *engine); !gone) {
        emit failed(words::error_text(gone.error()));
        return;
    }
    emit said(tr("Let go; Undo brings it back."));
}

} // namespace rodway
