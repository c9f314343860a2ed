#include "app/shop/shop_page.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/shop/backup_panel.h"
#include "app/shop/customer_builds_dialog.h"
#include "app/shop/erase_dialog.h"
#include "app/shop/panel_kinds.h"
#include "app/words/error_text.h"
#include "app/words/record_words.h"
#include "db/build_records.h"
#include "db/build_store.h"

namespace rodway {

ShopPage::ShopPage(QWidget* parent)
    : PlacePage(parent),
      sections_(new QListWidget),
      stack_(new QStackedWidget),
      backups_(new BackupPanel) {
    auto* title = new QLabel(tr("Shop"));
    title->setObjectName("title");
    sections_->setObjectName("shop_sections");
    sections_->setAccessibleName(tr("Parts of the shop"));
    sections_->setFixedWidth(190);
    sections_->setSpacing(2);
    add_panel(tr("People"), new RecordPanel(people_panel()));
    auto* customers = new RecordPanel(customers_panel());
    add_panel(tr("Customers"), customers);
    add_panel(tr("Instruments"), new RecordPanel(instruments_panel()));
    add_panel(tr("Products"), new RecordPanel(products_panel()));
    add_panel(tr("Own limits"), new RecordPanel(limits_panel()));
    auto* details = new RecordPanel(shop_details_panel());
    add_panel(tr("On the shop's papers"), details);
    sections_->addItem(tr("Backups and file"));
    stack_->addWidget(backups_);
    auto* columns = new QHBoxLayout;
    columns->addWidget(sections_);
    columns->addWidget(stack_, 1);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title);
    layout->addLayout(columns, 1);

    auto* builds = customers->add_button(tr("Builds…"));
    builds->setObjectName("builds_of_customer");
    connect(builds, &QPushButton::clicked, this, &ShopPage::choose_builds);
    auto* erase = customers->add_button(tr("Erase personal data…"));
    erase->setObjectName("erase_customer");
    connect(erase, &QPushButton::clicked, this, &ShopPage::erase_customer);
    auto* logo = new QPushButton(tr("Choose a picture for the logo…"));
    static_cast<QVBoxLayout*>(details->layout())->addWidget(logo, 0, Qt::AlignLeft);
    connect(logo, &QPushButton::clicked, this, &ShopPage::choose_logo);
    connect(sections_, &QListWidget::currentRowChanged, this, &ShopPage::show_section);
    connect(backups_, &BackupPanel::failed, this, &ShopPage::failed);
    connect(backups_, &BackupPanel::said, this, &ShopPage::said);
    connect(backups_, &BackupPanel::back_up_wanted, this, &ShopPage::back_up_wanted);
    connect(backups_, &BackupPanel::second_folder_wanted, this, &ShopPage::second_folder_wanted);
    connect(backups_, &BackupPanel::restore_wanted, this, &ShopPage::restore_wanted);
    connect(backups_, &BackupPanel::rescue_wanted, this, &ShopPage::rescue_wanted);
    sections_->setCurrentRow(0);
}

void ShopPage::add_panel(const QString& title, RecordPanel* panel) {
    sections_->addItem(title);
    stack_->addWidget(panel);
    panels_.push_back(panel);
    connect(panel, &RecordPanel::failed, this, &ShopPage::failed);
    connect(panel, &RecordPanel::said, this, &ShopPage::said);
}

void ShopPage::take(ShopSession* session, std::int64_t) {
    if (session == session_) return; // another build is in hand: nothing of the shop's changes
    session_ = session;
    for (RecordPanel* panel : panels_) panel->take(session);
    backups_->take(session);
}

void ShopPage::refresh() {
    if (session_ == nullptr || !isVisible()) return;
    if (auto* panel = qobject_cast<RecordPanel*>(stack_->currentWidget())) panel->refresh();
}

void ShopPage::showEvent(QShowEvent* event) {
    PlacePage::showEvent(event);
    show_section(sections_->currentRow());
}

void ShopPage::show_section(int row) {
    if (row < 0) return;
    stack_->setCurrentIndex(row);
    if (session_ == nullptr || !isVisible()) return;
    if (stack_->currentWidget() == backups_) {
        backups_->refresh();
    } else {
        refresh();
    }
}

bool ShopPage::shows(RecordKind kind) const {
    return panel(kind) != nullptr;
}

RecordPanel* ShopPage::panel(RecordKind kind) const {
    const auto found =
        std::find_if(panels_.begin(), panels_.end(),
                     [kind](const RecordPanel* panel) { return panel->kind() == kind; });
    return found == panels_.end() ? nullptr : *found;
}

void ShopPage::go_to_panel(RecordKind kind) {
    sections_->setCurrentRow(stack_->indexOf(panel(kind)));
}

void ShopPage::go_to_backups() {
    sections_->setCurrentRow(stack_->indexOf(backups_));
}

void ShopPage::go_to_record(const RecordRef& record) {
    if (!shows(record.kind)) return;
    go_to_panel(record.kind);
    panel(record.kind)->refresh();
    panel(record.kind)->go_to(record.id);
}

void ShopPage::erase_customer() {
    const RecordPanel* customers = panel(RecordKind::customer);
    const auto customer = customers->rows().find(customers->current());
    if (session_ == nullptr || customer == customers->rows().end()) return;
    EraseDialog dialog(*session_, customer->first,
                       words::record_title(RecordKind::customer, customer->second), this);
    if (dialog.exec() == QDialog::Accepted) {
        // More than a line that goes away by itself: it says where the name still stands.
        emit failed(dialog.outcome());
    }
}

void ShopPage::choose_builds() {
    const std::int64_t id = panel(RecordKind::customer)->current();
    if (session_ == nullptr || id == 0) return;
    const auto customers = load_records<Customer>(session_->shop(), shop_wide);
    const auto builds = load_builds(session_->shop());
    if (!customers || !builds) {
        emit failed(words::error_text(!customers ? customers.error() : builds.error()));
        return;
    }
    for (const Customer& customer : *customers) {
        if (customer.id != id) continue;
        CustomerBuildsDialog dialog(customer, *builds, this);
        if (dialog.exec() != QDialog::Accepted || dialog.edits().empty()) return;
        const auto done = session_->act(dialog.edits(), tr("builds of a customer"));
        if (done) {
            emit said(tr("Kept whose builds they are."));
        } else if (!is_waiting(done.error())) {
            emit failed(words::error_text(done.error()));
        }
    }
}

/// Fills the form in; it is kept as if it had been typed.
void ShopPage::choose_logo() {
    const QString file = QFileDialog::getOpenFileName(this, tr("Logo for the shop's papers"), {},
                                                      tr("Pictures (*.png *.jpg *.jpeg *.svg)"));
    if (file.isEmpty() || session_ == nullptr) return;
    RecordPanel* details = panel(RecordKind::shop_detail);
    details->begin_new();
    for (const auto& [id, fields] : details->rows()) {
        const auto name = fields.find("name");
        if (name != fields.end() && name->second == "logo") details->go_to(id);
    }
    details->fill("name", tr("File of the logo"));
    details->fill("content", file);
}

} // namespace rodway
