#include "app/sheets/own_sheet_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

#include "app/words/sheet_words.h"

namespace rodway {
namespace {

enum Column {
    title_column,
    form_column,
    unit_column,
    place_column,
    low_column,
    high_column,
    source_column,
    column_count
};
constexpr int first_lines = 4;

QString form_words(Form form) {
    switch (form) {
        case Form::length:
            return OwnSheetDialog::tr("length");
        case Form::clearance:
            return OwnSheetDialog::tr("clearance by gauges");
        case Form::deck:
            return OwnSheetDialog::tr("height at the deck, in or out of the hole");
        case Form::dome:
            return OwnSheetDialog::tr("dome or dish");
        case Form::lash:
            return OwnSheetDialog::tr("lash, hot or cold");
        case Form::advance:
            return OwnSheetDialog::tr("advance or retard");
        case Form::angle:
            return OwnSheetDialog::tr("angle");
        case Form::crank_angle:
            return OwnSheetDialog::tr("crank angle");
        case Form::cam_angle:
            return OwnSheetDialog::tr("cam angle");
        case Form::force:
            return OwnSheetDialog::tr("force");
        case Form::mass:
            return OwnSheetDialog::tr("weight");
        case Form::volume:
            return OwnSheetDialog::tr("volume");
        case Form::pressure:
            return OwnSheetDialog::tr("pressure");
        case Form::temperature:
            return OwnSheetDialog::tr("temperature");
        case Form::torque:
            return OwnSheetDialog::tr("torque");
        case Form::power:
            return OwnSheetDialog::tr("power");
        case Form::speed:
            return OwnSheetDialog::tr("speed");
        case Form::time:
            return OwnSheetDialog::tr("time");
        case Form::percent:
            return OwnSheetDialog::tr("per cent");
        case Form::altitude:
            return OwnSheetDialog::tr("altitude");
        case Form::spring_rate:
            return OwnSheetDialog::tr("spring rate");
        case Form::ratio:
            return OwnSheetDialog::tr("ratio");
        case Form::count:
            return OwnSheetDialog::tr("count");
        case Form::number:
            return OwnSheetDialog::tr("number");
        case Form::words:
            return OwnSheetDialog::tr("words");
        case Form::day:
            return OwnSheetDialog::tr("day");
        case Form::yes_no:
            return OwnSheetDialog::tr("yes or no");
        case Form::choice:
            break;
    }
    return {};
}

QString usual_unit(Dimension dimension) {
    return dimension == Dimension::length   ? QStringLiteral("in")
           : dimension == Dimension::torque ? QStringLiteral("lb-ft")
                                            : QString();
}

} // namespace

OwnSheetDialog::OwnSheetDialog(QWidget* parent)
    : QDialog(parent),
      title_(new QLineEdit),
      lines_(new QTableWidget(0, column_count)),
      trouble_(new QLabel) {
    setWindowTitle(tr("New sheet of the shop's own"));
    resize(980, 460);
    title_->setAccessibleName(tr("Title of the sheet"));
    lines_->setAccessibleName(tr("Lines of the sheet"));
    lines_->setHorizontalHeaderLabels({tr("What is read"), tr("Form"), tr("Unit"), tr("Where"),
                                       tr("From"), tr("To"), tr("Who says so")});
    lines_->verticalHeader()->hide();
    lines_->verticalHeader()->setDefaultSectionSize(32);
    lines_->horizontalHeader()->setSectionResizeMode(title_column, QHeaderView::Stretch);
    for (int row = 0; row < first_lines; ++row) {
        add_line();
    }
    lines_->setColumnWidth(form_column, 150);
    lines_->setColumnWidth(unit_column, 90);
    lines_->setColumnWidth(place_column, 230);
    lines_->setColumnWidth(source_column, 150);
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    trouble_->hide();
    auto* more = new QPushButton(tr("One more line"));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    buttons->button(QDialogButtonBox::Ok)->setText(tr("Keep the sheet"));
    auto* form = new QFormLayout;
    form->addRow(tr("Title"), title_);
    auto* layout = new QVBoxLayout(this);
    layout->addLayout(form);
    layout->addWidget(lines_, 1);
    layout->addWidget(more, 0, Qt::AlignLeft);
    layout->addWidget(trouble_);
    layout->addWidget(buttons);
    connect(more, &QPushButton::clicked, this, &OwnSheetDialog::add_line);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

void OwnSheetDialog::add_line() {
    const int row = lines_->rowCount();
    lines_->insertRow(row);
    auto* form = new QComboBox;
    form->setAccessibleName(tr("Form"));
    for (const Form one : own_forms()) {
        form->addItem(form_words(one), static_cast<int>(one));
    }
    auto* unit = new QComboBox;
    unit->setAccessibleName(tr("Unit"));
    auto* place = new QComboBox;
    place->setAccessibleName(tr("Where"));
    for (const PlaceShape& shape : place_shapes()) {
        if (shape.place != Place::rod_gap) {
            place->addItem(words::place_heading(shape.place), static_cast<int>(shape.place));
        }
    }
    lines_->setCellWidget(row, form_column, form);
    lines_->setCellWidget(row, unit_column, unit);
    lines_->setCellWidget(row, place_column, place);
    fill_units(row);
    connect(form, &QComboBox::currentIndexChanged, this, [this, form] {
        for (int line = 0; line < lines_->rowCount(); ++line) {
            if (lines_->cellWidget(line, form_column) == form) {
                fill_units(line);
            }
        }
    });
}

void OwnSheetDialog::fill_units(int row) {
    auto* form = static_cast<QComboBox*>(lines_->cellWidget(row, form_column));
    auto* unit = static_cast<QComboBox*>(lines_->cellWidget(row, unit_column));
    unit->clear();
    const Dimension dimension = dimension_of(static_cast<Form>(form->currentData().toInt()));
    if (dimension == Dimension::none) {
        unit->setEnabled(false);
        return;
    }
    unit->setEnabled(true);
    for (const MeasureUnit& one : units_of(dimension)) {
        unit->addItem(QString::fromUtf8(one.id.data(), static_cast<int>(one.id.size())));
    }
    unit->setCurrentIndex(std::max(0, unit->findText(usual_unit(dimension))));
}

OwnSheet OwnSheetDialog::sheet() const {
    OwnSheet sheet{title_->text().trimmed().toStdString(), {}};
    const auto typed = [&](int row, int column) {
        const QTableWidgetItem* item = lines_->item(row, column);
        return item ? item->text().trimmed().toStdString() : std::string();
    };
    const auto chosen = [&](int row, int column) {
        return static_cast<const QComboBox*>(lines_->cellWidget(row, column));
    };
    for (int row = 0; row < lines_->rowCount(); ++row) {
        OwnLine line;
        line.title = typed(row, title_column);
        if (line.title.empty()) {
            continue;
        }
        line.form = static_cast<Form>(chosen(row, form_column)->currentData().toInt());
        line.unit = chosen(row, unit_column)->currentText().toStdString();
        line.place = static_cast<Place>(chosen(row, place_column)->currentData().toInt());
        if (const std::string low = typed(row, low_column); !low.empty()) {
            line.low = low;
        }
        if (const std::string high = typed(row, high_column); !high.empty()) {
            line.high = high;
        }
        line.limit_source = typed(row, source_column);
        sheet.lines.push_back(std::move(line));
    }
    return sheet;
}

void OwnSheetDialog::refuse(const QString& why) {
    trouble_->setText(why);
    trouble_->show();
}

} // namespace rodway
