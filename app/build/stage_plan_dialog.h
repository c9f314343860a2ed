#pragma once

#include <QDialog>
#include <functional>
#include <map>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "app/words/sheet_words.h"
#include "app/work/stage_plans.h"
#include "core/build/plan_place.h"

class QComboBox;
class QCompleter;
class QFormLayout;
class QLabel;
class QLineEdit;
class QPlainTextEdit;
class QPushButton;
class QTreeWidget;
class QTreeWidgetItem;

namespace rodway {

/// The plans that builds begin with: a shop changes one and keeps it as its own. What is changed
/// stands here until it is kept; builds that run don't change by it.
class StagePlanDialog : public QDialog {
    Q_OBJECT

  public:
    explicit StagePlanDialog(ShopSession& session, QWidget* parent = nullptr);

    /// Opens a plan; what was changed of the one before is let go.
    void open(const std::string& word);
    [[nodiscard]] const StagePlan& draft() const { return draft_; }
    [[nodiscard]] bool is_changed() const { return draft_ != stored_; }
    /// False, with the reason shown, if it can't be kept.
    bool keep();

    // What the buttons do, with the file already chosen.
    void import_file(const QString& file);
    void export_file(const QString& file);

    void reject() override;

  signals:
    void said(const QString& text);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    QLayout* make_files_row();
    QLayout* make_names_row();
    QWidget* make_tree_side();
    QWidget* make_form_side();
    void list_plans(const std::string& word);
    void show_draft(const std::string& selected_id);
    void show_item();
    void show_state();
    void show_trouble();
    [[nodiscard]] std::optional<PlanPlace> selected() const;
    [[nodiscard]] QString row_text(const PlanPlace& item) const;
    /// Shows what is new, ready to be named.
    void show_new(const std::string& id);

    void add_stage();
    void add_step();
    void add_gate();
    void move(int by);
    void remove();
    void go_back_to_built_in();

    void put_title();
    void put_detail();
    void put_choice(QComboBox* box);
    void put_parts();
    /// Puts a role in the place of the part that is being typed.
    void complete_part(const QString& role);
    void put_needs();
    /// Keeps a text that can't be read, or forgets that there was one.
    void mark(const std::string& field, const QString& text, const std::optional<Error>& wrong);
    void complain(const Error& error);

    ShopSession& session_;
    words::OwnTitles own_titles_;
    StagePlan draft_;
    StagePlan stored_;
    /// Texts that can't be read, by id and field, with what is wrong with them.
    std::map<std::pair<std::string, std::string>, std::pair<QString, Error>> wrong_;
    bool may_go_back_ = false; ///< to a built-in plan of the same word
    bool filling_ = false;

    QComboBox* plans_;
    QLineEdit* word_;
    QLineEdit* plan_title_;
    QTreeWidget* tree_;
    QFormLayout* form_;
    QLineEdit* title_;
    QPlainTextEdit* detail_;
    QComboBox* caution_;
    QComboBox* sheet_;
    QLineEdit* parts_;
    QCompleter* roles_;
    QLineEdit* needs_;
    QLabel* meaning_;
    QLabel* trouble_;
    QPushButton* import_;
    QPushButton* built_in_;
    QPushButton* keep_;
};

} // namespace rodway
