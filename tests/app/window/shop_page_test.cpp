#include "app/shop/shop_page.h"
#include "app/build/build_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDate>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSettings>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTest>
#include <random>

#include "app/shop/backup_panel.h"
#include "app/shop/customer_builds_dialog.h"
#include "app/shop/erase_dialog.h"
#include "app/window/main_window.h"
#include "app/window/who_box.h"
#include "app/work/shop_copies.h"
#include "db/backups.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/edits.h"
#include "db/stage_store.h"
#include "tests/app/build/step_list.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

constexpr int patience_ms = 20000;

/// The real window on a demo shop, open at the shop place.
class ShopPageTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        QSettings().setValue("shop/who", "MH");
        window_ = std::make_unique<MainWindow>();
        window_->show();
        ASSERT_TRUE(window_->make_shop(path("shop.rodway"), true));
        // So that every panel is empty at first.
        for (const Person& person : all<Person>()) {
            const auto removal = edits_to_remove(shop(), {RecordKind::person, person.id});
            ASSERT_TRUE(removal.ok());
            ASSERT_TRUE(apply(shop(), *removal, "MH", "2026-11-30T12:00:00Z").ok());
        }
        window_->go_to_shop();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window_.get()));
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    ShopPage& page() { return window_->shop_page(); }
    ShopFile& shop() { return window_->session()->shop(); }
    RecordPanel& open(RecordKind kind) {
        page().go_to_panel(kind);
        page().panel(kind)->begin_new();
        return *page().panel(kind);
    }
    template <typename Record>
    std::vector<Record> all() {
        const auto records = load_records<Record>(shop(), shop_wide);
        EXPECT_TRUE(records.ok());
        return records.ok() ? *records : std::vector<Record>();
    }
    /// Keys as a person presses them, wherever the focus is; a newline is Enter.
    static void press(const QString& keys) {
        for (const QChar key : keys) {
            QWidget* target = QApplication::focusWidget();
            ASSERT_NE(target, nullptr);
            if (key == '\n') {
                QTest::keyClick(target, Qt::Key_Return);
            } else {
                QTest::keyClick(target, key.toLatin1());
            }
        }
    }
    /// As pasted: keys would lose what no key has.
    static void paste(RecordPanel& panel, const char* field, const QString& text) {
        auto* box = panel.findChild<QWidget*>(QString("field_") + field);
        ASSERT_NE(box, nullptr) << field;
        box->setFocus();
        if (auto* line = qobject_cast<QLineEdit*>(box)) {
            line->setText(text);
        } else if (auto* lines = qobject_cast<QPlainTextEdit*>(box)) {
            lines->setPlainText(text);
        } else {
            auto* list = qobject_cast<QComboBox*>(box);
            list->setCurrentIndex(list->findText(text));
            if (list->isEditable()) list->setEditText(text);
        }
    }
    static QString text_in(RecordPanel& panel, const char* field) {
        auto* box = panel.findChild<QLineEdit*>(QString("field_") + field);
        return box == nullptr ? QString() : box->text();
    }
    static QString trouble(RecordPanel& panel, const char* field) {
        auto* label = panel.findChild<QLabel*>(QString("trouble_") + field);
        return label == nullptr || label->isHidden() ? QString() : label->text();
    }
    static void add(RecordPanel& panel) { panel.findChild<QPushButton*>("add_record")->click(); }
    static QString cell(RecordPanel& panel, int row, const QString& column) {
        auto* table = panel.findChild<QTableWidget*>("records");
        for (int at = 0; at < table->columnCount(); ++at) {
            if (table->horizontalHeaderItem(at)->text() == column) {
                return table->item(row, at)->text();
            }
        }
        ADD_FAILURE() << "no column " << column.toStdString();
        return {};
    }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(ShopPageTest, TwoPeopleAreTypedWithoutTheMouse) {
    open(RecordKind::person);
    press("Bo Kern\nBK\nassembly\n\n");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return, Qt::ControlModifier);
    press("Ida Lund\nIL\n\n\n");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return, Qt::ControlModifier);
    const auto people = all<Person>();
    ASSERT_EQ(people.size(), 2u);
    EXPECT_EQ(people[0].name, "Bo Kern");
    EXPECT_EQ(people[0].initials, "BK");
    EXPECT_EQ(people[0].role, "assembly");
    EXPECT_EQ(people[1].name, "Ida Lund");
    EXPECT_EQ(people[1].role, std::nullopt);
}

TEST_F(ShopPageTest, WhoWorksIsChosenFromThePeopleAndEveryEditCarriesIt) {
    auto& panel = open(RecordKind::person);
    press("Bo Kern\nBK\n");
    add(panel);
    press("Ola Voss\nOV\n");
    paste(panel, "left", "2020-01-31");
    add(panel);
    auto* who = window_->findChild<WhoBox*>("who");
    ASSERT_NE(who, nullptr);
    EXPECT_TRUE(who->isVisible());
    EXPECT_EQ(who->accessibleName(), "Who is working");
    QStringList offered;
    for (int row = 0; row < who->count(); ++row) offered << who->itemText(row);
    EXPECT_TRUE(offered.contains("BK  Bo Kern"));
    EXPECT_EQ(offered.filter("Voss"), QStringList()); // who has left is not offered
    who->setCurrentIndex(who->findText("BK  Bo Kern"));
    emit who->activated(who->currentIndex());
    EXPECT_EQ(window_->session()->who(), "BK");
    const auto stages = stages_with_steps(shop(), 1);
    const Step* open_step = nullptr;
    for (const StageWithSteps& stage : *stages) {
        for (const Step& step : stage.steps) {
            if (open_step == nullptr && !step.ticked_at) open_step = &step;
        }
    }
    ASSERT_NE(open_step, nullptr);
    window_->open_build(1);
    window_->build_page().show_stage(open_step->stage_id);
    press_space_on(step_row(*window_, QString::fromStdString(open_step->title)));
    const auto acts = history(shop(), {RecordKind::step, open_step->id});
    ASSERT_TRUE(acts.ok());
    EXPECT_EQ(acts->back().who, "BK");
    EXPECT_EQ(QSettings().value("shop/who").toString(), "BK");
}

TEST_F(ShopPageTest, InitialsThatSomebodyElseHasAreRefusedUntilThatOneHasLeft) {
    auto& panel = open(RecordKind::person);
    press("Bo Kern\nBK\n");
    add(panel);
    press("Berta Kuhn\nbk\n");
    add(panel);
    EXPECT_EQ(all<Person>().size(), 1u);
    EXPECT_THAT(trouble(panel, "initials").toStdString(), HasSubstr("Bo Kern"));
    EXPECT_EQ(text_in(panel, "name"), "Berta Kuhn"); // what was typed stays
    EXPECT_EQ(text_in(panel, "initials"), "bk");
    ASSERT_TRUE(panel.go_to(all<Person>()[0].id));
    paste(panel, "left", "2021-02-03");
    press("\n");
    EXPECT_EQ(all<Person>()[0].left, "2021-02-03");
    panel.begin_new();
    EXPECT_EQ(text_in(panel, "name"), "Berta Kuhn"); // still there
    add(panel);
    EXPECT_EQ(all<Person>().size(), 2u);
}

TEST_F(ShopPageTest, AWrongDateStaysAsTypedSaysWhatIsWantedAndNothingIsStored) {
    auto& panel = open(RecordKind::person);
    press("Bo Kern\nBK\n");
    add(panel);
    ASSERT_TRUE(panel.go_to(all<Person>()[0].id));
    for (const char* wrong : {"3/1/2026", "2026-02-30", "yesterday", "-1", "1e9"}) {
        paste(panel, "left", wrong);
        press("\n");
        EXPECT_EQ(all<Person>()[0].left, std::nullopt) << wrong;
        EXPECT_EQ(text_in(panel, "left"), wrong);
        EXPECT_THAT(trouble(panel, "left").toStdString(), HasSubstr("2026-03-01")) << wrong;
    }
    paste(panel, "left", "2026-3-1");
    press("\n");
    EXPECT_EQ(all<Person>()[0].left, "2026-03-01");
    EXPECT_EQ(trouble(panel, "left"), "");
    ASSERT_TRUE(window_->session()->undo().ok());
    EXPECT_EQ(all<Person>()[0].left, std::nullopt);
    EXPECT_EQ(text_in(panel, "left"), "");
}

TEST_F(ShopPageTest, ALabelsTimesAreTypedAsPrintedAndShownTheSameWay) {
    auto& panel = open(RecordKind::product);
    press("Black end sealer\nintake ends\n1 h\n24 h\n");
    add(panel);
    press("Thread locker\n\n90 min\n7 days\n");
    add(panel);
    const auto products = all<Product>();
    ASSERT_EQ(products.size(), 2u);
    EXPECT_EQ(products[0].handling_minutes, 60);
    EXPECT_EQ(products[0].full_minutes, 1440);
    EXPECT_EQ(products[1].handling_minutes, 90);
    EXPECT_EQ(products[1].full_minutes, 7 * 1440);
    EXPECT_EQ(cell(panel, 0, "Handled after"), "1 h");
    EXPECT_EQ(cell(panel, 0, "Full cure after"), "24 h");
    EXPECT_EQ(cell(panel, 1, "Handled after"), "90 min");
    EXPECT_EQ(cell(panel, 1, "Full cure after"), "7 days");
    ASSERT_TRUE(panel.go_to(products[0].id));
    for (const char* wrong : {"60", "1 h-2 h", "-1 h", "soon", "3 psi", "1e9 h", "0 min", "90 s"}) {
        paste(panel, "handling_minutes", wrong);
        press("\n");
        EXPECT_EQ(all<Product>()[0].handling_minutes, 60) << wrong;
        EXPECT_FALSE(trouble(panel, "handling_minutes").isEmpty()) << wrong;
    }
    paste(panel, "handling_minutes", "25 h"); // after the full cure
    press("\n");
    EXPECT_EQ(all<Product>()[0].handling_minutes, 60);
    EXPECT_THAT(trouble(panel, "handling_minutes").toStdString(), HasSubstr("label"));
    paste(panel, "handling_minutes", "1 h 30 min");
    press("\n");
    EXPECT_EQ(all<Product>()[0].handling_minutes, 90);
}

TEST_F(ShopPageTest, AnInstrumentThatIsOverdueIsMarkedInWords) {
    auto& panel = open(RecordKind::instrument);
    const QDate today = QDate::currentDate();
    const auto add_due = [&](const char* name, const QDate& due) {
        paste(panel, "name", name);
        paste(panel, "calibration_due", due.toString(Qt::ISODate));
        add(panel);
    };
    add_due("late", today.addDays(-3));
    add_due("today", today);
    add_due("soon", today.addDays(10));
    add_due("good", today.addDays(200));
    EXPECT_THAT(cell(panel, 0, "State").toStdString(), HasSubstr("overdue by 3"));
    EXPECT_THAT(cell(panel, 1, "State").toStdString(), HasSubstr("due today"));
    EXPECT_THAT(cell(panel, 2, "State").toStdString(), HasSubstr("due in 10"));
    EXPECT_THAT(cell(panel, 3, "State").toStdString(), HasSubstr("good until"));
    paste(panel, "name", "wrong way round");
    paste(panel, "calibrated", "2026-05-01");
    paste(panel, "calibration_due", "2026-04-30");
    add(panel);
    EXPECT_EQ(all<Instrument>().size(), 4u);
    EXPECT_FALSE(trouble(panel, "calibration_due").isEmpty());
}

TEST_F(ShopPageTest, ALimitOfTheShopsOwnIsReadAsTheSheetsReadItForNewAndUsedParts) {
    auto& panel = open(RecordKind::limit);
    auto* what = panel.findChild<QComboBox*>("field_quantity");
    ASSERT_NE(what, nullptr);
    const int row = what->findText("clearance", Qt::MatchContains);
    ASSERT_GE(row, 0);
    QString main;
    for (int at = 0; at < what->count(); ++at) {
        if (what->itemText(at).startsWith("Main bearings") &&
            what->itemText(at).contains("learance")) {
            main = what->itemText(at);
        }
    }
    ASSERT_FALSE(main.isEmpty());
    paste(panel, "quantity", main);
    paste(panel, "low", ".0020");
    paste(panel, "high", ".0015");
    add(panel); // no source, and upside down
    EXPECT_TRUE(all<LimitRecord>().empty());
    EXPECT_FALSE(trouble(panel, "source").isEmpty());
    paste(panel, "source", "the shop");
    add(panel);
    EXPECT_TRUE(all<LimitRecord>().empty());
    EXPECT_FALSE(trouble(panel, "high").isEmpty());
    paste(panel, "high", ".0028");
    add(panel);
    ASSERT_EQ(all<LimitRecord>().size(), 1u);
    EXPECT_EQ(all<LimitRecord>()[0].quantity, "main_clearance");
    EXPECT_EQ(all<LimitRecord>()[0].high, ".0028");
    EXPECT_EQ(all<LimitRecord>()[0].unit, "in");
    EXPECT_FALSE(all<LimitRecord>()[0].serviceable);
    paste(panel, "quantity", main);
    paste(panel, "serviceable", "used parts");
    paste(panel, "high", ".0040");
    paste(panel, "position", "main 3");
    paste(panel, "source", "the maker's book");
    add(panel);
    ASSERT_EQ(all<LimitRecord>().size(), 2u);
    EXPECT_TRUE(all<LimitRecord>()[1].serviceable);
    EXPECT_EQ(all<LimitRecord>()[1].position, "J3");
    ASSERT_TRUE(panel.go_to(all<LimitRecord>()[1].id));
    for (const auto& [field, wrong] :
         std::vector<std::pair<const char*, const char*>>{{"high", "wide"},
                                                          {"high", "10"},
                                                          {"high", ".0040 psi"},
                                                          {"unit", "psi"},
                                                          {"position", "valve 99"},
                                                          {"source", ""}}) {
        paste(panel, field, wrong);
        press("\n");
        EXPECT_FALSE(trouble(panel, field).isEmpty()) << field << " " << wrong;
        EXPECT_EQ(all<LimitRecord>()[1].high, ".0040") << wrong;
        EXPECT_EQ(all<LimitRecord>()[1].unit, "in") << wrong;
    }
    panel.findChild<QPushButton*>("remove_record")->click();
    EXPECT_EQ(all<LimitRecord>().size(), 1u);
    ASSERT_TRUE(window_->session()->undo().ok());
    EXPECT_EQ(all<LimitRecord>().size(), 2u);
}

TEST_F(ShopPageTest, TheSameLineOfTheShopsPapersStandsThereOnceAndALogoMustBeAPicture) {
    auto& panel = open(RecordKind::shop_detail);
    paste(panel, "name", "Name of the shop");
    paste(panel, "content", "Kern Engines");
    add(panel);
    paste(panel, "name", "Name of the shop");
    paste(panel, "content", "Another");
    add(panel);
    ASSERT_EQ(all<ShopDetail>().size(), 1u);
    EXPECT_EQ(all<ShopDetail>()[0].name, "name");
    EXPECT_FALSE(trouble(panel, "name").isEmpty());
    paste(panel, "name", "File of the logo");
    paste(panel, "content", path("none.png"));
    add(panel);
    EXPECT_EQ(all<ShopDetail>().size(), 1u);
    QImage(8, 8, QImage::Format_RGB32).save(path("logo.png"));
    paste(panel, "content", path("logo.png"));
    add(panel);
    ASSERT_EQ(all<ShopDetail>().size(), 2u);
    EXPECT_EQ(all<ShopDetail>()[1].content, path("logo.png").toStdString());
}

TEST_F(ShopPageTest, WhatIsTypedWhileTheSameFieldChangesElsewhereIsNotWrittenOverItUnseen) {
    auto& panel = open(RecordKind::customer);
    press("Nora Aas\n");
    add(panel);
    const Customer before = all<Customer>()[0];
    ASSERT_TRUE(panel.go_to(before.id));
    panel.findChild<QLineEdit*>("field_phone")->setFocus();
    press("555 1");
    Customer elsewhere = before;
    elsewhere.phone = "555 2";
    ASSERT_TRUE(window_->session()->act(edits_to_change(before, elsewhere), "elsewhere").ok());
    EXPECT_EQ(text_in(panel, "phone"), "555 1"); // what is being typed stays
    press("\n");
    EXPECT_EQ(all<Customer>()[0].phone, "555 2");
    EXPECT_THAT(trouble(panel, "phone").toStdString(), HasSubstr("555 2"));
    press("\n"); // said again, it is meant
    EXPECT_EQ(all<Customer>()[0].phone, "555 1");
}

TEST_F(ShopPageTest, ErasingACustomerNeedsTheWordAndTakesHimOutOfRecordHistoryAndBackups) {
    auto& panel = open(RecordKind::customer);
    press("Nora Aasgaardstrand\n555 0199\n");
    add(panel);
    const std::int64_t id = all<Customer>()[0].id;
    // The window makes its own when a shop is opened.
    ASSERT_TRUE(QTest::qWaitFor([&] { return !copies_of_shop(shop().path(), {})->isEmpty(); },
                                patience_ms));
    ASSERT_TRUE(back_up(shop(), {}, "2020-03-01T12:00:00Z").ok());
    const auto old = copies_of_shop(shop().path(), {});
    ASSERT_TRUE(old.ok());
    ASSERT_GE(old->size(), 2);
    EraseDialog dialog(*window_->session(), id, "Nora Aasgaardstrand");
    auto* go = dialog.findChild<QPushButton*>("erase_for_good");
    EXPECT_FALSE(go->isEnabled());
    go->click();
    EXPECT_EQ(all<Customer>()[0].name, "Nora Aasgaardstrand");
    QString said;
    for (const QLabel* label : dialog.findChildren<QLabel*>()) said += label->text();
    EXPECT_TRUE(said.contains("can't be taken back"));
    EXPECT_TRUE(said.contains("books"));
    dialog.findChild<QCheckBox*>("delete_backups")->setChecked(true);
    dialog.findChild<QLineEdit*>("erase_word")->setText("erase");
    ASSERT_TRUE(go->isEnabled());
    go->click();
    EXPECT_EQ(dialog.result(), QDialog::Accepted);
    EXPECT_EQ(all<Customer>()[0].name, "-");
    EXPECT_EQ(all<Customer>()[0].phone, std::nullopt);
    for (const Act& act : *history(shop(), {RecordKind::customer, id})) {
        for (const Edit& edit : act.edits) {
            EXPECT_NE(edit.after, "Nora Aasgaardstrand");
            EXPECT_NE(edit.before, "Nora Aasgaardstrand");
        }
    }
    const auto left = copies_of_shop(shop().path(), {});
    ASSERT_TRUE(left.ok());
    ASSERT_EQ(left->size(), 1) << "one new backup and no older one";
    for (const QString& copy : *left) {
        QFile file(copy);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly));
        EXPECT_FALSE(file.readAll().contains("Aasgaardstrand"));
    }
    page().panel(RecordKind::customer)->refresh();
    ASSERT_TRUE(panel.go_to(id));
    paste(panel, "phone", "555 0199"); // an erased record stays erased
    press("\n");
    EXPECT_EQ(all<Customer>()[0].phone, std::nullopt);
}

TEST_F(ShopPageTest, TheBuildsTickedAsACustomersLoseHisNameWithHimInOneActBefore) {
    auto& panel = open(RecordKind::customer);
    press("Ada Brandvold\n");
    add(panel);
    const Customer customer = all<Customer>()[0];
    const auto builds = load_builds(shop());
    CustomerBuildsDialog dialog(customer, *builds);
    auto* list = dialog.findChild<QListWidget*>("builds_of_customer");
    ASSERT_EQ(list->count(), 3);
    EXPECT_TRUE(list->item(0)->text().contains("Halden")); // it carries the name: it stands first
    EXPECT_TRUE(dialog.edits().empty());
    list->item(0)->setCheckState(Qt::Checked);
    ASSERT_TRUE(window_->session()->act(dialog.edits(), "builds").ok());
    EXPECT_EQ(load_build(shop(), 1)->customer_id, customer.id);
    EXPECT_EQ(load_build(shop(), 2)->customer_id, std::nullopt);
    CustomerBuildsDialog again(customer, *load_builds(shop()));
    EXPECT_TRUE(again.edits().empty());
    again.findChild<QListWidget*>("builds_of_customer")->item(0)->setCheckState(Qt::Unchecked);
    EXPECT_EQ(again.edits().size(), 1u);
    EraseDialog erase(*window_->session(), customer.id, "Ada Brandvold");
    erase.findChild<QLineEdit*>("erase_word")->setText("erase");
    erase.findChild<QPushButton*>("erase_for_good")->click();
    EXPECT_FALSE(load_build(shop(), 1)->customer == "Ada Brandvold");
    EXPECT_EQ(load_build(shop(), 2)->customer, "Ketil Aune");
    EXPECT_TRUE(erase.outcome().contains("Halden V8"));
}

TEST_F(ShopPageTest, ABackupIsPutBackAndWhatStoodThereIsKept) {
    ASSERT_TRUE(back_up(shop(), {}, "2026-03-01T12:00:00Z").ok());
    auto& panel = open(RecordKind::person);
    press("Bo Kern\nBK\n");
    add(panel);
    ASSERT_EQ(all<Person>().size(), 1u);
    const QString folder = QString::fromStdString(backups_folder(shop().path()));
    const QString backup =
        QDir(folder).filePath(QDir(folder).entryList({"*120000Z*"}, QDir::Files).value(0));
    page().go_to_backups();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !page().backups().busy(); }, patience_ms));
    ASSERT_TRUE(window_->restore_backup(backup)) << window_->complaint().toStdString();
    EXPECT_TRUE(all<Person>().empty());
    EXPECT_EQ(load_builds(shop())->size(), 3u);
    const QStringList kept = QDir(folder).entryList({"*before-restore*"}, QDir::Files, QDir::Name);
    ASSERT_EQ(kept.size(), 1);
    auto before = ShopFile::open(QDir(folder).filePath(kept[0]).toStdString());
    ASSERT_TRUE(before.ok());
    ShopFile file = std::move(before).value();
    EXPECT_EQ(load_records<Person>(file, shop_wide)->size(), 1u);
    // The window goes on in the shop that is there now.
    window_->go_to_shop();
    open(RecordKind::person);
    press("Ida Lund\nIL\n");
    add(panel);
    EXPECT_EQ(all<Person>().size(), 1u);
}

TEST_F(ShopPageTest, AFileThatIsNoBackupLeavesTheShopAsItIsAndOpen) {
    QFile junk(path("junk.rodway"));
    ASSERT_TRUE(junk.open(QIODevice::WriteOnly));
    junk.write("no shop");
    junk.close();
    EXPECT_FALSE(window_->restore_backup(path("junk.rodway")));
    EXPECT_FALSE(window_->complaint().isEmpty());
    ASSERT_NE(window_->session(), nullptr);
    EXPECT_EQ(load_builds(shop())->size(), 3u);
}

TEST_F(ShopPageTest, TheListOfBackupsHasAgesAndTheCheckSaysThatTheFileIsSound) {
    ASSERT_TRUE(back_up(shop(), {}, "2020-03-01T12:00:00Z").ok());
    page().go_to_backups();
    BackupPanel& panel = page().backups();
    panel.refresh();
    auto* table = panel.findChild<QTableWidget*>("backups");
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return !panel.busy() && table->rowCount() > 0; }, patience_ms));
    QStringList ages;
    for (int row = 0; row < table->rowCount(); ++row) ages << table->item(row, 0)->text();
    EXPECT_FALSE(ages.filter("days ago").isEmpty()) << ages.join(';').toStdString();
    panel.check_file();
    auto* outcome = panel.findChild<QListWidget*>("check_outcome");
    ASSERT_TRUE(QTest::qWaitFor([&] { return !panel.busy(); }, patience_ms));
    ASSERT_EQ(outcome->count(), 1);
    EXPECT_TRUE(outcome->item(0)->text().contains("sound"));
}

TEST_F(ShopPageTest, EmptyPanelsSayWhatBelongsThereAndEveryBoxHasAName) {
    for (const RecordKind kind :
         {RecordKind::person, RecordKind::customer, RecordKind::instrument, RecordKind::product,
          RecordKind::limit, RecordKind::shop_detail}) {
        auto& panel = open(kind);
        auto* empty = panel.findChild<QLabel*>("empty");
        EXPECT_TRUE(empty->isVisible());
        EXPECT_TRUE(empty->text().contains("egin")) << empty->text().toStdString();
        for (const QWidget* widget : panel.findChildren<QWidget*>()) {
            if (widget->objectName().startsWith("field_")) {
                EXPECT_FALSE(widget->accessibleName().isEmpty());
            }
        }
    }
}

/// Random text, huge, negative, another unit, a pasted table: whatever it is, it is kept as it can
/// be read back, or refused with a reason, and the shop file stays sound.
TEST_F(ShopPageTest, HostileTextInEveryFieldIsKeptOrRefusedWithAReasonAndHarmsNothing) {
    const unsigned seed = 20261130;
    std::mt19937 random(seed);
    SCOPED_TRACE("seed " + std::to_string(seed));
    QStringList hostile{"'; DROP TABLE people; --",
                        "<b>bold</b><script>x</script>",
                        QString(100000, 'x'),
                        "-99999999999999999999",
                        "1e308",
                        "NaN",
                        "5 furlongs",
                        "a\tb\tc\n1\t2\t3\n4\t5\t6",
                        QString::fromUtf8("null\0inside", 11),
                        QString::fromUtf8("\xE2\x80\xAE"
                                          "backwards"),
                        QString(QChar(0xD800)),
                        "%1 %2 %n",
                        "\"quoted\", and, commas;",
                        "   ",
                        "\n\n\n"};
    for (int round = 0; round < 10; ++round) {
        QString text;
        const int length = static_cast<int>(random() % 60);
        for (int at = 0; at < length; ++at) text += QChar(static_cast<ushort>(random() % 0xD7FF));
        hostile << text;
    }
    for (const RecordKind kind :
         {RecordKind::person, RecordKind::customer, RecordKind::instrument, RecordKind::product,
          RecordKind::limit, RecordKind::shop_detail}) {
        auto& panel = open(kind);
        for (const QString& text : hostile) {
            panel.begin_new();
            const std::size_t before = panel.rows().size();
            for (QWidget* box : panel.findChildren<QWidget*>()) {
                if (box->objectName().startsWith("field_")) {
                    paste(panel, box->objectName().mid(6).toLatin1().constData(), text);
                }
            }
            add(panel);
            bool told = panel.rows().size() > before || !window_->complaint().isEmpty();
            for (const QLabel* label : panel.findChildren<QLabel*>()) {
                told = told || (label->property("trouble").toBool() && !label->isHidden() &&
                                !label->text().isEmpty());
            }
            EXPECT_TRUE(told) << text.left(40).toStdString();
        }
    }
    const auto report = shop().check();
    ASSERT_TRUE(report.ok());
    EXPECT_TRUE(report->findings.empty());
}

} // namespace
} // namespace rodway
