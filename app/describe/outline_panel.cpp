#include "app/describe/outline_panel.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/widgets/typed_form.h"
#include "app/words/error_text.h"
#include "app/work/describe_acts.h"
#include "app/work/known_engines.h"

namespace rodway {
namespace {

struct BoxOfField {
    const char* path;
    const char* box;
};
constexpr std::array boxes_of_fields{
    BoxOfField{"engine/name", "name"},
    BoxOfField{"engine/bore", "bore"},
    BoxOfField{"engine/stroke", "stroke"},
    BoxOfField{"engine/firing_order", "firing_order"},
    BoxOfField{"camshaft/above_crank", "cam_above"},
    BoxOfField{"camshaft/beside_crank", "cam_beside"},
    BoxOfField{"described/row/valves", "row_valves"},
    BoxOfField{"described/left/valves", "left_valves"},
    BoxOfField{"described/right/valves", "right_valves"},
};

} // namespace

OutlinePanel::OutlinePanel(QWidget* parent)
    : QWidget(parent),
      known_row_(new QWidget),
      known_box_(new QComboBox),
      form_(new TypedForm(TypedForm::Shape::columns)),
      keep_(new QPushButton(tr("Keep the layout and go on"))) {
    form_->new_column(tr("The engine"));
    form_->add_line("name", tr("Engine"), tr("as you call it"));
    form_->add_choice("arrangement", tr("Cylinders stand"),
                      {{tr("in line"), static_cast<int>(Arrangement::inline_row)},
                       {tr("in a vee"), static_cast<int>(Arrangement::vee)},
                       {tr("flat"), static_cast<int>(Arrangement::flat)}});
    form_->add_choice("turning", tr("Crank turns, seen from the front"),
                      {{tr("clockwise"), static_cast<int>(Turning::clockwise)},
                       {tr("counter-clockwise"), static_cast<int>(Turning::counter_clockwise)}});
    form_->add_line("firing_order", tr("Firing order"), tr("1-5-3-6-2-4"));
    form_->add_line("bore", tr("Bore"), tr("3.760, or 95.5 mm"));
    form_->add_line("stroke", tr("Stroke"), tr("3.920"));
    form_->add_line("bank_angle", tr("Bank angle, degrees"),
                    tr("between banks; of an inline: its lean, or empty"));
    form_->new_column(tr("Front to rear"));
    form_->add_line("row_cylinders", tr("Cylinders"), tr("1 2 3 4 5 6"));
    form_->add_line("row_valves", tr("Valves"), tr("E I I E E I I E E I I E"));
    form_->add_line("left_cylinders", tr("Left bank: cylinders"), tr("1 3 5 7"));
    form_->add_line("left_valves", tr("Left bank: valves"), tr("E I I E E I I E"));
    form_->add_line("right_cylinders", tr("Right bank: cylinders"), tr("2 4 6 8"));
    form_->add_line("right_valves", tr("Right bank: valves"), tr("E I I E E I I E"));
    form_->new_group(tr("Camshaft's centre"));
    form_->add_line("cam_above", tr("Above the crank's"), tr("3.5355; below it with a minus"));
    form_->add_line("cam_beside", tr("To the right of the crank's"),
                    tr("seen from behind; to the left with a minus"));
    auto* about = new QLabel(
        tr("Left and right are as seen from behind the engine, looking forward. Valves: one letter "
           "each, I for intake, E for exhaust."));
    about->setWordWrap(true);
    about->setObjectName("small");

    known_box_->setAccessibleName(tr("Known engine to begin with"));
    auto* begin = new QPushButton(tr("Begin from it"));
    auto* known_label = new QLabel(tr("Begin from an engine that the shop knows:"));
    auto* known_layout = new QHBoxLayout(known_row_);
    known_layout->setContentsMargins(0, 0, 0, 8);
    known_layout->addWidget(known_label);
    known_layout->addWidget(known_box_, 1);
    known_layout->addWidget(begin);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(known_row_);
    layout->addWidget(form_);
    layout->addWidget(about);
    layout->addWidget(keep_, 0, Qt::AlignLeft);
    layout->addStretch();
    connect(begin, &QPushButton::clicked, this, &OutlinePanel::begin_from_known);
    connect(keep_, &QPushButton::clicked, this, &OutlinePanel::keep);
    connect(form_, &TypedForm::entered, this, [this] { focusNextChild(); });
    connect(form_->findChild<QComboBox*>("arrangement"), &QComboBox::currentIndexChanged, this,
            &OutlinePanel::show_rows);
    show_rows();
}

void OutlinePanel::show_rows() {
    const auto arrangement = static_cast<Arrangement>(form_->data("arrangement").toInt());
    const bool one = arrangement == Arrangement::inline_row;
    for (const char* box : {"row_cylinders", "row_valves"}) {
        form_->set_shown(box, one);
    }
    for (const char* box : {"left_cylinders", "left_valves", "right_cylinders", "right_valves"}) {
        form_->set_shown(box, !one);
    }
    form_->set_shown("bank_angle", arrangement != Arrangement::flat);
}

void OutlinePanel::take(ShopSession* session, std::int64_t build_id,
                        const std::optional<SetUpRecord>& set_up) {
    const bool same_build = session_ == session && build_id_ == build_id;
    session_ = session;
    build_id_ = build_id;
    set_up_ = set_up;
    const std::optional<SetUpFields> fields = set_up ? std::optional(set_up->fields) : std::nullopt;
    if (!same_build || fields != filled_from_) {
        if (!same_build) {
            form_->clear();
        }
        filled_from_ = fields;
        fill();
    }
    offer_known();
}

void OutlinePanel::offer_known() {
    known_.clear();
    if (session_ != nullptr) {
        if (const auto newest = newest_known_engines(session_->shop())) {
            known_ = *newest;
        }
    }
    QStringList names;
    for (const KnownEngine& engine : known_) {
        names << tr("%1, version %2").arg(QString::fromStdString(engine.name)).arg(engine.version);
    }
    QStringList now;
    for (int at = 0; at < known_box_->count(); ++at) {
        now << known_box_->itemText(at);
    }
    if (names != now) {
        known_box_->clear();
        known_box_->addItems(names);
    }
    // Only where nothing is described yet: it would be written over.
    known_row_->setVisible(!known_.empty() && !set_up_);
}

void OutlinePanel::fill() {
    if (!set_up_) {
        return;
    }
    const EngineOutline outline = outline_of(set_up_->fields);
    form_->set_data("arrangement", static_cast<int>(outline.arrangement));
    form_->set_data("turning", static_cast<int>(outline.turning));
    const auto& names = bank_names(outline.arrangement);
    const auto put = [this](const std::string& box, const std::string& text) {
        form_->set_text(box, QString::fromStdString(text));
    };
    put("name", outline.name);
    put("firing_order", outline.firing_order);
    put("bore", outline.bore);
    put("stroke", outline.stroke);
    put("bank_angle", outline.bank_angle);
    put("cam_above", outline.cam_above);
    put("cam_beside", outline.cam_beside);
    for (std::size_t at = 0; at < names.size() && at < outline.rows.size(); ++at) {
        put(names[at] + "_cylinders", outline.rows[at].cylinders);
        put(names[at] + "_valves", outline.rows[at].valves);
    }
}

void OutlinePanel::keep() {
    if (session_ == nullptr) {
        return;
    }
    EngineOutline outline;
    outline.arrangement = static_cast<Arrangement>(form_->data("arrangement").toInt());
    outline.turning = static_cast<Turning>(form_->data("turning").toInt());
    outline.name = form_->text("name");
    outline.firing_order = form_->text("firing_order");
    outline.bore = form_->text("bore");
    outline.stroke = form_->text("stroke");
    outline.bank_angle = form_->text("bank_angle");
    outline.cam_above = form_->text("cam_above");
    outline.cam_beside = form_->text("cam_beside");
    for (const std::string& bank : bank_names(outline.arrangement)) {
        outline.rows.push_back({form_->text(bank + "_cylinders"), form_->text(bank + "_valves")});
    }
    const auto kept = keep_outline(*session_, build_id_, set_up_, outline);
    if (!kept) {
        form_->complain(kept.error());
        return;
    }
    form_->quiet();
    emit finished();
}

void OutlinePanel::begin_from_known() {
    const int at = known_box_->currentIndex();
    if (session_ == nullptr || at < 0 || at >= static_cast<int>(known_.size())) {
        return;
    }
    const KnownEngine engine = known_[static_cast<std::size_t>(at)];
    if (const auto begun = begin_from(*session_, build_id_, engine); !begun) {
        emit failed(words::error_text(begun.error()));
        return;
    }
    emit said(tr("Begun from %1. Its sizes count as guesses until they are measured here.")
                  .arg(QString::fromStdString(engine.name)));
    emit finished();
}

bool OutlinePanel::go_to(const std::string& path) {
    for (const BoxOfField& one : boxes_of_fields) {
        if (path == one.path) {
            form_->findChild<QLineEdit*>(one.box)->setFocus();
            return true;
        }
    }
    return false;
}

void OutlinePanel::go_to_first() {
    form_->focus_first();
}

} // namespace rodway
