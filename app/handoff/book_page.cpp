#include "app/handoff/book_page.h"

#include <QComboBox>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/book/bench_prints.h"
#include "app/book/book_templates.h"
#include "app/handoff/book_preview.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/work/photo_acts.h"
#include "render/renderer.h"

namespace rodway {
BookPage::BookPage(QWidget* parent)
    : PlacePage(parent),
      stack_(new QStackedWidget),
      title_(new QLabel),
      preview_(new BookPreview),
      page_(new QSpinBox),
      pages_(new QLabel),
      missing_(new QListWidget),
      photos_(new QListWidget),
      template_(new QComboBox),
      paper_(new QComboBox),
      given_to_(new QLineEdit),
      signature_(new QLineEdit),
      service_(new QPlainTextEdit),
      given_(new QLabel),
      work_(new WorkBar(tr("Writing the book …"))) {
    title_->setObjectName("title");
    title_->setTextFormat(Qt::PlainText);
    title_->setWordWrap(true);
    title_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    title_->setText(tr("Book"));
    auto* empty = new QLabel(
        tr("Here the build's book is made, which its customer gets. Open a build on the Bench."));
    empty->setWordWrap(true);
    empty->setAlignment(Qt::AlignCenter);
    auto* whole = new QWidget;
    auto* columns = new QHBoxLayout;
    columns->addWidget(make_left(), 3);
    columns->addWidget(make_right(), 2);
    auto* inside = new QVBoxLayout(whole);
    inside->setContentsMargins(0, 0, 0, 0);
    inside->addWidget(title_);
    inside->addLayout(columns, 1);
    stack_->addWidget(empty);
    stack_->addWidget(whole);
    auto* all = new QVBoxLayout(this);
    all->addWidget(stack_);
    connect(work_, &WorkBar::stop_wanted, this, [this] { stop_writing_.request_stop(); });
}

BookPage::~BookPage() {
    stop_writing_.request_stop(); // what writes is waited for
}

QWidget* BookPage::make_left() {
    auto* left = new QWidget;
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(0, 0, 0, 0);
    auto* back = new QPushButton(tr("Page be&fore"));
    auto* next = new QPushButton(tr("Page &after"));
    page_->setAccessibleName(tr("Page shown"));
    page_->setMinimum(1);
    auto* row = new QHBoxLayout;
    row->addWidget(back);
    row->addWidget(page_);
    row->addWidget(pages_);
    row->addWidget(next);
    row->addStretch();
    column->addLayout(row);
    column->addWidget(preview_, 1);
    connect(back, &QPushButton::clicked, this, [this] { preview_->go_to(preview_->page() - 1); });
    connect(next, &QPushButton::clicked, this, [this] { preview_->go_to(preview_->page() + 1); });
    connect(page_, &QSpinBox::valueChanged, this, [this](int page) {
        if (page - 1 != preview_->page()) preview_->go_to(page - 1);
    });
    connect(preview_, &BookPreview::turned, this, [this](int page) { page_->setValue(page + 1); });
    return left;
}

QWidget* BookPage::make_right() {
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    auto* lacks = new QLabel(tr("&Missing in it (Enter goes where it is mended)"));
    lacks->setBuddy(missing_);
    lacks->setWordWrap(true);
    missing_->setAccessibleName(tr("What the book lacks"));
    missing_->setWordWrap(true);
    missing_->setMinimumHeight(90);
    auto* chosen = new QLabel(tr("&Photos in it (the space bar ticks one)"));
    chosen->setBuddy(photos_);
    chosen->setWordWrap(true);
    photos_->setAccessibleName(tr("Photos in the book"));
    photos_->setMinimumHeight(70);
    column->addWidget(lacks);
    column->addWidget(missing_, 2);
    column->addWidget(chosen);
    column->addWidget(photos_, 1);
    column->addWidget(make_hand_over());
    connect(missing_, &QListWidget::itemActivated, this, &BookPage::go_to_missing);
    connect(photos_, &QListWidget::itemChanged, this, &BookPage::tick_photo);
    return right;
}

QWidget* BookPage::make_hand_over() {
    auto* box = new QWidget;
    auto* form = new QFormLayout(box);
    form->setContentsMargins(0, 0, 0, 0);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    template_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    template_->setMinimumContentsLength(10);
    own_templates_ = new QPushButton(tr("O&wn…"));
    own_templates_->setAccessibleName(tr("Choose the folder of the shop's own templates"));
    own_templates_->setToolTip(own_templates_->accessibleName());
    auto* patterns = new QHBoxLayout;
    patterns->addWidget(template_, 1);
    patterns->addWidget(own_templates_);
    paper_->addItem(tr("A4"), static_cast<int>(QPageSize::A4));
    paper_->addItem(tr("Letter"), static_cast<int>(QPageSize::Letter));
    paper_->setCurrentIndex(paper_->findData(static_cast<int>(paper_used_here())));
    template_->setAccessibleName(tr("What stands in the book"));
    paper_->setAccessibleName(tr("Paper"));
    given_to_->setAccessibleName(tr("Given to"));
    signature_->setAccessibleName(tr("Who signs for it"));
    service_->setAccessibleName(tr("To be seen again"));
    service_->setPlaceholderText(tr("Lash and bolts after 500 miles; oil after 20 hours"));
    service_->setTabChangesFocus(true);
    service_->setFixedHeight(46);
    auto* of_book = new QLabel(tr("B&ook"));
    of_book->setBuddy(template_);
    form->addRow(of_book, patterns);
    form->addRow(tr("Pape&r"), paper_);
    form->addRow(tr("Given &to"), given_to_);
    form->addRow(tr("S&igned by"), signature_);
    form->addRow(tr("Seen agai&n"), service_);
    form->addRow(make_writers());
    form->addRow(work_);
    given_->setWordWrap(true);
    form->addRow(given_);
    connect(template_, &QComboBox::currentIndexChanged, this, [this] {
        if (!filling_) show_book();
    });
    connect(paper_, &QComboBox::currentIndexChanged, this, &BookPage::show_book);
    connect(own_templates_, &QPushButton::clicked, this, &BookPage::ask_templates);
    offer_templates();
    return box;
}

QWidget* BookPage::make_writers() {
    auto* write = new QPushButton(tr("Write the boo&k…"));
    auto* card = new QPushButton(tr("Settings &card…"));
    auto* give = new QPushButton(tr("&Hand over…"));
    writers_ = {write, card, give};
    auto* all = new QWidget;
    auto* row = new QHBoxLayout(all);
    row->setContentsMargins(0, 0, 0, 0);
    for (QPushButton* one : writers_) row->addWidget(one);
    connect(write, &QPushButton::clicked, this,
            [this] { ask_book_file(template_->currentData().toString()); });
    connect(card, &QPushButton::clicked, this,
            [this] { ask_book_file(QStringLiteral("settings_card")); });
    connect(give, &QPushButton::clicked, this, &BookPage::ask_folder);
    return all;
}

void BookPage::take(ShopSession* session, std::int64_t build_id) {
    const bool other = session != session_ || build_id != build_id_;
    if (session != session_) {
        stop_writing_.request_stop();
        writing_.stop();
        end_writing();
        reader_.read_from(session != nullptr ? session->shop().path() : std::string());
        reading_ = false;
    }
    session_ = session;
    build_id_ = build_id;
    stack_->setCurrentIndex(session != nullptr && build_id != 0 ? 1 : 0);
    if (other) {
        facts_.reset();
        book_.reset();
        preview_->show_book(nullptr);
        preview_->go_to(0);
        missing_->clear();
        photos_->clear();
        given_to_->clear();
        signature_->clear();
        service_->clear();
    }
    refresh();
}

void BookPage::refresh() {
    stale_ = true;
    enable_writers();
    if (isVisible()) gather();
}

void BookPage::enable_writers() {
    const bool any = session_ != nullptr && build_id_ != 0;
    const bool look_only = session_ != nullptr && session_->shop().look_only();
    for (QPushButton* one : writers_) {
        one->setEnabled(any && !is_writing_ && !(look_only && one == writers_.back()));
    }
    own_templates_->setEnabled(any && !look_only);
}

void BookPage::showEvent(QShowEvent*) {
    gather();
}

void BookPage::gather() {
    if (!stale_ || reading_ || session_ == nullptr || build_id_ == 0) {
        return;
    }
    stale_ = false;
    reading_ = true;
    reader_.ask<BookFacts>([build = build_id_, moment = Moment::present(), words = typed_words()](
                               ShopFile& shop) { return gather_book(shop, build, moment, words); },
                           [this, build = build_id_](Result<BookFacts> facts) {
                               reading_ = false;
                               if (!facts) {
                                   emit failed(words::error_text(facts.error()));
                               } else if (build == build_id_) {
                                   take_facts(std::move(facts).value());
                               } else {
                                   stale_ = true;
                               }
                               if (isVisible()) gather();
                           });
}

void BookPage::take_facts(BookFacts facts) {
    const auto pictures = pictures_of(facts);
    facts_ = std::make_shared<const BookFacts>(std::move(facts));
    pictures_ = pictures;
    title_->setText(tr("Book of %1").arg(printable(facts_->build().name)));
    offer_templates();
    if (service_->toPlainText().isEmpty() && !facts_->hand_offs.empty()) {
        service_->setPlainText(
            QString::fromStdString(facts_->hand_offs.back().service_dates.value_or("")));
    }
    given_->setText(facts_->hand_offs.empty()
                        ? tr("Nothing was handed over yet.")
                        : tr("Handed over last on %1, as number %2.")
                              .arg(words::day_of(facts_->hand_offs.back().given_at))
                              .arg(facts_->hand_offs.back().version));
    show_missing();
    show_photos();
    show_book();
}

/// Those that are there already, if they are of the same engine.
std::shared_ptr<const BookPictures> BookPage::pictures_of(const BookFacts& facts) const {
    const bool same_engine =
        facts_ && facts_->set_up && facts.set_up && facts_->set_up->fields == facts.set_up->fields;
    if (same_engine && pictures_) {
        return pictures_;
    }
    const auto renderer = Renderer::create();
    return std::make_shared<const BookPictures>(
        draw_book_pictures(facts, renderer ? renderer->get() : nullptr));
}

/// The built-in ones, and those in the shop's own folder.
void BookPage::offer_templates() {
    filling_ = true;
    const QVariant chosen = template_->currentData();
    template_->clear();
    template_->addItem(tr("Whole book"), QStringLiteral("complete"));
    template_->addItem(tr("Short"), QStringLiteral("short"));
    if (facts_) {
        const QString folder = QString::fromStdString(facts_->shop_detail(templates_folder_name));
        for (const QString& file : own_templates(folder)) {
            template_->addItem(printable(QFileInfo(file).completeBaseName()), file);
        }
    }
    template_->setCurrentIndex(std::max(0, template_->findData(chosen)));
    filling_ = false;
}

void BookPage::show_missing() {
    missing_facts_ = facts_->missing();
    missing_->clear();
    for (const MissingFact& fact : missing_facts_) {
        missing_->addItem(
            tr("%1: %2").arg(words::missing_place(fact), words::missing_fact(fact, *facts_)));
    }
    if (missing_facts_.empty()) {
        missing_->addItem(tr("Nothing is missing."));
    }
}

void BookPage::show_photos() {
    filling_ = true;
    const int row = photos_->currentRow();
    photos_->clear();
    for (const Photo& photo : facts_->photos) {
        auto* item =
            new QListWidgetItem(printable(photo.caption.value_or(photo.file_name)), photos_);
        item->setFlags(item->flags() | Qt::ItemIsUserCheckable);
        item->setCheckState(photo.in_book ? Qt::Checked : Qt::Unchecked);
        item->setData(Qt::UserRole, QVariant::fromValue<qlonglong>(photo.id));
    }
    if (facts_->photos.empty()) {
        auto* item =
            new QListWidgetItem(tr("No photos yet: drop them on a stage in Build."), photos_);
        item->setFlags(Qt::ItemIsEnabled);
    }
    photos_->setCurrentRow(row);
    filling_ = false;
}

void BookPage::show_book() {
    if (!facts_) {
        return;
    }
    const QString chosen = template_->currentData().toString();
    const auto pattern = find_book_template(chosen);
    if (!pattern) {
        const QString why = words::error_in_file(chosen, pattern.error());
        book_.reset();
        preview_->show_reason(why);
        emit failed(why);
        return;
    }
    book_ = std::make_shared<const BookLayout>(
        customer_book(*pattern, {facts_, pictures_, 0.0}, paper()).layout);
    page_->setMaximum(std::max(1, book_->page_count()));
    pages_->setText(tr("of %1").arg(book_->page_count()));
    preview_->show_book(book_);
}

void BookPage::tick_photo(QListWidgetItem* item) {
    if (filling_ || session_ == nullptr || !facts_) {
        return;
    }
    const auto id = item->data(Qt::UserRole).toLongLong();
    for (const Photo& photo : facts_->photos) {
        if (photo.id != id) continue;
        Photo after = photo;
        after.in_book = item->checkState() == Qt::Checked;
        const auto done = change_photo(*session_, photo, after);
        if (!done && !is_waiting(done.error())) {
            emit failed(words::error_text(done.error()));
            show_photos();
        }
        return;
    }
}

void BookPage::go_to_missing(const QListWidgetItem* item) {
    const int row = missing_->row(item);
    if (row < 0 || row >= static_cast<int>(missing_facts_.size())) {
        return;
    }
    const MissingFact fact = missing_facts_[static_cast<std::size_t>(row)];
    if (fact.kind == MissingKind::service_dates) {
        service_->setFocus();
    } else if (fact.kind == MissingKind::no_photo) {
        photos_->setFocus();
    } else {
        emit place_wanted(fact);
    }
}

std::optional<std::string> BookPage::typed(const QLineEdit& in) const {
    const QString text = in.text().trimmed();
    return text.isEmpty() ? std::nullopt : std::optional(text.toStdString());
}

HandOffWords BookPage::typed_words() const {
    HandOffWords words;
    words.given_to = typed(*given_to_);
    const QString service = service_->toPlainText().trimmed();
    if (!service.isEmpty()) words.service_dates = service.toStdString();
    return words;
}

QPageSize::PageSizeId BookPage::paper() const {
    return static_cast<QPageSize::PageSizeId>(paper_->currentData().toInt());
}

} // namespace rodway
