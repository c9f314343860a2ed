#include "app/valvetrain/lift_table_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "app/valvetrain/lobe_import.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "app/work/file_bytes.h"
#include "core/cam/lobe.h"
#include "core/engine/set_up.h"
#include "core/files/lift_table_file.h"

namespace rodway {

LiftTableDialog::LiftTableDialog(QWidget* parent)
    : QDialog(parent),
      file_(new QLineEdit),
      valves_(new QComboBox),
      separator_(new QComboBox),
      decimal_(new QComboBox),
      unit_(new QComboBox),
      degrees_(new QComboBox),
      answer_(new QLabel) {
    setWindowTitle(tr("Import a lift table"));
    setMinimumWidth(520);
    const QString found = tr("as the file says");
    valves_->addItems({tr("Intake lobes"), tr("Exhaust lobes"), tr("All lobes")});
    separator_->addItem(found);
    separator_->addItem(tr("semicolon ;"), ';');
    separator_->addItem(tr("comma ,"), ',');
    separator_->addItem(tr("tab"), '\t');
    separator_->addItem(tr("space"), ' ');
    decimal_->addItem(found);
    decimal_->addItem(tr("point ."), '.');
    decimal_->addItem(tr("comma ,"), ',');
    unit_->addItem(found);
    unit_->addItem(tr("inches"), true);
    unit_->addItem(tr("millimetres"), false);
    degrees_->addItem(found);
    degrees_->addItem(tr("crank degrees"), true);
    degrees_->addItem(tr("cam degrees"), false);
    answer_->setWordWrap(true);
    answer_->setMinimumHeight(64);
    auto* choose = new QPushButton(tr("Choose…"));
    auto* file_row = new QHBoxLayout;
    file_row->addWidget(file_, 1);
    file_row->addWidget(choose);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    good_ = buttons->button(QDialogButtonBox::Ok);
    good_->setText(tr("Take it"));
    auto* form = new QFormLayout(this);
    form->addRow(tr("File"), file_row);
    form->addRow(tr("For"), valves_);
    form->addRow(tr("Between columns"), separator_);
    form->addRow(tr("Decimal mark"), decimal_);
    form->addRow(tr("Lift in"), unit_);
    form->addRow(tr("Angles in"), degrees_);
    form->addRow(answer_);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(file_, &QLineEdit::textChanged, this, &LiftTableDialog::read);
    for (QComboBox* box : {separator_, decimal_, unit_, degrees_}) {
        connect(box, &QComboBox::currentIndexChanged, this, &LiftTableDialog::read);
    }
    connect(choose, &QPushButton::clicked, this, [this] {
        const QString file = QFileDialog::getOpenFileName(
            this, tr("Lift table"), {}, tr("Tables (*.csv *.txt *.tsv);;All files (*)"));
        if (!file.isEmpty()) {
            file_->setText(file);
        }
    });
    read();
}

void LiftTableDialog::read() {
    table_.reset();
    good_->setEnabled(false);
    if (file_->text().trimmed().isEmpty()) {
        answer_->setText(tr("A lift table has two columns, angle and lobe lift, one row a line."));
        return;
    }
    LiftTableHints hints;
    const auto chosen = [](const QComboBox* box) { return box->currentIndex() > 0; };
    if (chosen(separator_)) {
        hints.separator = static_cast<char>(separator_->currentData().toInt());
    }
    if (chosen(decimal_)) {
        hints.decimal_mark = static_cast<char>(decimal_->currentData().toInt());
    }
    if (chosen(unit_)) {
        hints.inches = unit_->currentData().toBool();
    }
    if (chosen(degrees_)) {
        hints.crank_degrees = degrees_->currentData().toBool();
    }
    const auto bytes = read_file(file_->text().trimmed());
    const auto field =
        bytes ? read_lift_table_file(*bytes, hints) : Result<TypedValue>(bytes.error());
    const auto table =
        field ? lift_table_from_text(field->text, field->unit) : Result<LiftTable>(field.error());
    const auto lobe = table ? Lobe::from_table(*table) : Result<Lobe>(table.error());
    if (!lobe) {
        answer_->setText(words::error_text(lobe.error()));
        return;
    }
    table_ = *field;
    good_->setEnabled(true);
    answer_->setText(tr("%1 rows. Full lift %2. The smooth curve stays within %3 mm of the table "
                        "(root mean square).")
                         .arg(table->rows.size())
                         .arg(words::both_units(lobe->full_lift_mm()),
                              QString::number(lobe->residual_mm(), 'f', 4)));
}

std::optional<Error> LiftTableDialog::put(ShopSession& session, std::int64_t build_id) const {
    RODWAY_ASSERT(table_.has_value());
    static const std::vector<std::vector<ValveKind>> kinds{
        {ValveKind::intake}, {ValveKind::exhaust}, {ValveKind::intake, ValveKind::exhaust}};
    const auto done = put_lobe(session, build_id,
                               kinds[static_cast<std::size_t>(valves_->currentIndex())], *table_);
    return done ? std::nullopt : std::optional(done.error());
}

QString LiftTableDialog::file_name() const {
    return QFileInfo(file_->text().trimmed()).fileName();
}

} // namespace rodway
