#include "app/account/account_page.h"

#include <gmock/gmock.h>

#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>

#include "app/account/entry_table.h"
#include "app/book/account_paper.h"
#include "app/work/account_document.h"
#include "core/build/hold.h"
#include "db/build_facts.h"
#include "tests/app/window/place_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using Tab = AccountPage::Tab;

class AccountPageTest : public PlaceTest {
  protected:
    void SetUp() override {
        PlaceTest::SetUp();
        go_to("Account");
    }
    AccountPage& page() { return *window_->findChild<AccountPage*>(); }
    EntryTable& at(Tab tab) {
        page().show_tab(tab);
        return page().entries(tab);
    }
    QString label(const char* name) { return page().findChild<QLabel*>(name)->text(); }
    QString sums() { return label("account_sums").remove("<b>").remove("</b>"); }
    /// Types an entry by keys; Enter in the last box adds it.
    void add(Tab tab, const std::vector<std::pair<const char*, QString>>& boxes) {
        EntryTable& table = at(tab);
        for (const auto& [field, text] : boxes) {
            type(table.form(), field, text);
        }
        QTest::keyClick(window_->focusWidget(), Qt::Key_Return);
    }
    std::vector<std::string> rows(Tab tab) {
        std::vector<std::string> texts;
        QTableWidget& table = page().entries(tab).table();
        for (int row = 0; row < table.rowCount(); ++row) {
            QStringList cells;
            for (int column = 0; column < table.columnCount(); ++column) {
                cells << table.item(row, column)->text();
            }
            texts.push_back(cells.join('|').toStdString());
        }
        return texts;
    }
    void answer(ApprovalAnswer answer, const QString& by_whom, const QString& manner) {
        page().answer().set_data("answer", static_cast<int>(answer));
        page().answer().set_text("by_whom", by_whom);
        page().answer().set_text("manner", manner);
        page().findChild<QPushButton*>("put_down_answer")->click();
    }
    /// Questions that hold the build up.
    int questions_that_hold() {
        const auto facts = load_build_facts(session().shop(), 1);
        EXPECT_TRUE(facts.ok());
        int count = 0;
        for (const Hold& hold : holds_of_build(hold_facts(*facts, {}, std::nullopt,
                                                          "2026-11-30T12:00:00Z", "2026-11-30"))
                                    .holds) {
            count += hold.kind == HoldKind::decision_pending ? 1 : 0;
        }
        return count;
    }
    std::string paper(AccountPaper of) {
        const auto document = gather_account(session().shop(), 1, of, "2026-11-30");
        EXPECT_TRUE(document.ok());
        return document ? account_paper_text(*document).join('\n').toStdString() : std::string();
    }
};

TEST_F(AccountPageTest, AnEstimateIsTypedLineByLineAndSummedToTheCent) {
    EXPECT_TRUE(at(Tab::estimate).findChild<QLabel*>() != nullptr);
    add(Tab::estimate, {{"text", "Short block"}, {"amount", "1,250"}});
    add(Tab::estimate, {{"text", "Heads"}, {"amount", "1250.5"}});
    add(Tab::estimate, {{"text", "Old customer"}, {"amount", "-12"}});
    add(Tab::estimate, {{"text", "Paint"}, {"amount", "$40"}});
    add(Tab::estimate, {{"text", "Dimes"}, {"amount", "0.10"}});
    add(Tab::estimate, {{"text", "Dimes again"}, {"amount", ".20"}});
    EXPECT_THAT(rows(Tab::estimate),
                ElementsAre("Short block|1,250.00", "Heads|1,250.50", "Old customer|-12.00",
                            "Paint|40.00", "Dimes|0.10", "Dimes again|0.20"));
    EXPECT_TRUE(sums().contains("Estimate 2,528.80")) << sums().toStdString();
    undo();
    EXPECT_TRUE(sums().contains("Estimate 2,528.60")) << sums().toStdString();
    redo();
    // One is changed, one removed, one left as it was.
    EntryTable& table = at(Tab::estimate);
    table.table().setCurrentCell(1, 0);
    table.change_selected();
    EXPECT_EQ(table.form().text("amount"), "1,250.50");
    type(table.form(), "amount", "1300");
    QTest::keyClick(window_->focusWidget(), Qt::Key_Return);
    table.table().setCurrentCell(3, 0);
    table.table().setFocus();
    QTest::keyClick(&table.table(), Qt::Key_Delete);
    table.table().setCurrentCell(0, 0);
    table.change_selected();
    type(table.form(), "text", "Something else");
    table.reset();
    EXPECT_THAT(rows(Tab::estimate),
                ElementsAre("Short block|1,250.00", "Heads|1,300.00", "Old customer|-12.00",
                            "Dimes|0.10", "Dimes again|0.20"));
    EXPECT_TRUE(sums().contains("Estimate 2,538.30")) << sums().toStdString();
    undo();
    undo();
    EXPECT_TRUE(sums().contains("Estimate 2,528.80")) << sums().toStdString();
}

TEST_F(AccountPageTest, AnExtraIsApprovedAnotherDeclinedAndBothHeldTheBuildUp) {
    add(Tab::extras, {{"subject", "Line bore"}, {"amount", "300"}});
    add(Tab::extras, {{"subject", "Roller cam"}, {"amount", "1,100.00"}});
    EXPECT_THAT(label("trouble").toStdString(), HasSubstr("2 questions without an answer"));
    EXPECT_EQ(questions_that_hold(), 2);
    at(Tab::extras).table().setCurrentCell(0, 0);
    answer(ApprovalAnswer::approved, "", "letter"); // by whom?
    EXPECT_FALSE(page().answer().trouble().isEmpty());
    EXPECT_EQ(page().answer().text("manner"), "letter");
    EXPECT_EQ(questions_that_hold(), 2);
    answer(ApprovalAnswer::approved, "Ada Brandvold", "letter");
    EXPECT_EQ(questions_that_hold(), 1);
    at(Tab::extras).table().setCurrentCell(1, 0);
    answer(ApprovalAnswer::declined, "Ada Brandvold", "spoken, on the phone");
    EXPECT_EQ(questions_that_hold(), 0);
    const auto approvals = all<Approval>();
    ASSERT_EQ(approvals.size(), 2u);
    EXPECT_EQ(approvals[0].answer, ApprovalAnswer::approved);
    EXPECT_EQ(approvals[0].amount, "300.00");
    EXPECT_EQ(approvals[0].manner, "letter");
    EXPECT_TRUE(approvals[0].answered_at.has_value());
    EXPECT_EQ(approvals[1].answer, ApprovalAnswer::declined);
    EXPECT_EQ(approvals[1].by_whom, "Ada Brandvold");
    EXPECT_TRUE(sums().contains("Extras approved 300.00")) << sums().toStdString();
    EXPECT_THAT(rows(Tab::extras)[1], HasSubstr("declined"));
    undo();
    EXPECT_EQ(questions_that_hold(), 1);
    EXPECT_FALSE(all<Approval>()[1].by_whom.has_value());
    undo();
    EXPECT_TRUE(sums().contains("Extras approved 0.00"));
    EXPECT_EQ(questions_that_hold(), 2);
}

TEST_F(AccountPageTest, AnAnswerComesNoDayBeforeItsQuestionAndCanBeTakenOff) {
    add(Tab::extras, {{"subject", "Line bore"}, {"asked", "2026-11-20"}});
    EXPECT_EQ(all<Approval>()[0].asked_at.substr(0, 10), "2026-11-20");
    EXPECT_THAT(rows(Tab::extras)[0], HasSubstr("not known"));
    page().answer().set_text("answered", "2026-11-19");
    answer(ApprovalAnswer::approved, "Ada", "letter");
    EXPECT_THAT(page().answer().trouble().toStdString(), HasSubstr("before the day"));
    EXPECT_EQ(all<Approval>()[0].answer, ApprovalAnswer::asked);
    page().answer().set_text("answered", "2026-11-21");
    answer(ApprovalAnswer::approved, "Ada", "letter");
    EXPECT_EQ(all<Approval>()[0].answered_at->substr(0, 10), "2026-11-21");
    EXPECT_THAT(label("trouble").toStdString(), HasSubstr("has no amount"));
    answer(ApprovalAnswer::asked, "", "");
    EXPECT_EQ(all<Approval>()[0].answer, ApprovalAnswer::asked);
    EXPECT_FALSE(all<Approval>()[0].answered_at.has_value());
}

TEST_F(AccountPageTest, WhatIsTypedOfAnAnswerStaysWhenSomethingElseChanges) {
    add(Tab::extras, {{"subject", "Line bore"}});
    page().answer().set_text("by_whom", "Ada");
    add(Tab::deposit, {{"text", "First"}, {"amount", "100"}});
    EXPECT_EQ(page().answer().text("by_whom"), "Ada");
    at(Tab::estimate).form().set_text("text", "Half a li");
    add(Tab::deposit, {{"text", "Second"}, {"amount", "100"}});
    EXPECT_EQ(at(Tab::estimate).form().text("text"), "Half a li");
}

TEST_F(AccountPageTest, HoursAreSummedByPersonAndByKindOfWork) {
    std::vector<std::int64_t> people;
    for (const char* name : {"Mira Holt", "Jon Vik"}) {
        const auto id =
            session().create(RecordKind::person,
                             [&](std::int64_t person_id) {
                                 return edits_to_create(Person{person_id, name, {}, {}, {}, {}});
                             },
                             {});
        ASSERT_TRUE(id.ok());
        people.push_back(*id);
    }
    EntryTable& table = at(Tab::hours);
    const auto add_for = [&](std::int64_t person, const QString& hours, const QString& work) {
        table.form().set_data("person_id", static_cast<qlonglong>(person));
        add(Tab::hours, {{"work", work}, {"hours", hours}});
    };
    add_for(people[0], "2.5", "Porting");
    add_for(people[0], "1:45", "porting");
    add_for(people[1], "30 min", "Assembly");
    EXPECT_EQ(all<WorkedTime>().size(), 3u);
    EXPECT_EQ(all<WorkedTime>()[1].minutes, 105);
    const QString shown = label("hour_sums");
    EXPECT_THAT(shown.toStdString(), HasSubstr("4:45  in all"));
    EXPECT_THAT(shown.toStdString(), HasSubstr("4:15  Mira Holt"));
    EXPECT_THAT(shown.toStdString(), HasSubstr("0:30  Jon Vik"));
    EXPECT_THAT(shown.toStdString(), HasSubstr("4:15  Porting"));
    EXPECT_THAT(shown.toStdString(), HasSubstr("0:30  Assembly"));
    undo();
    EXPECT_THAT(label("hour_sums").toStdString(), HasSubstr("4:15  in all"));
}

TEST_F(AccountPageTest, TheInvoiceTakesOverWhatWasAgreedAndSubtractsTheDeposit) {
    add(Tab::estimate, {{"text", "Short block"}, {"amount", "2000"}});
    add(Tab::extras, {{"subject", "Line bore"}, {"amount", "300.25"}});
    answer(ApprovalAnswer::approved, "Ada Brandvold", "letter");
    add(Tab::extras, {{"subject", "Roller cam"}, {"amount", "1100"}});
    at(Tab::extras).table().setCurrentCell(1, 0);
    answer(ApprovalAnswer::declined, "Ada Brandvold", "message");
    add(Tab::extras, {{"subject", "Chrome"}, {"amount", "70"}});
    add(Tab::deposit, {{"text", "On ordering"}, {"amount", "500"}});
    at(Tab::invoice);
    page().findChild<QPushButton*>("take_over")->click();
    EXPECT_THAT(rows(Tab::invoice), ElementsAre("Short block|2,000.00", "Line bore|300.25"));
    EXPECT_TRUE(sums().contains("Invoice 2,300.25"));
    EXPECT_TRUE(sums().contains("To pay 1,800.25")) << sums().toStdString();
    page().findChild<QPushButton*>("take_over")->click();
    EXPECT_EQ(rows(Tab::invoice).size(), 2u);
    const std::string text = paper(AccountPaper::invoice);
    EXPECT_THAT(text, HasSubstr("Together\t2,300.25"));
    EXPECT_THAT(text, HasSubstr("On ordering\t-500.00"));
    EXPECT_THAT(text, HasSubstr("To be paid\t1,800.25"));
    EXPECT_THAT(text, HasSubstr("What was declined\nRoller cam: declined 30 November 2026"));
    EXPECT_THAT(text, HasSubstr("by Ada Brandvold, by message\t1,100.00"));
    EXPECT_THAT(text, HasSubstr("What isn't answered yet\nChrome"));
    EXPECT_THAT(text, HasSubstr("Taxes are not reckoned"));
    EXPECT_THAT(paper(AccountPaper::estimate), HasSubstr("Together\t2,000.00"));
    const QString file = folder_.filePath("invoice.pdf");
    page().save_paper(AccountPaper::invoice, file);
    QFile written(file);
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_TRUE(written.readAll().startsWith("%PDF-"));
    // The whole take-over is one act.
    undo();
    EXPECT_TRUE(rows(Tab::invoice).empty());
    page().save_paper(AccountPaper::invoice, folder_.filePath("none.pdf"));
    EXPECT_FALSE(QFile::exists(folder_.filePath("none.pdf")));
    EXPECT_FALSE(window_->complaint().isEmpty());
    // The shop file itself is never written over.
    redo();
    page().save_paper(AccountPaper::invoice, folder_.filePath("shop.rodway"));
    EXPECT_EQ(all<AccountLine>().size(), 4u);
}

TEST_F(AccountPageTest, AChangeThatCrossesAnothersIsRefusedAndNothingIsLost) {
    add(Tab::estimate, {{"text", "Heads"}, {"amount", "100"}});
    EntryTable& table = at(Tab::estimate);
    table.table().setCurrentCell(0, 0);
    table.change_selected();
    type(table.form(), "amount", "120");
    AccountLine line = all<AccountLine>()[0];
    AccountLine other = line;
    other.amount = "150.00";
    ASSERT_TRUE(session().act(edits_to_change(line, other), "elsewhere").ok());
    EXPECT_EQ(table.form().text("amount"), "120");
    table.take_form();
    EXPECT_EQ(all<AccountLine>()[0].amount, "150.00");
    EXPECT_EQ(table.form().text("amount"), "120");
    EXPECT_FALSE(table.form().trouble().isEmpty());
}

TEST_F(AccountPageTest, HostileTextIsKeptAsWrittenOrRefusedWithAWord) {
    const std::vector<std::pair<Tab, std::vector<std::pair<const char*, QString>>>> good{
        {Tab::estimate, {{"text", "Heads"}, {"amount", "100"}}},
        {Tab::invoice, {{"text", "Heads"}, {"amount", "100"}}},
        {Tab::deposit, {{"text", "First"}, {"amount", "100"}, {"dated", ""}}},
        {Tab::extras, {{"subject", "Cam"}, {"amount", "1"}, {"asked", ""}, {"note", "n"}}},
        {Tab::hours, {{"work", "Porting"}, {"hours", "1"}, {"day", ""}}}};
    QStringList texts = awkward_texts();
    texts << "40 mm"
          << "--4"
          << "1.2.3";
    int refused = 0;
    for (const auto& [tab, boxes] : good) {
        EntryTable& table = at(tab);
        for (const auto& [field, usual] : boxes) {
            for (const QString& text : texts) {
                for (const auto& [each, value] : boxes) {
                    table.form().set_text(each, value);
                }
                table.form().set_text(field, text);
                const auto undo_text = session().undo_text();
                const std::size_t before = rows(tab).size();
                table.take_form();
                const std::string name(field);
                const bool strict = name == "amount" || name == "dated" || name == "asked" ||
                                    name == "hours" || name == "day";
                if (rows(tab).size() == before) {
                    ++refused;
                    EXPECT_FALSE(table.form().trouble().isEmpty()) << field;
                    EXPECT_LT(table.form().trouble().size(), 400);
                    EXPECT_EQ(table.form().text(field), text.toStdString());
                    EXPECT_EQ(session().undo_text(), undo_text);
                    table.reset();
                } else {
                    EXPECT_FALSE(strict) << field << ": " << text.toStdString();
                    EXPECT_FALSE(text.contains('\n')) << field;
                    undo();
                }
            }
        }
    }
    EXPECT_GT(refused, 100);
    EXPECT_TRUE(all<AccountLine>().empty());
    EXPECT_TRUE(all<Approval>().empty());
    EXPECT_TRUE(all<WorkedTime>().empty());
}

TEST_F(AccountPageTest, ASumBeyondWhatAnAccountHoldsIsSaidAndNotShownAsANumber) {
    add(Tab::invoice, {{"text", "All"}, {"amount", "999,999,999,999.99"}});
    EXPECT_TRUE(window_->complaint().isEmpty());
    add(Tab::invoice, {{"text", "And more"}, {"amount", "0.01"}});
    EXPECT_FALSE(window_->complaint().isEmpty());
    undo();
    EXPECT_TRUE(sums().contains("Invoice 999,999,999,999.99")) << sums().toStdString();
}

TEST_F(AccountPageTest, EveryControlIsReachedByKeysAndHasAName) {
    auto* tabs = page().findChild<QTabWidget*>();
    for (int tab = 0; tab < tabs->count(); ++tab) {
        tabs->setCurrentIndex(tab);
        int controls = 0;
        for (QWidget* widget : page().findChildren<QWidget*>()) {
            const bool control = qobject_cast<QLineEdit*>(widget) != nullptr ||
                                 qobject_cast<QPushButton*>(widget) != nullptr ||
                                 qobject_cast<QComboBox*>(widget) != nullptr ||
                                 qobject_cast<QTableWidget*>(widget) != nullptr;
            if (!control || !widget->isVisible()) {
                continue;
            }
            ++controls;
            const auto* button = qobject_cast<QPushButton*>(widget);
            EXPECT_FALSE(widget->accessibleName().isEmpty() &&
                         (button == nullptr || button->text().isEmpty()))
                << widget->metaObject()->className() << widget->objectName().toStdString();
            EXPECT_TRUE(widget->focusPolicy() & Qt::TabFocus) << widget->objectName().toStdString();
        }
        EXPECT_GT(controls, 4);
    }
}

} // namespace
} // namespace rodway
