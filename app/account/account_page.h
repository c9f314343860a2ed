#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/window/place_page.h"
#include "core/build/account_state.h"
#include "core/build/records.h"

class QLabel;
class QPushButton;
class QStackedWidget;
class QTabWidget;

namespace rodway {

class EntryTable;
class TypedForm;

/// What a build costs and what was agreed: estimate, extras with the customer's answers, deposit,
/// hours, invoice. No bookkeeping: it knows no taxes and no payments but the deposit.
class AccountPage : public PlacePage {
    Q_OBJECT

  public:
    explicit AccountPage(QWidget* parent = nullptr);

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;

    enum class Tab { estimate, extras, deposit, hours, invoice };
    void show_tab(Tab tab);
    [[nodiscard]] EntryTable& entries(Tab tab);
    /// The customer's answer to the selected extra.
    [[nodiscard]] TypedForm& answer() { return *answer_; }
    void put_down_answer();
    void take_over_what_was_agreed();
    /// The estimate or the invoice as a PDF.
    void save_paper(AccountPaper paper, const QString& file);

  protected:
    void showEvent(QShowEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    QWidget* make_lines(AccountPaper paper);
    QWidget* make_extras();
    void make_answer(QWidget* into);
    QWidget* make_hours();
    void dress_lines(EntryTable& table, AccountPaper paper);
    void dress_extras(EntryTable& table);
    void dress_hours(EntryTable& table);
    QPushButton* paper_button(AccountPaper paper);
    void show_sums();
    void show_lines(AccountPaper paper);
    void show_extras();
    void show_hours();
    void show_hour_sums();
    void show_answer();
    [[nodiscard]] QString person(const std::optional<std::int64_t>& id) const;
    [[nodiscard]] QString amount(Money money) const;
    [[nodiscard]] const AccountLine* line(std::int64_t id) const;
    [[nodiscard]] const Approval* extra(std::int64_t id) const;
    [[nodiscard]] const WorkedTime* time(std::int64_t id) const;

    ShopSession* session_ = nullptr;
    std::int64_t build_id_ = 0;
    AccountRecords records_;
    AccountState state_;
    std::vector<Person> people_;
    QString currency_;
    // What is being changed, as it stood when it went into the form: whoever else changes it
    // meanwhile is not overwritten.
    AccountLine changing_line_;
    Approval changing_extra_;
    WorkedTime changing_time_;
    Approval answering_; ///< the extra whose answer is in its form

    QStackedWidget* stack_;
    QLabel* title_;
    QLabel* sums_;
    QLabel* waits_;
    QTabWidget* tabs_;
    std::map<Tab, EntryTable*> entries_;
    TypedForm* answer_;
    QPushButton* put_down_;
    QLabel* hour_sums_;
};

} // namespace rodway
