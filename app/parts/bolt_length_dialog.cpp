#include "app/parts/bolt_length_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/widgets/typed_form.h"
#include "app/words/lengths.h"
#include "core/engine/bolt_end_fields.h"
#include "core/engine/set_up.h"
#include "core/units/typed_text.h"
#include "db/record_fields.h"

namespace rodway {

BoltLengthDialog::BoltLengthDialog(ShopSession& session, SetUpRecord set_up, const PartRecord& part,
                                   Length length, QWidget* parent)
    : QDialog(parent),
      session_(session),
      set_up_(std::move(set_up)),
      part_(part),
      length_(length),
      form_(new TypedForm(TypedForm::Shape::columns)),
      says_(new QLabel) {
    setWindowTitle(tr("A bolt's length into the set-up"));
    setMinimumWidth(520);
    says_->setWordWrap(true);
    says_->setObjectName("says");
    form_->new_column(
        tr("%1, %2 under its head")
            .arg(QString::fromStdString(part_.item), words::both_units(length_.in_mm())));
    TypedForm::Choices bolts;
    for (const std::string& name : bolt_ends_of(set_up_.fields)) {
        bolts.emplace_back(QString::fromStdString(name), QString::fromStdString(name));
    }
    auto* bolt = form_->add_choice(
        "bolt", tr("Bolt in “%1”").arg(QString::fromStdString(set_up_.name)), bolts);
    auto* was = form_->add_line("was", tr("It is there, under its head"), tr("1-1/4"));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    buttons->button(QDialogButtonBox::Ok)->setText(tr("Make a new set-up"));
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(form_);
    layout->addWidget(says_);
    layout->addWidget(buttons);
    connect(bolt, &QComboBox::currentIndexChanged, this, &BoltLengthDialog::show_length_in_set_up);
    connect(was, &QLineEdit::textChanged, this, &BoltLengthDialog::show_difference);
    connect(buttons, &QDialogButtonBox::accepted, this, &BoltLengthDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    show_length_in_set_up();
}

void BoltLengthDialog::show_length_in_set_up() {
    const std::string name = form_->data("bolt").toString().toStdString();
    const auto length = bolt_end_length(set_up_.fields, name);
    form_->set_text("was", length ? words::size(length->in_mm()) : QString());
    show_difference();
}

Result<Length> BoltLengthDialog::difference() const {
    const auto was = parse_length(form_->text("was"), BareNumber::inches);
    if (!was) {
        Error error = was.error();
        error.field = "was";
        return error;
    }
    return length_ - was->middle();
}

void BoltLengthDialog::show_difference() {
    const auto by = difference();
    const QString meaning =
        tr("The set-up says how far back the bolt was modelled, which need not be its length under "
           "the head: type that here.");
    if (!by) {
        says_->setText(meaning);
        return;
    }
    const QString size = words::both_units(std::abs(by->in_mm()));
    says_->setText(tr("%1 %2").arg(by->in_mm() >= 0.0
                                       ? tr("Its end then stands %1 further out.").arg(size)
                                       : tr("Its end then stands %1 less far out.").arg(size),
                                   meaning));
}

void BoltLengthDialog::accept() {
    form_->quiet();
    const auto by = difference();
    const std::string name = form_->data("bolt").toString().toStdString();
    const auto longer =
        by ? with_bolt_longer(set_up_.fields, name, *by) : Result<SetUpFields>(by.error());
    const auto engine = longer ? make_engine(*longer) : Result<Engine>(longer.error());
    if (!engine) {
        form_->complain(engine.error());
        return;
    }
    const QString title = tr("%1: %2 is %3")
                              .arg(QString::fromStdString(set_up_.name),
                                   QString::fromStdString(name), words::size(length_.in_mm()));
    const auto id = session_.create(
        RecordKind::set_up,
        [&](std::int64_t set_up_id) {
            return edits_to_create(
                SetUpRecord{set_up_id, set_up_.build_id, title.toStdString(), *longer});
        },
        tr("bolt's length in the set-up"));
    if (!id && !is_waiting(id.error())) {
        form_->complain(id.error());
        return;
    }
    QDialog::accept();
}

} // namespace rodway
