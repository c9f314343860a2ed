#include "app/valvetrain/variants_panel.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <cmath>

#include "app/valvetrain/row_table.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/barring_words.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/words/lengths.h"
#include "app/words/variant_words.h"

namespace rodway {
namespace {

/// A change that rounds to no thousandth is none to a builder.
constexpr double same_mm = 0.0127;

QString short_inches(const ValveClearance& line) {
    return line.found.minimum ? words::inches(line.found.minimum->clearance_mm).remove(" in")
                              : VariantsPanel::tr("no answer");
}

QString where(const ValveClearance& line, const Engine& engine) {
    if (!line.found.minimum) {
        return {};
    }
    const auto& at = line.found.minimum->in_passage;
    return at && line.found.kind == FeatureKind::port_tube
               ? VariantsPanel::tr("%1, %2").arg(words::wall(at->wall, engine), words::end(at->end))
               : words::place(*line.found.minimum, engine);
}

QStringList standing_texts(const ValveClearance& line, const Engine& engine) {
    return {words::valve(line.position),
            short_inches(line),
            QString(),
            QString(),
            where(line, engine),
            line.verdict ? words::verdict(*line.verdict) : words::status(line)};
}

/// What one variant gains (+) or loses (-) at a valve, and where it is nearest then.
QStringList tried_texts(const ValveVariants& valve, std::size_t column, const Engine& engine) {
    const ValveClearance& stands = valve.as_it_stands;
    const TriedClearance& tried = valve.by_variant[column];
    const QString before = where(stands, engine);
    const QString after = where(tried.line, engine);
    QString change = VariantsPanel::tr("–");
    if (tried.change_mm) {
        change = std::abs(*tried.change_mm) < same_mm
                     ? VariantsPanel::tr("same")
                     : words::signed_inches(*tried.change_mm).remove(" in");
    }
    return {words::valve(stands.position),
            short_inches(stands),
            short_inches(tried.line),
            change,
            before == after ? after : VariantsPanel::tr("%1; was %2").arg(after, before),
            tried.line.verdict ? words::verdict(*tried.line.verdict) : words::status(tried.line)};
}

} // namespace

VariantsPanel::VariantsPanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent),
      list_(new RowTable("variants", tr("Variants of this build"),
                         {tr("Variant"), tr("Least"), tr("Under limit")})),
      name_(new QLineEdit),
      why_(new QLineEdit),
      trouble_(new QLabel),
      keep_(new QPushButton(tr("Keep what is tried"))),
      try_(new QPushButton(tr("Try it"))),
      take_over_(new QPushButton(tr("Take over"))),
      drop_(new QPushButton(tr("Drop"))),
      work_(new WorkBar(tr("Working out every variant…"))),
      about_(new QLabel),
      valves_(new RowTable(
          "variant_valves", tr("Valve by valve"),
          {tr("Valve"), tr("Stands"), tr("Then"), tr("Change"), tr("Nearest"), tr("Verdict")})) {
    name_->setObjectName("variant_name");
    name_->setAccessibleName(tr("Name of the variant being tried"));
    name_->setPlaceholderText(tr("thin gaskets, 1.65 rockers, …"));
    why_->setObjectName("variant_why");
    why_->setAccessibleName(tr("Why this variant"));
    why_->setPlaceholderText(tr("why; needed to take it over"));
    keep_->setObjectName("variant_keep");
    try_->setObjectName("variant_try");
    try_->setToolTip(tr("Puts it into the what-if boxes; nothing is stored"));
    take_over_->setObjectName("variant_take_over");
    take_over_->setToolTip(
        tr("Makes it the set-up in hand; the ones before are kept, and checks "
           "passed with the old sizes become stale"));
    drop_->setObjectName("variant_drop");
    drop_->setToolTip(tr("Lets a kept variant go; Undo brings it back"));
    trouble_->setObjectName("trouble");
    about_->setObjectName("variant_about");
    for (QLabel* label : {trouble_, about_}) {
        label->setWordWrap(true);
    }
    trouble_->hide();
    list_->set_numbers({1});
    list_->setMinimumHeight(96);
    valves_->set_numbers({1, 2, 3});
    valves_->setMinimumHeight(150);
    valves_->set_stretched(4);
    valves_->set_width(5, 82);
    auto* form = new QGridLayout;
    form->setSpacing(4);
    form->addWidget(new QLabel(tr("Name")), 0, 0);
    form->addWidget(name_, 0, 1);
    form->addWidget(keep_, 0, 2);
    form->addWidget(new QLabel(tr("Why")), 1, 0);
    form->addWidget(why_, 1, 1, 1, 2);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(4);
    for (QPushButton* button : {try_, take_over_, drop_}) {
        buttons->addWidget(button);
    }
    buttons->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    layout->addWidget(list_, 1);
    layout->addLayout(form);
    layout->addLayout(buttons);
    layout->addWidget(trouble_);
    layout->addWidget(work_);
    layout->addWidget(about_);
    layout->addWidget(valves_, 3);
    connect(list_, &QTableWidget::currentCellChanged, this, &VariantsPanel::show_compared);
    connect(list_, &RowTable::chosen, this, &VariantsPanel::show_compared);
    connect(valves_, &RowTable::chosen, this, [this](int row) {
        if (compared_ && static_cast<std::size_t>(row) < compared_->valves.size()) {
            model_->select(compared_->valves[static_cast<std::size_t>(row)].as_it_stands.position);
        }
    });
    connect(keep_, &QPushButton::clicked, this, &VariantsPanel::keep);
    connect(name_, &QLineEdit::returnPressed, this, &VariantsPanel::keep);
    connect(try_, &QPushButton::clicked, this, [this] {
        const Row* row = row_in_hand();
        emit try_wanted(row && row->variant ? row->variant->variant : Variant{});
    });
    connect(take_over_, &QPushButton::clicked, this, &VariantsPanel::take_over);
    connect(drop_, &QPushButton::clicked, this, &VariantsPanel::drop);
    connect(work_, &WorkBar::stop_wanted, this, [this] {
        request_.stop();
        work_->end();
        about_->setText(tr("Stopped."));
    });
}

void VariantsPanel::set_build(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    refresh();
}

void VariantsPanel::begin_to_keep() {
    name_->setFocus(Qt::OtherFocusReason);
}

void VariantsPanel::complain(const Error& error) {
    trouble_->setText(words::error_text(error));
    trouble_->show();
}

const VariantsPanel::Row* VariantsPanel::row_in_hand() const {
    const int row = list_->currentRow();
    return row >= 0 && static_cast<std::size_t>(row) < rows_.size()
               ? &rows_[static_cast<std::size_t>(row)]
               : nullptr;
}

void VariantsPanel::show_valve() {
    trouble_->hide();
    if (!session_ || !model_->as_it_stands()) {
        request_.stop();
        work_->end();
        rows_.clear();
        compared_.reset();
        list_->set_rows({});
        valves_->set_rows({});
        about_->clear();
        return;
    }
    make_rows();
    ask();
}

void VariantsPanel::make_rows() {
    const bool trying = !model_->variant().changes_nothing();
    rows_.clear();
    rows_.push_back({tr("As it stands"), std::nullopt, std::nullopt, QString(), 0});
    std::size_t column = 0;
    if (trying) {
        const QString name = tr("Tried now");
        rows_.push_back({name, NamedVariant{name.toStdString(), model_->variant()}, std::nullopt,
                         QString(), column++});
    }
    const auto kept = kept_variants(session_->shop(), build_id_, *model_->as_it_stands());
    if (!kept) {
        complain(kept.error());
        return;
    }
    for (const KeptVariant& each : *kept) {
        Row row{QString::fromStdString(each.name), std::nullopt, each, QString(), column};
        const auto makes = each.variant
                               ? with_variant(*model_->as_it_stands(), each.variant->variant)
                               : Result<Engine>(each.variant.error());
        if (makes) {
            row.variant = *each.variant;
            ++column;
        } else {
            row.trouble = words::error_text(makes.error());
        }
        rows_.push_back(row);
    }
    keep_->setEnabled(trying);
    name_->setEnabled(trying);
}

void VariantsPanel::ask() {
    compared_.reset();
    std::vector<NamedVariant> variants;
    for (const Row& row : rows_) {
        if (row.variant) {
            variants.push_back(*row.variant);
        }
    }
    show_list();
    request_.ask<Compared>(
        [engine = model_->as_it_stands(), variants](const std::stop_token& stop) {
            return Compared{variant_table(*engine, variants, stop)};
        },
        [this](const Compared& compared) {
            work_->end();
            if (!compared.table) {
                complain(compared.table.error());
                return;
            }
            compared_ = *compared.table;
            show_list();
        });
    work_->begin();
}

void VariantsPanel::show_list() {
    std::vector<QStringList> rows;
    for (const Row& row : rows_) {
        const VariantOutcome* outcome = nullptr;
        if (compared_ && !row.variant && !row.kept) {
            outcome = &compared_->as_it_stands;
        } else if (compared_ && row.variant && row.column < compared_->variants.size()) {
            outcome = &compared_->variants[row.column];
        }
        QStringList texts{row.name};
        if (outcome != nullptr) {
            const QString least = outcome->least_mm
                                      ? words::inches(*outcome->least_mm).remove(" in")
                                      : tr("no answer");
            texts << least << words::valves(outcome->below_limit);
        } else {
            texts << QString() << row.trouble;
        }
        rows.push_back(texts);
    }
    list_->set_rows(rows);
    if (list_->currentRow() < 0 && !rows.empty()) {
        list_->setCurrentCell(rows.size() > 1 ? 1 : 0, 0);
    }
    show_compared();
}

void VariantsPanel::show_compared() {
    const Row* row = row_in_hand();
    const bool variant = row && row->variant;
    try_->setEnabled(row != nullptr && (variant || !row->kept));
    take_over_->setEnabled(variant);
    drop_->setEnabled(row && row->kept);
    valves_->set_rows({});
    about_->clear();
    if (!row) {
        return;
    }
    const bool has_why = row->kept && row->kept->why;
    why_->setPlaceholderText(has_why ? QString::fromStdString(*row->kept->why)
                                     : tr("why; needed to take it over"));
    about_->setText(about_text(*row));
    const bool answered = compared_ && (!variant || row->column < compared_->variants.size()) &&
                          (variant || !row->kept);
    if (!answered) {
        return;
    }
    std::vector<QStringList> rows;
    for (const ValveVariants& valve : compared_->valves) {
        rows.push_back(variant ? tried_texts(valve, row->column, *model_->as_it_stands())
                               : standing_texts(valve.as_it_stands, *model_->as_it_stands()));
    }
    valves_->set_rows(rows);
}

QString VariantsPanel::about_text(const Row& row) const {
    const Engine& engine = *model_->as_it_stands();
    QStringList about;
    if (row.variant) {
        about << tr("%1.").arg(words::variant(row.variant->variant, engine.layout));
    }
    if (row.kept) {
        about << tr("Kept by %1, %2.")
                     .arg(QString::fromStdString(row.kept->kept_by),
                          words::day_of(row.kept->kept_at));
        if (row.kept->why) {
            about << tr("Why: %1.").arg(QString::fromStdString(*row.kept->why));
        }
    }
    if (!row.trouble.isEmpty()) {
        about << tr("It can't be made of the set-up in hand: %1").arg(row.trouble);
        return about.join(' ');
    }
    if (!row.kept && !row.variant) {
        about << tr("Type into the what-if boxes below, and keep what is worth comparing.");
    }
    if (compared_ && (!row.variant || row.column < compared_->variants.size())) {
        about << words::outcome(
            row.variant ? compared_->variants[row.column] : compared_->as_it_stands,
            engine.rod_clearance_limit_mm);
    }
    return about.join(' ');
}

void VariantsPanel::keep() {
    if (!session_ || model_->variant().changes_nothing()) {
        return;
    }
    const QString name = name_->text().trimmed();
    const auto id = keep_variant(*session_, build_id_, *model_->as_it_stands(), name,
                                 model_->variant(), why_->text());
    if (!id && !is_waiting(id.error())) {
        complain(id.error());
        return;
    }
    name_->clear();
    why_->clear();
    emit said(tr("Kept “%1”.").arg(name));
    refresh();
}

void VariantsPanel::drop() {
    const Row* row = row_in_hand();
    if (!session_ || !row || !row->kept) {
        return;
    }
    const QString name = row->name;
    const auto done = drop_variant(*session_, build_id_, row->kept->decision_id);
    if (!done) {
        complain(done.error());
        return;
    }
    emit said(tr("“%1” is dropped; Undo brings it back.").arg(name));
    refresh();
}

void VariantsPanel::take_over() {
    const Row* row = row_in_hand();
    if (!session_ || !row || !row->variant) {
        return;
    }
    QString why = why_->text();
    if (why.trimmed().isEmpty() && row->kept && row->kept->why) {
        why = QString::fromStdString(*row->kept->why);
    }
    NamedVariant chosen = *row->variant;
    if (!row->kept && !name_->text().trimmed().isEmpty()) {
        chosen.name = name_->text().trimmed().toStdString();
    }
    const QString name = QString::fromStdString(chosen.name);
    const auto id = take_variant_over(*session_, build_id_, chosen, why);
    if (!id && !is_waiting(id.error())) {
        complain(id.error());
        why_->setFocus();
        return;
    }
    why_->clear();
    emit said(tr("“%1” is now the set-up in hand; the ones before are kept. Checks that depend on "
                 "what has changed are stale: measure again.")
                  .arg(name));
    emit try_wanted(Variant{});
}

} // namespace rodway
