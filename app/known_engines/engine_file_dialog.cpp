#include "app/known_engines/engine_file_dialog.h"

#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "app/work/build_in_hand.h"
#include "app/work/file_bytes.h"
#include "core/describe/description.h"
#include "core/engine/set_up.h"
#include "core/files/known_engine_file.h"

namespace rodway {
namespace {

struct EngineWords {
    Q_DECLARE_TR_FUNCTIONS(EngineWords)
};

QString arrangement_words(Arrangement arrangement) {
    switch (arrangement) {
        case Arrangement::vee:
            return EngineWords::tr("vee");
        case Arrangement::inline_row:
            return EngineWords::tr("inline");
        case Arrangement::flat:
            return EngineWords::tr("flat");
    }
    return {};
}

/// "Described: 71 sizes measured, 3 from the box, 2 guessed, 12 assumed."
QString known_how_well(const Description& description) {
    int measured = 0;
    int boxed = 0;
    int guessed = 0;
    int assumed = 0;
    std::vector<std::string> seen;
    for (const EngineDimension& dimension : dimensions()) {
        for (const DescribedValve& valve : description.valves()) {
            const auto size = description.size(dimension, valve);
            const std::string path = size ? described_path(size->owner, dimension) : std::string();
            if (!size || std::find(seen.begin(), seen.end(), path) != seen.end()) {
                continue;
            }
            seen.push_back(path);
            if (size->stand != SizeStand::given) {
                ++assumed;
            } else if (size->source == DoubtSource::measured) {
                ++measured;
            } else {
                ++(size->source == DoubtSource::assumed ? guessed : boxed);
            }
        }
    }
    return EngineWords::tr(
               "Described: %1 sizes measured, %2 from the box or by common practice, "
               "%3 guessed, %4 assumed.")
        .arg(measured)
        .arg(boxed)
        .arg(guessed)
        .arg(assumed);
}

} // namespace

QString engine_in_words(const SetUpFields& fields) {
    const auto engine = make_engine(fields);
    if (!engine) {
        return words::error_text(engine.error());
    }
    QStringList lines;
    lines << EngineWords::tr("%1: %2, %3 cylinders, firing order %4.")
                 .arg(QString::fromStdString(engine->layout.name),
                      arrangement_words(engine->layout.arrangement))
                 .arg(engine->layout.cylinders.size())
                 .arg(QString::fromStdString(engine->layout.firing_order_text));
    if (is_described(fields)) {
        if (const auto description = Description::read(fields)) {
            lines << known_how_well(*description);
        }
    } else {
        lines << EngineWords::tr("Given by its places, not by what was measured.");
    }
    const auto lines_of_valves = survey(*engine);
    const ValveClearance* least = lines_of_valves ? tightest(*lines_of_valves) : nullptr;
    lines << (least == nullptr ? EngineWords::tr("%1 trains; none of them has a clearance.")
                                     .arg(engine->trains.size())
                               : EngineWords::tr("%1 trains; least clearance %2 at %3.")
                                     .arg(engine->trains.size())
                                     .arg(words::inches(least->found.minimum->clearance_mm),
                                          QString::fromStdString(position_name(least->position))));
    return lines.join('\n');
}

EngineFileDialog::EngineFileDialog(const QString& title, const QString& take, QWidget* parent)
    : QDialog(parent), file_(new QLineEdit), answer_(new QLabel) {
    setWindowTitle(title);
    setMinimumWidth(560);
    file_->setObjectName("file");
    file_->setAccessibleName(tr("File"));
    answer_->setWordWrap(true);
    answer_->setMinimumHeight(90);
    answer_->setObjectName("answer");
    auto* choose = new QPushButton(tr("Choose…"));
    auto* row = new QHBoxLayout;
    row->addWidget(file_, 1);
    row->addWidget(choose);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    good_ = buttons->button(QDialogButtonBox::Ok);
    good_->setText(take);
    auto* form = new QFormLayout(this);
    form->addRow(tr("File"), row);
    form->addRow(answer_);
    form->addRow(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(file_, &QLineEdit::textChanged, this, &EngineFileDialog::read);
    connect(choose, &QPushButton::clicked, this, [this] {
        const QString chosen = QFileDialog::getOpenFileName(
            this, tr("Engine file"), {}, tr("Engine files (*.json);;All files (*)"));
        if (!chosen.isEmpty()) {
            file_->setText(chosen);
        }
    });
    read();
}

QString EngineFileDialog::file() const {
    return file_->text().trimmed();
}

void EngineFileDialog::read() {
    engine_.reset();
    good_->setEnabled(false);
    if (file().isEmpty()) {
        answer_->setText(
            tr("A set-up file, or a known engine's file. What is in it is shown here "
               "before anything is kept."));
        return;
    }
    const auto bytes = read_file(file());
    const auto engine = bytes ? read_known_engine_file(*bytes) : Result<KnownEngine>(bytes.error());
    if (!engine) {
        answer_->setText(
            tr("%1\nNothing can be taken from it.").arg(words::error_text(engine.error())));
        return;
    }
    engine_ = *engine;
    good_->setEnabled(true);
    QString text = engine_in_words(engine_->fields);
    if (engine_->measured_by || engine_->measured_on) {
        text += '\n' + tr("Measured by %1, %2.")
                           .arg(QString::fromStdString(engine_->measured_by.value_or("–")),
                                QString::fromStdString(engine_->measured_on.value_or("–")));
    }
    if (engine_->note) {
        text += '\n' + QString::fromStdString(*engine_->note);
    }
    answer_->setText(text);
}

} // namespace rodway
