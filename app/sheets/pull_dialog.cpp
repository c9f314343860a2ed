#include "app/sheets/pull_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "app/words/error_text.h"
#include "app/words/pull_words.h"
#include "app/work/file_bytes.h"
#include "core/dyno/pull.h"

namespace rodway {

PullDialog::PullDialog(const BuildSheets& sheets, QWidget* parent)
    : QDialog(parent),
      sheets_(sheets),
      file_(new QLineEdit),
      barometer_(new QComboBox),
      altitude_(new QLineEdit),
      separator_(new QComboBox),
      decimal_(new QComboBox),
      answer_(new QLabel) {
    setWindowTitle(tr("Import a dyno pull"));
    setMinimumWidth(560);
    barometer_->addItem(tr("not said"));
    barometer_->addItem(tr("at the station, as read in the room"), "station");
    barometer_->addItem(tr("reduced to sea level, as a weather service gives it"), "sea_level");
    altitude_->setPlaceholderText(tr("of the room: 850 ft, 260 m"));
    const QString found = tr("as the file says");
    separator_->addItem(found);
    separator_->addItem(tr("semicolon ;"), ';');
    separator_->addItem(tr("comma ,"), ',');
    separator_->addItem(tr("tab"), '\t');
    decimal_->addItem(found);
    decimal_->addItem(tr("point ."), '.');
    decimal_->addItem(tr("comma ,"), ',');
    answer_->setObjectName("pull_answer");
    answer_->setWordWrap(true);
    answer_->setMinimumHeight(110);
    answer_->setAlignment(Qt::AlignTop);
    auto* choose_file = new QPushButton(tr("Choose…"));
    auto* file_row = new QHBoxLayout;
    file_row->addWidget(file_, 1);
    file_row->addWidget(choose_file);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    good_ = buttons->button(QDialogButtonBox::Ok);
    good_->setText(tr("Keep it"));
    auto* form = new QFormLayout(this);
    form->addRow(tr("File"), file_row);
    form->addRow(tr("Barometer"), barometer_);
    form->addRow(tr("Altitude"), altitude_);
    form->addRow(tr("Between columns"), separator_);
    form->addRow(tr("Decimal mark"), decimal_);
    form->addRow(answer_);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    for (QLineEdit* box : {file_, altitude_}) {
        connect(box, &QLineEdit::textChanged, this, &PullDialog::read);
    }
    for (QComboBox* box : {barometer_, separator_, decimal_}) {
        connect(box, &QComboBox::currentIndexChanged, this, &PullDialog::read);
    }
    connect(choose_file, &QPushButton::clicked, this, [this] {
        const QString file = QFileDialog::getOpenFileName(
            this, tr("Dyno pull"), {}, tr("Tables (*.csv *.txt *.tsv);;All files (*)"));
        if (!file.isEmpty()) {
            choose(file);
        }
    });
    read();
}

void PullDialog::choose(const QString& file) {
    file_->setText(file);
}

void PullDialog::read() {
    pull_.reset();
    good_->setEnabled(false);
    const QString path = file_->text().trimmed();
    if (path.isEmpty()) {
        answer_->setText(
            tr("A pull is a table: a line of headings, then a row for each engine speed with its "
               "torque or power as the brake read it."));
        return;
    }
    PullSaid said;
    const auto chosen = [](const QComboBox* box) { return box->currentIndex() > 0; };
    if (chosen(barometer_)) {
        said.barometer = barometer_->currentData().toString().toStdString();
    }
    if (const QString altitude = altitude_->text().trimmed(); !altitude.isEmpty()) {
        said.altitude = altitude.toStdString();
    }
    if (chosen(separator_)) {
        said.hints.separator = static_cast<char>(separator_->currentData().toInt());
    }
    if (chosen(decimal_)) {
        said.hints.decimal_mark = static_cast<char>(decimal_->currentData().toInt());
    }
    const auto bytes = read_file(path);
    const auto pull =
        bytes ? pull_to_keep(sheets_, *bytes, QFileInfo(path).fileName().toStdString(), said)
              : Result<PullToKeep>(bytes.error());
    if (!pull) {
        answer_->setText(words::error_text(pull.error()));
        return;
    }
    pull_ = *pull;
    good_->setEnabled(true);
    answer_->setText(words::pull_read(*pull_).join('\n'));
}

} // namespace rodway
