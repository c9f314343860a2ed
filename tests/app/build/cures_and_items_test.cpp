// The build's page: what cures, what is open, what was decided, and the job sheet.
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>

#include "app/build/cures_panel.h"
#include "app/build/items_panel.h"
#include "app/build/job_panel.h"
#include "db/history.h"
#include "db/record_fields.h"
#include "tests/app/build/open_build.h"

namespace rodway {
namespace {

class CuresAndItems : public OpenBuild {
  protected:
    AskPanel& started() {
        button("start_cure").click();
        return page_->cures().starting();
    }
    void start(const char* place, const char* handling, const char* full) {
        AskPanel& ask = started();
        ask.form().set_text("place", place);
        ask.form().set_text("handling_minutes", handling);
        ask.form().set_text("full_minutes", full);
        ask.take_typed();
        settle();
    }
};

TEST_F(CuresAndItems, ACureIsStartedByTheTimesOfItsLabel) {
    page_->show_tab(BuildPage::Tab::cures_and_items);
    start("end rails", "1 h", "24 h");
    ASSERT_EQ(all<Cure>().size(), 1U);
    const Cure cure = all<Cure>().front();
    EXPECT_EQ(cure.place, "end rails");
    EXPECT_EQ(cure.handling_minutes, 60);
    EXPECT_EQ(cure.full_minutes, 24 * 60);
    EXPECT_EQ(cure.applied_at, "2026-11-30T10:00:00Z");
    EXPECT_EQ(cure.applied_by, "MH");
    EXPECT_EQ(cure.step_id, 1); // the first open step of the stage in hand
    EXPECT_TRUE(shown("cures", "May be handled in 1 h")) << rows("cures").join('\n').toStdString();
    EXPECT_TRUE(shown("cures", "Fully cured in 1 d"));
}

TEST_F(CuresAndItems, WhatIsNoTimeIsRefusedAndStaysAsTyped) {
    AskPanel& ask = started();
    ask.form().set_text("place", "end rails");
    for (const char* wrong : {"24", "overnight", "0 min", "<b>1 h</b>"}) {
        ask.form().set_text("full_minutes", wrong);
        ask.take_typed();
        EXPECT_TRUE(ask.is_open()) << wrong;
        EXPECT_TRUE(ask.form().trouble().contains("Fully cured after")) << wrong;
        EXPECT_EQ(ask.form().text("full_minutes"), wrong);
    }
    ask.form().set_text("full_minutes", "30 min");
    ask.form().set_text("handling_minutes", "1 h"); // longer than the full time
    ask.take_typed();
    EXPECT_TRUE(ask.is_open());
    EXPECT_TRUE(all<Cure>().empty());
    // Not known stays not known.
    ask.form().set_text("handling_minutes", "");
    ask.form().set_text("full_minutes", "");
    ask.take_typed();
    ASSERT_EQ(all<Cure>().size(), 1U);
    EXPECT_FALSE(all<Cure>().front().full_minutes.has_value());
    EXPECT_FALSE(all<Cure>().front().handling_minutes.has_value());
}

TEST_F(CuresAndItems, AProductsTimesComeFromTheShopAndMayBeCorrected) {
    Product product;
    product.id = 5;
    product.name = "Grey silicone";
    product.handling_minutes = 90;
    product.full_minutes = 24 * 60;
    put_and_see(product);
    AskPanel& ask = started();
    auto* choice = ask.form().findChild<QComboBox*>("product");
    choice->setCurrentIndex(choice->findText("Grey silicone"));
    emit choice->activated(choice->currentIndex());
    EXPECT_EQ(ask.form().text("handling_minutes"), "90 min");
    EXPECT_EQ(ask.form().text("full_minutes"), "24 h");
    ask.form().set_text("full_minutes", "36 h");
    ask.form().set_text("place", "timing cover");
    ask.take_typed();
    ASSERT_EQ(all<Cure>().size(), 1U);
    EXPECT_EQ(all<Cure>().front().product_id, 5);
    EXPECT_EQ(all<Cure>().front().handling_minutes, 90);
    EXPECT_EQ(all<Cure>().front().full_minutes, 36 * 60);
}

// Put on in the evening; the gate opens by itself the next day.
TEST_F(CuresAndItems, TheGateWaitsOvernightUntilItHasCuredFully) {
    put_and_see(clearance(1, ".060"));
    tick_both();
    page_->show_tab(BuildPage::Tab::gates);
    ASSERT_TRUE(button("sign_off").isEnabled());
    now_ = "2026-11-30T18:00:00Z";
    AskPanel& ask = started();
    ask.form().set_data("step", QVariant(qlonglong{2}));
    ask.form().set_text("place", "end rails");
    ask.form().set_text("handling_minutes", "1 h");
    ask.form().set_text("full_minutes", "24 h");
    ask.take_typed();
    settle();
    EXPECT_FALSE(button("sign_off").isEnabled());
    EXPECT_TRUE(shown("gates", "Cures: end rails, until 1 December 2026"))
        << rows("gates").join('\n').toStdString();
    at("2026-11-30T18:59:30Z");
    EXPECT_TRUE(shown("cures", "end rails: Wet"));
    EXPECT_TRUE(shown("cures", "May be handled in 1 min"));
    at("2026-11-30T19:00:00Z");
    EXPECT_TRUE(shown("cures", "end rails: May be handled"));
    EXPECT_FALSE(button("sign_off").isEnabled());
    at("2026-12-01T17:59:59Z");
    EXPECT_FALSE(button("sign_off").isEnabled());
    at("2026-12-01T18:00:00Z");
    EXPECT_TRUE(shown("cures", "end rails: Cured"));
    EXPECT_TRUE(button("sign_off").isEnabled());
    EXPECT_FALSE(all<Cure>().front().ended.has_value()); // nobody ended it
}

TEST_F(CuresAndItems, ACureIsEndedEarlyWithAReason) {
    start("end rails", "1 h", "24 h");
    now_ = "2026-11-30T12:00:00Z";
    button("end_cure").click();
    AskPanel& ask = page_->cures().ending();
    ASSERT_TRUE(ask.is_open());
    ask.take_typed();
    EXPECT_TRUE(ask.is_open());
    EXPECT_FALSE(all<Cure>().front().ended.has_value());
    ask.form().set_text("note", "found hard; warm shop");
    ask.take_typed();
    settle();
    EXPECT_EQ(all<Cure>().front().ended, "2026-11-30T12:00:00Z");
    EXPECT_EQ(all<Cure>().front().note, "found hard; warm shop");
    EXPECT_TRUE(shown("cures", "Ended before the label's time"));
    EXPECT_FALSE(button("end_cure").isEnabled());
}

TEST_F(CuresAndItems, AnOpenItemHoldsItsGateUntilItIsClosedWithAnOutcome) {
    put_and_see(clearance(1, ".060"));
    tick_both();
    page_->show_tab(BuildPage::Tab::cures_and_items);
    button("new_item").click();
    AskPanel& ask = page_->items().opening();
    ask.take_typed();
    EXPECT_TRUE(ask.is_open()); // not without a title
    ask.form().set_text("title", "Thread of bolt 7 pulled a little");
    ask.form().set_text("position", "head bolt 7");
    ask.form().set_text("if_it_goes_wrong", "insert, before the book is closed");
    ask.form().set_text("due", "12/1/2026");
    ask.take_typed();
    EXPECT_TRUE(ask.form().trouble().contains("Due"));
    EXPECT_TRUE(all<OpenItem>().empty());
    ask.form().set_text("due", "2026-11-29");
    ask.form().set_flag("customer_told", true);
    ask.form().set_data("gate", QVariant(qlonglong{1}));
    ask.take_typed();
    settle();
    ASSERT_EQ(all<OpenItem>().size(), 1U);
    const OpenItem item = all<OpenItem>().front();
    EXPECT_EQ(item.kind, OpenItemKind::watch);
    EXPECT_EQ(item.position, "head bolt 7");
    EXPECT_EQ(item.if_it_goes_wrong, "insert, before the book is closed");
    EXPECT_TRUE(item.customer_told);
    EXPECT_TRUE(shown("open_items", "Overdue since 29 November 2026"));
    EXPECT_TRUE(shown("gates", "Thread of bolt 7"));
    EXPECT_FALSE(button("sign_off").isEnabled());

    button("close_item").click();
    AskPanel& closing = page_->items().closing();
    closing.take_typed();
    EXPECT_TRUE(closing.is_open());
    closing.form().set_text("outcome", "insert fitted");
    closing.take_typed();
    settle();
    EXPECT_EQ(all<OpenItem>().front().outcome, "insert fitted");
    EXPECT_EQ(all<OpenItem>().front().closed_by, "MH");
    EXPECT_FALSE(shown("open_items", "Thread of bolt 7"));
    EXPECT_TRUE(button("sign_off").isEnabled());
    for (QAbstractButton* found : page_->findChildren<QAbstractButton*>()) {
        if (found->text() == "Show the closed ones") {
            found->click();
        }
    }
    EXPECT_TRUE(shown("open_items", "insert fitted"));
}

TEST_F(CuresAndItems, ADecisionIsKeptWithWhoMadeIt) {
    button("new_decision").click();
    AskPanel& ask = page_->items().deciding();
    ask.form().set_text("question", "Cork or bead on the rails?");
    ask.take_typed();
    EXPECT_TRUE(ask.is_open());
    EXPECT_TRUE(all<Decision>().empty());
    ask.form().set_text("choice", "bead");
    ask.form().set_text("reason", "the gap is .125");
    ask.take_typed();
    ASSERT_EQ(all<Decision>().size(), 1U);
    EXPECT_EQ(all<Decision>().front().decided_by, "MH");
    EXPECT_TRUE(shown("decisions", "Cork or bead on the rails?: bead"));
    EXPECT_TRUE(shown("decisions", "Why: the gap is .125"));
}

TEST_F(CuresAndItems, AnOpenItemIsChangedInItsOwnBoxes) {
    page_->show_tab(BuildPage::Tab::cures_and_items);
    button("new_item").click();
    AskPanel& opened = page_->items().opening();
    opened.form().set_text("title", "Doubtful thread");
    opened.form().set_text("position", "bolt 7");
    opened.form().set_text("due", "2027-03-12");
    const Gate gate = all<Gate>().front();
    opened.form().set_data("gate", QVariant(static_cast<qlonglong>(gate.id)));
    opened.take_typed();
    ASSERT_EQ(all<OpenItem>().size(), 1U);
    const OpenItem first = all<OpenItem>().front();
    ASSERT_EQ(first.gate_id, gate.id);

    button("change_item").click();
    AskPanel& change = page_->items().changing();
    ASSERT_TRUE(change.is_open());
    EXPECT_EQ(change.form().text("title"), "Doubtful thread");
    EXPECT_EQ(change.form().text("due"), "2027-03-12");
    EXPECT_EQ(change.form().data("gate").toLongLong(), gate.id);
    // What nobody touched is no act.
    const auto acts = last_act(session_->shop());
    change.take_typed();
    EXPECT_EQ(*last_act(session_->shop()), *acts);

    button("change_item").click();
    change.form().set_text("due", "soon");
    change.form().set_text("if_it_goes_wrong", "it pulls: put an insert in");
    change.take_typed();
    EXPECT_TRUE(change.is_open()) << "a day that is none";
    EXPECT_TRUE(change.form().trouble().startsWith("Due:"))
        << change.form().trouble().toStdString();
    EXPECT_FALSE(all<OpenItem>().front().if_it_goes_wrong.has_value());
    change.form().set_text("due", "");
    change.form().set_text("title", "Doubtful thread, left");
    change.form().set_flag("customer_told", true);
    change.take_typed();
    EXPECT_FALSE(change.is_open());
    OpenItem wanted = first;
    wanted.title = "Doubtful thread, left";
    wanted.if_it_goes_wrong = "it pulls: put an insert in";
    wanted.due.reset();
    wanted.customer_told = true;
    EXPECT_EQ(fields_of(all<OpenItem>().front()), fields_of(wanted));
    EXPECT_TRUE(shown("open_items", "If it goes wrong: it pulls"));
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(fields_of(all<OpenItem>().front()), fields_of(first));

    // Somebody else's change in between isn't written over.
    settle();
    button("change_item").click();
    OpenItem theirs = first;
    theirs.title = "Thread chased";
    ASSERT_TRUE(session_->act(edits_to_change(first, theirs), "elsewhere").ok());
    change.form().set_text("title", "Doubtful thread, right");
    change.take_typed();
    EXPECT_TRUE(change.is_open());
    EXPECT_EQ(all<OpenItem>().front().title, "Thread chased");
    change.leave();

    button("close_item").click();
    page_->items().closing().form().set_text("outcome", "insert put in");
    page_->items().closing().take_typed();
    EXPECT_FALSE(button("change_item").isEnabled());
}

TEST_F(CuresAndItems, TheJobSheetIsKeptBoxByBox) {
    page_->show_tab(BuildPage::Tab::job);
    auto& fuel = child<QLineEdit>("fuel");
    fuel.setFocus();
    QTest::keyClicks(&fuel, "  93 octane ");
    QTest::keyClick(&fuel, Qt::Key_Return);
    EXPECT_EQ(all<Build>().front().fuel, "93 octane");
    EXPECT_EQ(fuel.text(), "93 octane");
    auto& scope = child<QPlainTextEdit>("scope");
    scope.setFocus();
    QTest::keyClicks(&scope, "Short block");
    QTest::keyClick(&scope, Qt::Key_Return);
    QTest::keyClicks(&scope, "Heads");
    EXPECT_FALSE(all<Build>().front().scope.has_value()); // still being typed
    fuel.setFocus();
    EXPECT_EQ(all<Build>().front().scope, "Short block\nHeads");

    auto& name = child<QLineEdit>("name");
    name.setFocus();
    name.selectAll();
    QTest::keyClick(&name, Qt::Key_Delete);
    fuel.setFocus();
    EXPECT_EQ(all<Build>().front().name, "Halden V8"); // a build is called something
    EXPECT_EQ(name.text(), "");
    EXPECT_TRUE(complaints_.isEmpty());
    const auto told = [&] {
        for (QLabel* label : page_->job().findChildren<QLabel*>("trouble")) {
            if (label->isVisible() && label->text().startsWith("Called:")) {
                return true;
            }
        }
        return false;
    };
    EXPECT_TRUE(told());
    name.setText("Halden V8, second");
    fuel.setFocus();
    QTest::keyClick(&name, Qt::Key_Return);
    EXPECT_EQ(all<Build>().front().name, "Halden V8, second");
    EXPECT_FALSE(told());
    EXPECT_EQ(words_of("title"), "Halden V8, second");
}

TEST_F(CuresAndItems, ACustomerOfTheShopIsLinkedByHisName) {
    Customer listed;
    listed.id = 9;
    listed.name = "Ketil Aune";
    put_and_see(listed);
    auto& customer = child<QComboBox>("customer");
    customer.setEditText("Ketil Aune");
    emit customer.lineEdit()->editingFinished();
    EXPECT_EQ(all<Build>().front().customer, "Ketil Aune");
    EXPECT_EQ(all<Build>().front().customer_id, 9);
    customer.setEditText("His brother");
    emit customer.lineEdit()->editingFinished();
    EXPECT_EQ(all<Build>().front().customer, "His brother");
    EXPECT_FALSE(all<Build>().front().customer_id.has_value());
}

TEST_F(CuresAndItems, AnotherDayAsksWhyAndKeepsWhatWasTold) {
    page_->show_tab(BuildPage::Tab::job);
    button("move_promise").click();
    AskPanel& ask = page_->job().promising();
    ask.form().set_text("promised", "2027-03-12");
    ask.form().set_text("reason", "cam is late");
    ask.take_typed();
    EXPECT_TRUE(ask.is_open()); // it stands already
    ask.form().set_text("promised", "2027-4-1");
    ask.form().set_text("reason", "");
    ask.take_typed();
    EXPECT_TRUE(ask.is_open());
    EXPECT_EQ(all<Build>().front().promised, "2027-03-12");
    EXPECT_TRUE(all<Promise>().empty());
    ask.form().set_text("reason", "cam is late");
    ask.take_typed();
    EXPECT_EQ(all<Build>().front().promised, "2027-04-01");
    ASSERT_EQ(all<Promise>().size(), 1U);
    EXPECT_EQ(all<Promise>().front().promised, "2027-04-01");
    EXPECT_EQ(all<Promise>().front().reason, "cam is late");
    EXPECT_TRUE(words_of("promised").contains("1 April 2027"));
    EXPECT_TRUE(words_of("promises").contains("because: cam is late"));
    // One act: undo takes both back.
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(all<Build>().front().promised, "2027-03-12");
    EXPECT_TRUE(all<Promise>().empty());
}

TEST_F(CuresAndItems, CastingNumbersAreAddedAndTakenAway) {
    page_->show_tab(BuildPage::Tab::job);
    TypedForm& form = page_->job().casting();
    form.set_text("position", "block");
    emit form.entered();
    EXPECT_TRUE(all<CastingNumber>().empty());
    EXPECT_EQ(form.text("position"), "block");
    form.set_text("number", "3970010");
    emit form.entered();
    ASSERT_EQ(all<CastingNumber>().size(), 1U);
    EXPECT_FALSE(all<CastingNumber>().front().date_code.has_value());
    EXPECT_TRUE(shown("castings", "block: 3970010"));
    button("remove_casting").click();
    EXPECT_TRUE(all<CastingNumber>().empty());
}

TEST_F(CuresAndItems, HostileWordsAreKeptAndShownAsTheyAre) {
    for (const QString& text : hostile_words()) {
        const std::string words = text.toStdString();
        AskPanel& cure = started();
        cure.form().set_text("place", text);
        cure.form().set_text("note", text);
        cure.take_typed();
        EXPECT_EQ(all<Cure>().back().place, words);
        EXPECT_EQ(all<Cure>().back().note, words);
        EXPECT_TRUE(shown("cures", text));
        button("new_item").click();
        AskPanel& item = page_->items().opening();
        for (const char* field : {"title", "position", "detail", "if_it_goes_wrong"}) {
            item.form().set_text(field, text);
        }
        item.take_typed();
        EXPECT_EQ(all<OpenItem>().back().title, words);
        EXPECT_EQ(all<OpenItem>().back().if_it_goes_wrong, words);
        EXPECT_TRUE(shown("open_items", text));
        button("new_decision").click();
        AskPanel& decision = page_->items().deciding();
        for (const char* field : {"question", "choice", "reason"}) {
            decision.form().set_text(field, text);
        }
        decision.take_typed();
        EXPECT_EQ(all<Decision>().back().reason, words);
        EXPECT_TRUE(shown("decisions", text));
        for (const char* field : {"job_number", "name", "engine", "use", "fuel", "speed_range",
                                  "target_power", "state"}) {
            auto* line = page_->job().findChild<QLineEdit*>(field);
            line->setText(text);
            QTest::keyClick(line, Qt::Key_Return);
            EXPECT_EQ(line->text(), text);
        }
        EXPECT_EQ(all<Build>().front().name, words);
        EXPECT_EQ(all<Build>().front().state, words);
        EXPECT_EQ(words_of("title"), text);
        EXPECT_TRUE(words_of("build_details").contains(text));
    }
    EXPECT_EQ(all<Cure>().size(), static_cast<std::size_t>(hostile_words().size()));
    EXPECT_TRUE(complaints_.isEmpty()) << complaints_.join('\n').toStdString();
    EXPECT_LE(page_->minimumSizeHint().width(), 1180); // no word makes the page wider
    settle();
}

} // namespace
} // namespace rodway
