#include "app/shop/customer_builds_dialog.h"

#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "db/record_fields.h"

namespace rodway {
namespace {

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8).simplified();
}

} // namespace

CustomerBuildsDialog::CustomerBuildsDialog(const Customer& customer, std::vector<Build> builds,
                                           QWidget* parent)
    : QDialog(parent),
      customer_(customer),
      builds_(std::move(builds)),
      filter_(new QLineEdit),
      list_(new QListWidget) {
    setWindowTitle(tr("Builds of a customer"));
    resize(560, 460);
    auto* about = new QLabel(tr("Tick the builds of “%1”. Only these are reached when personal "
                                "data are erased.")
                                 .arg(text(customer.name).left(80)));
    about->setTextFormat(Qt::PlainText);
    about->setWordWrap(true);
    filter_->setAccessibleName(tr("Filter"));
    filter_->setPlaceholderText(tr("only builds with these words"));
    list_->setObjectName("builds_of_customer");
    list_->setAccessibleName(tr("Builds"));
    // Those that are his first, then those that carry his name.
    const auto rank = [this](const Build& build) {
        return build.customer_id == customer_.id              ? 0
               : text(build.customer) == text(customer_.name) ? 1
                                                              : 2;
    };
    std::stable_sort(builds_.begin(), builds_.end(),
                     [&](const Build& a, const Build& b) { return rank(a) < rank(b); });
    for (const Build& build : builds_) {
        auto* item = new QListWidgetItem(
            tr("%1  %2  (%3)")
                .arg(text(build.name), text(build.engine),
                     build.customer.empty() ? tr("nobody named") : text(build.customer)));
        item->setFlags(item->flags() | Qt::ItemIsUserCheckable);
        item->setCheckState(build.customer_id == customer_.id ? Qt::Checked : Qt::Unchecked);
        list_->addItem(item);
    }
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    buttons->button(QDialogButtonBox::Ok)->setText(tr("Keep"));
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(about);
    layout->addWidget(filter_);
    layout->addWidget(list_, 1);
    layout->addWidget(buttons);
    connect(filter_, &QLineEdit::textChanged, this, &CustomerBuildsDialog::show_filtered);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    list_->setFocus();
}

void CustomerBuildsDialog::show_filtered(const QString& words) {
    for (int row = 0; row < list_->count(); ++row) {
        QListWidgetItem* item = list_->item(row);
        item->setHidden(!item->text().contains(words.simplified(), Qt::CaseInsensitive));
    }
}

std::vector<Edit> CustomerBuildsDialog::edits() const {
    std::vector<Edit> all;
    for (std::size_t which = 0; which < builds_.size(); ++which) {
        const Build& before = builds_[which];
        Build after = before;
        const bool his = list_->item(static_cast<int>(which))->checkState() == Qt::Checked;
        if (his) {
            after.customer_id = customer_.id;
            if (after.customer.empty()) after.customer = customer_.name;
        } else if (before.customer_id == customer_.id) {
            after.customer_id.reset();
        }
        const std::vector<Edit> edits = edits_to_change(before, after);
        all.insert(all.end(), edits.begin(), edits.end());
    }
    return all;
}

} // namespace rodway
