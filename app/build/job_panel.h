#pragma once

#include <vector>

#include "app/build/build_panel.h"

class QComboBox;
class QFormLayout;
class QLabel;
class QPushButton;

namespace rodway {

class AskPanel;
class TypedForm;
class WordListView;

/// The job sheet of the build: who it is for, what is to be done and what isn't, by when. Each box
/// keeps itself as soon as it is done with; what is refused stays as typed, with the reason.
class JobPanel : public BuildPanel {
    Q_OBJECT

  public:
    explicit JobPanel(Clock clock, QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void show_build(const BuildShown& shown, std::int64_t stage_id) override;
    [[nodiscard]] AskPanel& promising() { return *move_; }
    [[nodiscard]] TypedForm& casting() { return *casting_; }

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    struct Box {
        std::size_t field; ///< which of the job sheet's
        QWidget* widget;
        QString as_shown; ///< what was put into it last; what differs was typed
    };
    QWidget* make_sheet();
    QWidget* make_promise();
    QWidget* make_castings();
    QWidget* make_box(std::size_t field);
    void keep(Box& box);
    void keep_customer();
    void keep_all();
    void show_boxes();
    void show_customer();
    void show_promise();
    void show_castings();
    void add_casting();
    Result<Done> keep_promise();
    void refuse(const Error& error, const QString& label);

    const BuildShown* shown_ = nullptr;
    std::vector<Box> boxes_;
    QComboBox* customer_;
    QString customer_shown_;
    QLabel* trouble_;
    QLabel* promised_;
    QLabel* promises_;
    QPushButton* move_it_;
    AskPanel* move_;
    WordListView* castings_;
    TypedForm* casting_;
    QPushButton* remove_casting_;
};

} // namespace rodway
