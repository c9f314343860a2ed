#include "app/describe/dimension_panel.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "app/words/describe_words.h"
#include "app/words/error_text.h"
#include "app/work/describe_acts.h"
#include "core/describe/typed_size.h"
#include "core/engine/field_reader.h"
#include "core/engine/set_up.h"
#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

const std::vector<std::string> kinds{"intake", "exhaust"};

/// A plain field of the set-up as it stands in its box.
QString plain_text(const SetUpFields& fields, const std::string& path) {
    const auto found = fields.find(path);
    if (found == fields.end()) {
        return {};
    }
    const QString text = QString::fromStdString(found->second.text);
    return found->second.unit == "mm" ? text + " mm" : text;
}

/// Reads it as its kind of field says; an empty text takes it away. Errors: as `make_engine`'s of
/// one field.
Result<std::optional<TypedValue>> read_plain(const std::string& path, const std::string& text) {
    if (text.empty()) {
        return std::optional<TypedValue>();
    }
    const FieldSpec* spec = field_spec(path);
    RODWAY_ASSERT(spec != nullptr);
    if (spec->kind == FieldKind::length) {
        const auto typed = read_typed_length(path, text);
        if (!typed) {
            return typed.error();
        }
        const auto checked = length_field_mm(path, *typed);
        return checked ? Result<std::optional<TypedValue>>(std::optional(*typed))
                       : Result<std::optional<TypedValue>>(checked.error());
    }
    const TypedValue typed{text, spec->kind == FieldKind::durations ? "in/crank_deg" : "crank_deg"};
    if (spec->kind == FieldKind::durations) {
        const auto pairs = pairs_from_text(path, text);
        return pairs ? Result<std::optional<TypedValue>>(std::optional(typed))
                     : Result<std::optional<TypedValue>>(pairs.error());
    }
    const auto number = parse_number(text);
    if (!number) {
        return bad_field(ErrorCode::not_an_angle, path, text);
    }
    if (*number < spec->low || *number > spec->high) {
        Error error = bad_field(ErrorCode::out_of_range, path, text);
        error.limits = Limits{spec->low, spec->high, "crank_deg"};
        return error;
    }
    return std::optional(typed);
}

} // namespace

DimensionPanel::DimensionPanel(DescribeStep step, const DescribeModel* model, QWidget* parent)
    : QWidget(parent), step_(step), model_(model), layout_(new QVBoxLayout(this)) {
    layout_->setContentsMargins(0, 0, 0, 0);
}

bool DimensionPanel::is_wanted(const EngineDimension& dimension) const {
    if (dimension.step != step_) {
        return false;
    }
    const auto& valves = model_->description()->valves();
    return std::any_of(valves.begin(), valves.end(), [&](const DescribedValve& valve) {
        return model_->description()->has(dimension, valve);
    });
}

bool DimensionPanel::any_chosen(const std::string& name, const char* word) const {
    const auto& valves = model_->description()->valves();
    return std::any_of(valves.begin(), valves.end(), [&](const DescribedValve& valve) {
        return model_->description()->choice(name, valve) == word;
    });
}

std::string DimensionPanel::layout_key() const {
    if (!model_->description()) {
        return {};
    }
    std::string key;
    for (const EngineDimension& dimension : dimensions()) {
        if (is_wanted(dimension)) {
            key += std::string(dimension.name) + ' ';
        }
    }
    key += any_chosen("mount", "ball_pivot") ? "guided " : "";
    for (const DescribedValve& valve : model_->description()->valves()) {
        key += valve.bank + position_name(valve.position) + ' ';
    }
    return key;
}

void DimensionPanel::take(ShopSession* session, const std::optional<SetUpRecord>& set_up) {
    session_ = session;
    set_up_ = set_up;
    const std::string key = layout_key();
    if (key != key_) {
        key_ = key;
        rebuild();
    }
    refresh();
}

void DimensionPanel::rebuild() {
    const std::string had = [this] {
        for (const Entry& entry : entries_) {
            if (entry.box->edit()->hasFocus()) {
                return entry.path;
            }
        }
        return std::string();
    }();
    entries_.clear();
    choices_.clear();
    if (content_ != nullptr) {
        // A box may be the one whose keeping changed the layout: it goes when it is done.
        content_->hide();
        content_->deleteLater();
    }
    content_ = new QWidget;
    rows_ = new QVBoxLayout(content_);
    rows_->setContentsMargins(0, 0, 0, 0);
    layout_->addWidget(content_);
    if (!model_->description()) {
        return;
    }
    add_of_step();
    std::vector<std::string> banks;
    for (const DescribedValve& valve : model_->description()->valves()) {
        if (std::find(banks.begin(), banks.end(), valve.bank) == banks.end()) {
            banks.push_back(valve.bank);
        }
    }
    std::vector<const EngineDimension*> of_bank;
    std::vector<const EngineDimension*> of_kind;
    for (const EngineDimension& dimension : dimensions()) {
        if (is_wanted(dimension) && dimension.owner != DimensionOwner::valve) {
            (dimension.owner == DimensionOwner::bank ? of_bank : of_kind).push_back(&dimension);
        }
    }
    add_rows(of_bank, banks);
    add_rows(of_kind, kinds);
    if (step_ == DescribeStep::gaps) {
        add_gaps();
    }
    rows_->addStretch();
    if (!had.empty()) {
        go_to(had);
    }
}

QGridLayout* DimensionPanel::new_grid(const std::vector<std::string>& owners) {
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(4);
    grid->setColumnStretch(0, 3);
    int column = 1;
    for (const std::string& owner : owners) {
        auto* head = new QLabel(words::size_owner(owner));
        head->setObjectName("subtitle");
        grid->addWidget(head, 0, column);
        grid->setColumnStretch(column++, 2);
    }
    rows_->addLayout(grid);
    return grid;
}

SizeBox* DimensionPanel::add_box(const EngineDimension& dimension, const std::string& owner,
                                 const std::string& beside, bool small) {
    auto* box = new SizeBox(words::dimension_of(dimension, owner), small,
                            [this, &dimension, owner](const std::string& text) -> Result<Done> {
                                if (session_ == nullptr || !set_up_) {
                                    return Done{}; // the build is being let go of
                                }
                                return keep_described_size(*session_, geometry_of(*set_up_), owner,
                                                           dimension, text);
                            });
    if (!beside.empty()) {
        box->set_same([this, &dimension, beside] {
            return QString::fromStdString(described_text(model_->fields(), beside, dimension));
        });
    }
    connect(box, &SizeBox::focused, this, [this, &dimension, owner] {
        emit lit(
            QString::fromUtf8(dimension.name.data(), static_cast<qsizetype>(dimension.name.size())),
            QString::fromStdString(owner));
    });
    entries_.push_back({box, described_path(owner, dimension), &dimension, owner});
    enter_order(box);
    return box;
}

void DimensionPanel::enter_order(SizeBox* box) {
    connect(box, &SizeBox::done, this, [this, box] {
        const auto here = std::find_if(entries_.begin(), entries_.end(),
                                       [box](const Entry& entry) { return entry.box == box; });
        if (here == entries_.end()) {
            return; // made anew meanwhile
        }
        const auto next = std::find_if(here + 1, entries_.end(),
                                       [](const Entry& entry) { return entry.box->isEnabled(); });
        if (next == entries_.end()) {
            emit finished();
            return;
        }
        next->box->edit()->setFocus();
        next->box->edit()->selectAll();
    });
}

void DimensionPanel::add_rows(const std::vector<const EngineDimension*>& dimensions,
                              const std::vector<std::string>& owners) {
    if (dimensions.empty()) {
        return;
    }
    QGridLayout* grid = new_grid(owners);
    int row = 1;
    for (const EngineDimension* dimension : dimensions) {
        auto* label = new QLabel(words::dimension(*dimension));
        label->setWordWrap(true);
        grid->addWidget(label, row, 0, Qt::AlignTop);
        int column = 1;
        std::string beside;
        for (const std::string& owner : owners) {
            grid->addWidget(add_box(*dimension, owner, beside, false), row, column++);
            beside = owner;
        }
        ++row;
    }
}

void DimensionPanel::add_gaps() {
    std::vector<const EngineDimension*> gaps;
    for (const EngineDimension& dimension : dimensions()) {
        if (dimension.step == DescribeStep::gaps) {
            gaps.push_back(&dimension);
        }
    }
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(8);
    grid->setVerticalSpacing(2);
    int column = 1;
    for (const EngineDimension* gap : gaps) {
        auto* head = new QLabel(words::dimension(*gap));
        head->setWordWrap(true);
        grid->addWidget(head, 0, column);
        grid->setColumnStretch(column++, 1);
    }
    int row = 1;
    std::string beside;
    for (const DescribedValve& valve : model_->description()->valves()) {
        const std::string owner = position_name(valve.position);
        auto* name = new QLabel(QString::fromStdString(owner));
        name->setObjectName("subtitle");
        grid->addWidget(name, row, 0);
        column = 1;
        for (const EngineDimension* gap : gaps) {
            grid->addWidget(add_box(*gap, owner, beside, true), row, column++);
        }
        beside = owner;
        ++row;
    }
    rows_->addLayout(grid);
    auto* signs =
        new QLabel(tr("●: measured. ◐: from the box, or a guess. ○: assumed. An empty "
                      "box takes the gaps of the like valve next to it; without a lower "
                      "gap the tube stands along the rod."));
    signs->setObjectName("small");
    signs->setWordWrap(true);
    rows_->addWidget(signs);
}

void DimensionPanel::add_plain(QGridLayout* grid, int row, const QString& label,
                               const std::string& leaf) {
    auto* name = new QLabel(label);
    name->setWordWrap(true);
    grid->addWidget(name, row, 0, Qt::AlignTop);
    int column = 1;
    std::string beside;
    for (const std::string& kind : kinds) {
        const std::string path = "lobes/" + kind + "/" + leaf;
        auto* box = new SizeBox(tr("%1 (%2)").arg(label, words::size_owner(kind)), false,
                                [this, path](const std::string& text) -> Result<Done> {
                                    if (session_ == nullptr || !set_up_) {
                                        return Done{};
                                    }
                                    const auto value = read_plain(path, text);
                                    if (!value) {
                                        return value.error();
                                    }
                                    return keep_set_up_field(*session_, geometry_of(*set_up_), path,
                                                             *value);
                                });
        if (!beside.empty()) {
            box->set_same([this, beside] { return plain_text(model_->fields(), beside); });
        }
        connect(box, &SizeBox::focused, this, [this] { emit lit({}, {}); });
        entries_.push_back({box, path, nullptr, kind});
        enter_order(box);
        grid->addWidget(box, row, column++);
        beside = path;
    }
}

void DimensionPanel::add_choice(QGridLayout* grid, int row, const QString& label,
                                const std::string& name,
                                const std::vector<std::pair<QString, QString>>& words) {
    grid->addWidget(new QLabel(label), row, 0);
    int column = 1;
    for (const std::string& kind : kinds) {
        auto* combo = new QComboBox;
        combo->setAccessibleName(tr("%1 (%2)").arg(label, words::size_owner(kind)));
        for (const auto& [text, word] : words) {
            combo->addItem(text, word);
        }
        const std::string path = "described/" + kind + "/" + name;
        connect(combo, &QComboBox::activated, this, [this, combo, path] {
            const TypedValue value{combo->currentData().toString().toStdString(), {}};
            if (const auto kept = keep_set_up_field(*session_, geometry_of(*set_up_), path, value);
                !kept) {
                emit failed(words::error_text(kept.error()));
            }
        });
        choices_.push_back({combo, path, kind, name});
        grid->addWidget(combo, row, column++);
    }
}

void DimensionPanel::add_of_step() {
    if (step_ == DescribeStep::lifters) {
        QGridLayout* grid = new_grid(kinds);
        add_choice(grid, 1, tr("Lifter"), "lifter",
                   {{tr("solid"), "solid"}, {tr("hydraulic"), "hydraulic"}});
        add_choice(grid, 2, tr("Its foot"), "follower",
                   {{tr("flat"), "flat"}, {tr("roller"), "roller"}});
        add_plain(grid, 3, tr("Lash"), "lash");
        add_plain(grid, 4, tr("Full lift (centreline), crank degrees"), "centreline");
        add_plain(grid, 5, tr("From the card: full lobe lift"), "card/peak_lift");
        add_plain(grid, 6, tr("From the card: lift and duration (.050 236; .006 264)"),
                  "card/durations");
        auto* table = new QPushButton(tr("Instead: a lift table from a file…"));
        connect(table, &QPushButton::clicked, this, &DimensionPanel::lift_table_wanted);
        grid->addWidget(table, 7, 1, 1, 2);
    } else if (step_ == DescribeStep::rods) {
        add_choice(new_grid(kinds), 1, tr("The rod's upper end"), "top_end",
                   {{tr("a ball"), "ball"}, {tr("a cup"), "cup"}});
    } else if (step_ == DescribeStep::rockers) {
        QGridLayout* grid = new_grid(kinds);
        add_choice(grid, 1, tr("Rockers turn on"), "mount",
                   {{tr("a shaft"), "shaft"},
                    {tr("studs, with a bearing"), "stud"},
                    {tr("half balls on studs"), "ball_pivot"}});
        if (any_chosen("mount", "ball_pivot")) {
            add_choice(grid, 2, tr("On a half ball, kept straight by"), "guided_by",
                       {{tr("guide plates"), "guide_plate"},
                        {tr("rails at the valve's tip"), "tip_rails"}});
        }
    } else if (step_ == DescribeStep::tubes) {
        QGridLayout* grid = new_grid(kinds);
        add_choice(grid, 1, tr("The tubes sit in"), "tube_casting",
                   {{tr("the intake"), "intake"}, {tr("the head"), "head"}});
        add_choice(grid, 2, tr("Seen down the tube"), "tube_shape",
                   {{tr("round"), "round"}, {tr("obround"), "obround"}});
        if (any_chosen("tube_shape", "obround")) {
            add_choice(
                grid, 3, tr("Its long way goes"), "tube_long",
                {{tr("along the crank"), "along_crank"}, {tr("across the crank"), "across_crank"}});
        }
    }
}

void DimensionPanel::refresh() {
    if (!model_->description()) {
        return;
    }
    for (const Entry& entry : entries_) {
        if (entry.dimension == nullptr) {
            const QString text = plain_text(model_->fields(), entry.path);
            const bool table = entry.path.find("/card/") != std::string::npos &&
                               model_->fields().contains("lobes/" + entry.owner + "/lift_table");
            const bool card = entry.path.find("/card/") != std::string::npos;
            entry.box->show_kept(
                text, text.isEmpty() ? (card ? QString() : QString("!")) : QString(QChar(u'●')),
                table             ? tr("a lift table is there")
                : !text.isEmpty() ? tr("as set")
                : card            ? tr("or a lift table")
                                  : tr("needed"));
            continue;
        }
        const bool has = model_->has(*entry.dimension, entry.owner);
        entry.box->setEnabled(has);
        if (!has) {
            entry.box->show_kept({}, {}, tr("these have none"));
            continue;
        }
        const auto stand = model_->stand(*entry.dimension, entry.owner);
        const DescribedSize size = stand ? *stand : DescribedSize{};
        QString words = words::size_stand(*entry.dimension, size);
        if (const SizeWorth* worth = model_->worth_of(*entry.dimension, entry.owner)) {
            words += tr("; %1").arg(words::worth(worth->worth_mm, worth->valve));
        }
        entry.box->show_kept(
            QString::fromStdString(described_text(model_->fields(), entry.owner, *entry.dimension)),
            words::stand_sign(size), words);
    }
    for (const Choice& choice : choices_) {
        for (const DescribedValve& valve : model_->description()->valves()) {
            const bool intake = valve.position.kind == ValveKind::intake;
            if (intake == (choice.owner == "intake")) {
                const std::string word = model_->description()->choice(choice.name, valve);
                choice.combo->setCurrentIndex(choice.combo->findData(QString::fromStdString(word)));
                break;
            }
        }
    }
}

SizeBox* DimensionPanel::box(const std::string& path) const {
    const auto found = std::find_if(entries_.begin(), entries_.end(),
                                    [&](const Entry& entry) { return entry.path == path; });
    return found == entries_.end() ? nullptr : found->box;
}

bool DimensionPanel::go_to(const std::string& path) {
    SizeBox* found = box(path);
    if (found != nullptr) {
        found->edit()->setFocus();
        found->edit()->selectAll();
    }
    return found != nullptr;
}

void DimensionPanel::go_to_first() {
    if (!entries_.empty()) {
        entries_.front().box->edit()->setFocus();
        entries_.front().box->edit()->selectAll();
    }
}

} // namespace rodway
