#include "app/parts/part_dialog.h"

#include <QDialogButtonBox>
#include <QPushButton>
#include <QVBoxLayout>
#include <array>

#include "app/words/part_words.h"
#include "core/build/part_check.h"
#include "core/build/part_role.h"
#include "core/build/word_list.h"

namespace rodway {
namespace {

using Text = std::optional<std::string>;

struct TextBox {
    const char* field;
    Text PartRecord::*text;
};

constexpr std::array<TextBox, 23> text_boxes{TextBox{"position", &PartRecord::position},
                                             {"size", &PartRecord::size},
                                             {"marking", &PartRecord::marking},
                                             {"weight", &PartRecord::weight},
                                             {"note", &PartRecord::note},
                                             {"supplier", &PartRecord::supplier},
                                             {"order_number", &PartRecord::order_number},
                                             {"cost", &PartRecord::cost},
                                             {"needed", &PartRecord::needed},
                                             {"ordered", &PartRecord::ordered},
                                             {"promised", &PartRecord::promised},
                                             {"received", &PartRecord::received},
                                             {"measured", &PartRecord::measured},
                                             {"fitted", &PartRecord::fitted},
                                             {"thread", &PartRecord::thread},
                                             {"length", &PartRecord::length},
                                             {"drive", &PartRecord::drive},
                                             {"lubricant", &PartRecord::lubricant},
                                             {"tightening", &PartRecord::tightening},
                                             {"condition", &PartRecord::condition},
                                             {"returned", &PartRecord::returned},
                                             {"failed", &PartRecord::failed},
                                             {"kept_until", &PartRecord::kept_until}};

QString shown(const Text& text) {
    return QString::fromStdString(text.value_or(std::string()));
}

} // namespace

PartDialog::PartDialog(const PartRecord& part, const std::vector<Step>& steps, std::string today,
                       Keep keep, QWidget* parent)
    : QDialog(parent),
      before_(part),
      today_(std::move(today)),
      keep_(std::move(keep)),
      form_(new TypedForm(TypedForm::Shape::columns)) {
    setWindowTitle(part.id != 0       ? tr("Change a part")
                   : part.replaces_id ? tr("The part that takes its place")
                                      : tr("New part"));
    setObjectName("part_dialog");
    make_part_column(steps);
    make_days_column();
    make_fastener_column();
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    buttons->button(QDialogButtonBox::Ok)->setText(tr("Keep"));
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(form_);
    layout->addStretch();
    layout->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &PartDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    show_part();
    resize(1120, sizeHint().height());
}

void PartDialog::make_part_column(const std::vector<Step>& steps) {
    form_->new_column(tr("The part"));
    form_->add_line("item", tr("What it is"));
    TypedForm::Choices roles{{tr("not said"), QVariant()}};
    for (const std::string_view role : part_roles()) {
        const std::string word(role);
        roles.emplace_back(words::part_role(word), QString::fromStdString(word));
    }
    form_->add_choice("role", tr("In the engine"), roles);
    form_->add_line("position", tr("Where"), tr("3I, 3E; left bolt 3"));
    form_->add_line("count", tr("How many"));
    form_->add_line("size", tr("Size"));
    form_->add_line("marking", tr("Marking"));
    form_->add_line("weight", tr("Weight"), tr("583.9 g"));
    form_->add_choice("owner", tr("Whose"),
                      {{tr("the shop's"), static_cast<int>(PartOwner::shop)},
                       {tr("the customer's own"), static_cast<int>(PartOwner::customer)}});
    TypedForm::Choices waiting{{tr("none in particular"), QVariant()}};
    for (const Step& step : steps) {
        waiting.emplace_back(QString::fromStdString(step.title), static_cast<qlonglong>(step.id));
    }
    form_->add_choice("step_id", tr("Step that waits"), waiting);
    form_->add_flag("temporary", tr("Temporary: another must replace it"));
    form_->add_line("note", tr("Note"));
}

void PartDialog::make_days_column() {
    const QString day = tr("2026-03-01");
    form_->new_column(tr("Buying"));
    form_->add_line("supplier", tr("Supplier"));
    form_->add_line("order_number", tr("Order number"));
    form_->add_line("cost", tr("Cost, all of them"), tr("1,250.00"));
    form_->new_group(tr("Days"));
    form_->add_line("needed", tr("Needed"), day);
    form_->add_line("ordered", tr("Ordered"), day);
    form_->add_line("promised", tr("Promised for"), day);
    form_->add_line("received", tr("Received"), day);
    form_->add_line("measured", tr("Measured"), day);
    form_->add_line("fitted", tr("Fitted"), day);
}

void PartDialog::make_fastener_column() {
    form_->new_column(tr("Fastener"));
    form_->add_line("thread", tr("Thread"), tr("7/16-14, M10x1.25"));
    form_->add_line("length", tr("Under its head"), tr("2-1/2, 64 mm"));
    form_->add_words("drive", tr("Drive"),
                     {tr("hexagon"), tr("twelve point"), tr("hexagon socket"), tr("lobed socket"),
                      tr("cross recess"), tr("slot")});
    form_->add_words("lubricant", tr("Lubricant"),
                     {tr("engine oil"), tr("assembly paste"), tr("thread sealer"), tr("dry")});
    form_->add_line("tightening", tr("Tightening"), tr("45/65/65+90 lb-ft; stretch .006"));
    form_->new_group(tr("As received, given back, failed"));
    form_->add_line("condition", tr("Came as"), tr("used, one lobe pitted"));
    form_->add_line("returned", tr("Given back"), tr("2026-03-01"));
    form_->add_line("failed", tr("How it failed"));
    form_->add_line("kept_until", tr("Kept until"), tr("2026-03-01"));
}

void PartDialog::show_part() {
    form_->set_text("item", QString::fromStdString(before_.item));
    form_->set_text("count", before_.count ? QString::number(*before_.count) : QString());
    for (const TextBox& box : text_boxes) {
        form_->set_text(box.field, shown(before_.*box.text));
    }
    form_->set_data("role", before_.role ? QVariant(shown(before_.role)) : QVariant());
    form_->set_data("owner", static_cast<int>(before_.owner));
    form_->set_data("step_id", before_.step_id ? QVariant(static_cast<qlonglong>(*before_.step_id))
                                               : QVariant());
    form_->set_flag("temporary", before_.temporary);
}

Result<PartRecord> PartDialog::part() const {
    PartRecord part = before_;
    part.item = form_->text("item");
    for (const TextBox& box : text_boxes) {
        part.*box.text = form_->text(box.field);
    }
    part.count.reset();
    if (const std::string count = form_->text("count"); !without_blanks(count).empty()) {
        const auto number = parse_count(count);
        if (!number) {
            return number.error();
        }
        part.count = *number;
    }
    const QVariant role = form_->data("role");
    part.role = role.isValid() ? Text(role.toString().toStdString()) : std::nullopt;
    part.owner = static_cast<PartOwner>(form_->data("owner").toInt());
    const QVariant step = form_->data("step_id");
    part.step_id = step.isValid() ? std::optional<std::int64_t>(step.toLongLong()) : std::nullopt;
    part.temporary = form_->flag("temporary");
    return checked_part(std::move(part), today_);
}

void PartDialog::accept() {
    form_->quiet();
    const auto checked = part();
    const auto kept = checked ? keep_(*checked) : Result<Done>(checked.error());
    if (!kept) {
        form_->complain(kept.error());
        return;
    }
    QDialog::accept();
}

} // namespace rodway
