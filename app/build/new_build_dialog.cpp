#include "app/build/new_build_dialog.h"

#include <QComboBox>
#include <QDate>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "app/words/error_text.h"
#include "app/work/file_bytes.h"
#include "core/files/set_up_file.h"

namespace rodway {

NewBuildDialog::NewBuildDialog(const std::vector<KnownPlan>& plans, QWidget* parent)
    : QDialog(parent),
      name_(new QLineEdit),
      customer_(new QLineEdit),
      engine_(new QLineEdit),
      promised_(new QLineEdit),
      set_up_(new QLineEdit),
      plan_(new QComboBox),
      about_plan_(new QLabel),
      trouble_(new QLabel) {
    setWindowTitle(tr("New build"));
    setMinimumWidth(520);
    promised_->setPlaceholderText(tr("2027-03-12, or leave empty"));
    set_up_->setPlaceholderText(tr("set-up file, or leave empty"));
    set_up_->setAccessibleName(tr("Set-up"));
    plan_->setObjectName("plan");
    plan_->setAccessibleName(tr("Stage plan"));
    for (const KnownPlan& plan : plans) {
        const QString title = QString::fromStdString(plan.title);
        plan_->addItem(plan.own ? tr("%1 (the shop's)").arg(title) : title,
                       QString::fromStdString(plan.word));
        plan_->setItemData(plan_->count() - 1, QString::fromStdString(plan.about), Qt::ToolTipRole);
    }
    const std::string usual(usual_stage_plan);
    plan_->setCurrentIndex(std::max(0, plan_->findData(QString::fromStdString(usual))));
    about_plan_->setWordWrap(true);
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    auto* choose = new QPushButton(tr("Choose…"));
    auto* file_row = new QHBoxLayout;
    file_row->addWidget(set_up_, 1);
    file_row->addWidget(choose);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    good_ = buttons->button(QDialogButtonBox::Ok);
    good_->setText(tr("Add build"));
    auto* form = new QFormLayout(this);
    form->addRow(tr("Name"), name_);
    form->addRow(tr("Customer"), customer_);
    form->addRow(tr("Engine"), engine_);
    form->addRow(tr("Promised"), promised_);
    form->addRow(tr("Set-up"), file_row);
    form->addRow(tr("Stage plan"), plan_);
    form->addRow(QString(), about_plan_);
    form->addRow(trouble_);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    for (QLineEdit* edit : {name_, customer_, engine_, promised_}) {
        connect(edit, &QLineEdit::textChanged, this, &NewBuildDialog::check);
    }
    connect(set_up_, &QLineEdit::textChanged, this, &NewBuildDialog::read_set_up);
    connect(plan_, &QComboBox::currentIndexChanged, this, &NewBuildDialog::show_about);
    connect(choose, &QPushButton::clicked, this, [this] {
        const QString file = QFileDialog::getOpenFileName(
            this, tr("Set-up file"), {}, tr("Set-up files (*.json);;All files (*)"));
        if (!file.isEmpty()) {
            set_up_->setText(file);
        }
    });
    show_about();
    check();
}

std::string NewBuildDialog::plan() const {
    return plan_->currentData().toString().toStdString();
}

void NewBuildDialog::show_about() {
    about_plan_->setText(plan_->currentData(Qt::ToolTipRole).toString());
}

Build NewBuildDialog::build() const {
    Build build;
    build.name = name_->text().trimmed().toStdString();
    build.customer = customer_->text().trimmed().toStdString();
    build.engine = engine_->text().trimmed().toStdString();
    if (!promised_->text().trimmed().isEmpty()) {
        build.promised = promised_->text().trimmed().toStdString();
    }
    return build;
}

void NewBuildDialog::read_set_up() {
    fields_.clear();
    trouble_->clear();
    set_up_good_ = true;
    const QString file = set_up_->text().trimmed();
    if (!file.isEmpty()) {
        const auto bytes = read_file(file);
        const auto read = bytes ? read_set_up_file(*bytes) : Result<SetUpFields>(bytes.error());
        set_up_good_ = read.ok();
        if (read) {
            fields_ = *read;
        } else {
            trouble_->setText(words::error_text(read.error()));
        }
    }
    check();
}

void NewBuildDialog::check() {
    const QString date = promised_->text().trimmed();
    const bool dated = date.isEmpty() || QDate::fromString(date, Qt::ISODate).isValid();
    if (set_up_good_) {
        trouble_->setText(dated ? QString()
                                : tr("“%1” is no date: type it like 2027-03-12.").arg(date));
    }
    good_->setEnabled(set_up_good_ && dated && !name_->text().trimmed().isEmpty() &&
                      !customer_->text().trimmed().isEmpty() &&
                      !engine_->text().trimmed().isEmpty());
}

} // namespace rodway
