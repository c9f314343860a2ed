#include "app/valvetrain/stated_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/widgets/typed_form.h"
#include "app/words/stated_words.h"
#include "app/work/describe_acts.h"
#include "core/engine/set_up.h"
#include "core/engine/set_up_fields.h"
#include "core/engine/typed_field.h"

namespace rodway {
namespace {

constexpr int widest_metal_px = 160;
constexpr int widest_text_px = 100;

bool is_metal(const std::string& path) {
    return path_parts(path).back() == "metal";
}

/// A unit as people write it; `typed_field` reads it back.
std::string written_unit(const std::string& unit) {
    static const std::map<std::string, std::string> written{
        {"degC", "°C"}, {"degF", "°F"}, {"ppm_K", "ppm/K"}, {"ppm_F", "ppm/F"}};
    const auto found = written.find(unit);
    return found == written.end() ? unit : found->second;
}

TypedForm::Choices metals() {
    TypedForm::Choices choices{{StatedDialog::tr("not stated"), QString()}};
    for (const Metal metal : {Metal::grey_iron, Metal::ductile_iron, Metal::strong_ductile_iron,
                              Metal::carbon_steel, Metal::alloy_steel, Metal::cast_aluminium,
                              Metal::wrought_aluminium, Metal::titanium_alloy}) {
        choices.emplace_back(words::metal(metal), words::token(metal));
    }
    return choices;
}

} // namespace

StatedDialog::StatedDialog(ShopSession& session, SetUpRecord set_up, const QString& title,
                           const QString& about, const std::vector<StatedColumn>& columns,
                           const QString& what, QWidget* parent)
    : QDialog(parent),
      session_(session),
      set_up_(std::move(set_up)),
      what_(what),
      form_(new TypedForm(TypedForm::Shape::columns)) {
    setWindowTitle(title);
    auto* about_label = new QLabel(about);
    about_label->setWordWrap(true);
    for (const StatedColumn& column : columns) {
        form_->new_column(column.title);
        for (const StatedColumn::Box& box : column.boxes) {
            add_box(box)->setAccessibleName(tr("%1: %2").arg(column.title, box.label));
        }
    }
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    buttons->button(QDialogButtonBox::Ok)->setText(tr("State it"));
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(about_label);
    layout->addWidget(form_);
    layout->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::accepted, this, &StatedDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    form_->focus_first();
}

QWidget* StatedDialog::add_box(const StatedColumn::Box& box) {
    const auto stands = set_up_.fields.find(box.path);
    const bool stated = stands != set_up_.fields.end();
    if (is_metal(box.path)) {
        auto* choice = form_->add_choice(box.path.c_str(), box.label, metals());
        choice->setMinimumWidth(widest_metal_px);
        shown_[box.path] = stated ? stands->second.text : std::string();
        form_->set_data(box.path, QString::fromStdString(shown_[box.path]));
        return choice;
    }
    auto* line = form_->add_line(box.path.c_str(), box.label, box.hint);
    line->setMinimumWidth(widest_text_px);
    if (stated) {
        const std::string unit = stands->second.unit;
        shown_[box.path] = stands->second.text + (unit.empty() ? "" : " " + written_unit(unit));
    }
    form_->set_text(box.path, QString::fromStdString(shown_[box.path]));
    return line;
}

std::string StatedDialog::typed(const std::string& path) const {
    return is_metal(path) ? form_->data(path).toString().toStdString()
                          : QString::fromStdString(form_->text(path)).trimmed().toStdString();
}

void StatedDialog::accept() {
    form_->quiet();
    std::map<std::string, std::optional<TypedValue>> wanted;
    SetUpFields fields = set_up_.fields;
    for (const auto& [path, shown] : shown_) {
        const std::string text = typed(path);
        if (text == shown) {
            continue;
        }
        if (text.empty()) {
            wanted[path] = std::nullopt;
            fields.erase(path);
            continue;
        }
        const auto value = typed_field(path, text);
        if (!value) {
            form_->complain(value.error());
            return;
        }
        wanted[path] = *value;
        fields[path] = *value;
    }
    if (const auto engine = make_engine(fields); !engine) {
        form_->complain(engine.error());
        return;
    }
    const auto kept = keep_set_up_fields(session_, geometry_of(set_up_), wanted, what_);
    if (!kept) {
        form_->complain(kept.error());
        return;
    }
    QDialog::accept();
}

} // namespace rodway
