#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <vector>

#include "app/book/book_pictures.h"
#include "app/book/customer_book.h"
#include "app/window/place_page.h"
#include "app/work/hand_over.h"
#include "app/work/newest_request.h"
#include "app/work/shop_reader.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QListWidgetItem;
class QPlainTextEdit;
class QPushButton;
class QSpinBox;
class QStackedWidget;

namespace rodway {

class BookPreview;
class WorkBar;

/// The book that a customer gets: its pages as they will be, which photos stand in it, what a whole
/// one would have and this doesn't; written as a file, or handed over as a folder that is kept.
class BookPage : public PlacePage {
    Q_OBJECT

  public:
    explicit BookPage(QWidget* parent = nullptr);
    ~BookPage() override;

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] bool shows(RecordKind kind) const override {
        return kind == RecordKind::hand_off;
    }

    [[nodiscard]] BookPreview& preview() { return *preview_; }
    [[nodiscard]] QListWidget& missing() { return *missing_; }
    [[nodiscard]] QListWidget& photos() { return *photos_; }
    [[nodiscard]] QComboBox& templates() { return *template_; }
    /// Whether the book of the records as they stand is shown.
    [[nodiscard]] bool is_ready() const { return book_ != nullptr && !reading_; }
    /// Whether pages are being written; the window lives meanwhile, and it can be stopped.
    [[nodiscard]] bool is_writing() const { return is_writing_; }

    // What the buttons do, with the file or folder already chosen. Both begin it, and say later
    // what came of it.
    void write_book(const QString& template_word, const QString& file);
    void hand_over_to(const QString& folder);
    void use_templates_in(const QString& folder);

  signals:
    /// Where something missing is mended.
    void place_wanted(const MissingFact& fact);

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    /// What is to be written, while it is.
    struct Writing {
        HandOverWish wish;
        QString target;
        std::stop_source stop;
        std::shared_ptr<std::atomic<double>> part;

        /// To be called as pages are done.
        [[nodiscard]] std::function<void(int, int)> progress() const;
    };

    QWidget* make_left();
    QWidget* make_right();
    QWidget* make_hand_over();
    QWidget* make_writers();
    void gather();
    void take_facts(BookFacts facts);
    [[nodiscard]] std::shared_ptr<const BookPictures> pictures_of(const BookFacts& facts) const;
    void offer_templates();
    void show_missing();
    void show_photos();
    void show_book();
    void tick_photo(QListWidgetItem* item);
    void go_to_missing(const QListWidgetItem* item);
    void enable_writers();
    void ask_book_file(const QString& template_word);
    void ask_folder();
    void ask_templates();
    /// Reads what is wanted and gives it to `write`, unless nothing can be written.
    void begin_writing(const QString& template_word, const QString& target,
                       std::function<void(const Writing&, HandOverFacts)> write);
    void end_writing();
    void write_file(const Writing& writing, const HandOverFacts& facts);
    void take_written(const Writing& writing, const Result<bool>& written);
    void write_folder(const Writing& writing, const HandOverFacts& facts);
    void take_folder(const Writing& writing, const HandOverFacts& facts,
                     Result<std::optional<FilledFolder>> filled);
    void finish_folder(const Writing& writing, const HandOverFacts& facts,
                       Result<FilledFolder> kept);
    [[nodiscard]] HandOffWords typed_words() const;
    [[nodiscard]] QPageSize::PageSizeId paper() const;
    [[nodiscard]] std::optional<std::string> typed(const QLineEdit& in) const;

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    ShopReader reader_;
    bool reading_ = false;
    bool stale_ = true; ///< records have changed since the facts were read
    std::shared_ptr<const BookFacts> facts_;
    std::shared_ptr<const BookPictures> pictures_;
    std::shared_ptr<const BookLayout> book_;
    std::vector<MissingFact> missing_facts_;
    bool filling_ = false; ///< the lists are being filled by the program
    bool is_writing_ = false;
    std::stop_source stop_writing_;
    NewestRequest writing_;

    QStackedWidget* stack_;
    QLabel* title_;
    BookPreview* preview_;
    QSpinBox* page_;
    QLabel* pages_;
    QListWidget* missing_;
    QListWidget* photos_;
    QComboBox* template_;
    QComboBox* paper_;
    QLineEdit* given_to_;
    QLineEdit* signature_;
    QPlainTextEdit* service_;
    QLabel* given_;
    WorkBar* work_;
    std::vector<QPushButton*> writers_;
    QPushButton* own_templates_ = nullptr;
};

} // namespace rodway
