#pragma once

#include <QWidget>
#include <memory>

#include "app/book/book_layout.h"

namespace rodway {

/// One page of a book as it will be printed, as large as its room allows. Page up and page down,
/// home and end turn it.
class BookPreview : public QWidget {
    Q_OBJECT

  public:
    explicit BookPreview(QWidget* parent = nullptr);

    /// Nothing: there is no book yet. The page in hand stays if there still is one.
    void show_book(std::shared_ptr<const BookLayout> layout);
    /// There is none for this reason.
    void show_reason(const QString& text);
    void go_to(int page);
    [[nodiscard]] int page() const { return page_; }
    [[nodiscard]] int page_count() const { return layout_ ? layout_->page_count() : 0; }
    [[nodiscard]] QSize sizeHint() const override { return {360, 480}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {180, 240}; }

  signals:
    void turned(int page);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    [[nodiscard]] QSize picture_size() const;

    std::shared_ptr<const BookLayout> layout_;
    QString reason_;
    int page_ = 0;
    QImage picture_; ///< of the page, made when it is first painted
};

} // namespace rodway
