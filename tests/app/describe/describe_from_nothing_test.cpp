#include <gtest/gtest.h>

#include <QAbstractItemView>
#include <QComboBox>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QSettings>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QToolButton>
#include <map>

#include "app/build/new_build_dialog.h"
#include "app/describe/describe_page.h"
#include "app/describe/size_box.h"
#include "app/valvetrain/lift_table_dialog.h"
#include "app/valvetrain/valvetrain_page.h"
#include "app/window/main_window.h"
#include "app/work/build_in_hand.h"
#include "core/clearance/survey.h"
#include "core/engine/set_up.h"
#include "core/files/set_up_file.h"
#include "db/set_up_store.h"
#include "tests/app/describe/person_at_work.h"
#include "tests/app/program.h"

// From an empty shop to a first clearance, as a person with one page of measurements does it: the
// page is the one in the guide, the steps are keys and clicks, and the figures must be those of the
// demo engine, which was made of places.

namespace rodway {
namespace {

constexpr double thou_in = 0.001;

/// The tables of the guide's page, by the words of their first column.
class MeasurementPage {
  public:
    MeasurementPage() {
        QFile file(RODWAY_RESOURCES "/guide/describe.md");
        EXPECT_TRUE(file.open(QIODevice::ReadOnly));
        const QString text = QString::fromUtf8(file.readAll());
        const QString page =
            text.mid(text.indexOf("## One page of an engine")).section("## Known engines", 0, 0);
        for (const QString& line : page.split('\n')) {
            if (line.startsWith("| ") && !line.startsWith("| ---")) {
                QStringList cells = line.mid(1, line.size() - 2).split('|');
                for (QString& cell : cells) {
                    cell = cell.trimmed();
                }
                rows_.emplace(cells.front(), cells.mid(1));
            }
        }
    }
    [[nodiscard]] QString of(const QString& row, int column = 0) const {
        const auto found = rows_.find(row);
        EXPECT_NE(found, rows_.end()) << row.toStdString();
        return found == rows_.end() ? QString() : found->second.value(column);
    }
    [[nodiscard]] bool has(const QString& row) const { return rows_.contains(row); }

  private:
    std::map<QString, QStringList> rows_;
};

class DescribeFromNothing : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        person_ = std::make_unique<PersonAtWork>(window_.get());
        window_->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(window_.get()));
        person_->be_in_front();
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    PersonAtWork& person() { return *person_; }

    void make_empty_shop() {
        person().picture("first-page");
        person().in_dialog<QFileDialog>(
            [&] { person().click(first_page_button("Begin a new shop file")); },
            [&](QFileDialog& dialog) { person().name_file(dialog, path("shop.rodway")); });
        ASSERT_NE(window_->session(), nullptr) << window_->complaint().toStdString();
    }
    QPushButton* first_page_button(const QString& beginning) {
        for (QPushButton* button : window_->findChildren<QPushButton*>()) {
            if (button->isVisible() && button->text().remove('&').startsWith(beginning)) {
                return button;
            }
        }
        return nullptr;
    }
    void add_build() {
        person().in_dialog<NewBuildDialog>([&] { person().choose("Build", "New build"); },
                                           [&](NewBuildDialog& dialog) {
                                               person().type("Merrow six");
                                               person().press(Qt::Key_Tab);
                                               person().type("T. Orme");
                                               person().press(Qt::Key_Tab);
                                               person().type("261 six");
                                               person().picture("new-build", &dialog);
                                               person().press(Qt::Key_Return);
                                           });
    }
    void go_to(const QString& place) { person().click(person().button<QToolButton>(place)); }
    /// The keyboard must be in the box of that name.
    void expect_box(const QString& name) {
        QWidget* at = QApplication::focusWidget();
        ASSERT_NE(at, nullptr) << name.toStdString();
        EXPECT_EQ(at->accessibleName().toStdString(), name.toStdString());
    }

    void describe_layout() {
        go_to("Engine");
        person().picture("engine-empty");
        expect_box("Engine");
        person().enter(page_.of("Engine"));
        expect_box("Cylinders stand"); // in line: it stands there already
        person().press(Qt::Key_Tab);
        expect_box("Crank turns, seen from the front");
        person().press(Qt::Key_Down);
        EXPECT_EQ(qobject_cast<QComboBox*>(QApplication::focusWidget())->currentText(),
                  page_.of("Crank turns, seen from the front"));
        person().press(Qt::Key_Tab);
        for (const char* box : {"Firing order", "Bore", "Stroke"}) {
            expect_box(box);
            person().enter(page_.of(box));
        }
        expect_box("Bank angle, degrees"); // upright: left empty
        person().press(Qt::Key_Return);
        for (const char* box : {"Cylinders", "Valves", "Above the crank's",
                                "To the right of the "
                                "crank's"}) {
            expect_box(box);
            person().enter(page_.of(box));
        }
        person().picture("layout");
        person().click(person().button<QPushButton>("Keep the layout and go on"));
    }

    /// Types down the boxes of the step in hand until the keyboard is in another step.
    void type_sizes() {
        const int step = steps()->currentRow();
        while (steps()->currentRow() == step) {
            ASSERT_NE(QApplication::focusWidget(), nullptr);
            const QString name = QApplication::focusWidget()->accessibleName();
            const QString size = name.section(" (", 0, -2);
            const QString owner = name.section(" (", -1).chopped(1);
            const QString typed =
                page_.has(size) ? page_.of(size, owner == "exhaust" ? 1 : 0) : QString();
            typed.isEmpty() ? person().press(Qt::Key_Return) : person().enter(typed);
            auto* box = qobject_cast<SizeBox*>(QApplication::focusWidget()->parentWidget());
            ASSERT_TRUE(box == nullptr || box->trouble().isEmpty())
                << name.toStdString() << ": " << box->trouble().toStdString();
            ASSERT_NE(QApplication::focusWidget()->accessibleName(), name);
        }
    }
    void type_gaps() {
        const int step = steps()->currentRow();
        const QStringList columns{"Gap in front, upper mouth", "Gap outboard, upper mouth",
                                  "Gap in front, lower mouth", "Gap outboard, lower mouth"};
        for (int typed = 0; typed < 48; ++typed) {
            ASSERT_EQ(steps()->currentRow(), step);
            const QString name = QApplication::focusWidget()->accessibleName();
            const int column = static_cast<int>(columns.indexOf(name.section(" (", 0, -2)));
            ASSERT_GE(column, 0) << name.toStdString();
            person().enter(page_.of(name.section(" (", -1).chopped(1), column));
        }
        EXPECT_NE(steps()->currentRow(), step);
    }
    QListWidget* steps() { return window_->findChild<QListWidget*>("describe_steps"); }

    void take_lift_table() {
        person().in_dialog<LiftTableDialog>(
            [&] {
                person().click(person().button<QPushButton>("Instead: a lift table from a file…"));
            },
            [&](LiftTableDialog& dialog) {
                person().type(RODWAY_RESOURCES "/demo/six-lobe-crank-degrees.csv");
                person().press(Qt::Key_Tab);
                person().press(Qt::Key_Tab);
                person().press(Qt::Key_Down);
                person().press(Qt::Key_Down);
                person().picture("lift-table", &dialog);
                person().press(Qt::Key_Return);
            });
    }
    void put_exhaust_tubes_in_head() {
        for (QComboBox* combo : window_->findChildren<QComboBox*>()) {
            if (combo->isVisible() && combo->accessibleName() == "The tubes sit in (exhaust)") {
                person().click(combo);
                person().press(Qt::Key_Down, combo->view());
                person().press(Qt::Key_Return, combo->view());
                EXPECT_EQ(combo->currentText(), "the head");
                return;
            }
        }
        FAIL();
    }

    void describe_sizes() {
        expect_box("Front face to first cylinder (bank row)");
        type_sizes();
        person().picture("block");
        take_lift_table();
        person().click(box("Lash (intake)"));
        type_sizes();
        type_sizes(); // rods
        person().picture("rockers-next");
        type_sizes(); // rockers
        put_exhaust_tubes_in_head();
        person().picture("tubes");
        person().click(box("Intake face looks up (bank row)"));
        type_sizes();
    }
    QLineEdit* box(const QString& name) {
        for (QLineEdit* edit : window_->findChildren<QLineEdit*>()) {
            if (edit->isVisible() && edit->accessibleName() == name) {
                return edit;
            }
        }
        ADD_FAILURE() << "no box " << name.toStdString();
        return nullptr;
    }

    MeasurementPage page_;
    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
    std::unique_ptr<PersonAtWork> person_;
};

std::map<QString, double> minima_of_demo() {
    QFile file(RODWAY_RESOURCES "/demo/inline-six.json");
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    const auto engine = make_engine(*read_set_up_file(file.readAll().toStdString()));
    std::map<QString, double> minima;
    for (const ValveClearance& line : *survey(*engine)) {
        minima[QString::fromStdString(position_name(line.position))] =
            line.found.minimum->clearance_mm / 25.4;
    }
    return minima;
}

TEST_F(DescribeFromNothing, AnInlineSixIsDescribedFromOnePageAndHasTheClearancesOfItsTwin) {
    make_empty_shop();
    add_build();
    describe_layout();
    ASSERT_FALSE(HasFatalFailure());
    describe_sizes();
    ASSERT_FALSE(HasFatalFailure());
    person().picture("gaps-next");
    type_gaps();
    ASSERT_FALSE(HasFatalFailure());
    DescribeModel& model = window_->describe().model();
    person().wait_for([&] { return model.worth().has_value(); }, "what the sizes are worth");
    person().picture("what-to-measure-next");
    QPushButton* state = nullptr;
    for (QPushButton* button : window_->findChildren<QPushButton*>()) {
        if (button->isVisible() && button->text().startsWith("State ±")) {
            state = button;
        }
    }
    person().click(state);
    person().click(person().button<QPushButton>("See the valvetrain"));
    ValvetrainModel& valvetrain = window_->valvetrain().model();
    person().wait_for([&] { return valvetrain.lines().size() == 12; }, "the clearances");
    person().picture("clearances");
    person().in_dialog<QFileDialog>(
        [&] { person().choose("Build", "Export set-up"); },
        [&](QFileDialog& dialog) { person().name_file(dialog, path("merrow.json")); });

    // What is stored is what was typed, and nothing that was worked out.
    const auto stored = newest_set_up(window_->session()->shop(), 1);
    ASSERT_TRUE(stored.ok() && stored->has_value());
    EXPECT_EQ((*stored)->fields.at("described/intake/rod_overall/size").text, "9.278");
    EXPECT_FALSE((*stored)->fields.contains("trains/3I/rod/length"));

    // The demo's twin was made of places to a thousandth; pins and calipers read to one.
    const auto demo = minima_of_demo();
    ASSERT_EQ(valvetrain.lines().size(), 12U);
    std::map<QString, double> shown;
    for (const ValveClearance& line : valvetrain.lines()) {
        const QString valve = QString::fromStdString(position_name(line.position));
        ASSERT_TRUE(line.found.minimum.has_value()) << valve.toStdString();
        shown[valve] = line.found.minimum->clearance_mm / 25.4;
        EXPECT_NEAR(shown[valve], demo.at(valve), 2.0 * thou_in) << valve.toStdString();
        EXPECT_TRUE(line.doubt_mm.has_value());
    }

    // The file, in another shop, by the command line: the same numbers to the last digit.
    const QString other = path("other.rodway");
    ASSERT_TRUE(ShopFile::create(other.toStdString()).ok());
    ASSERT_EQ(tests::run({"add-build", other, "Twin", "--set-up", path("merrow.json"), "--customer",
                          "T. Orme", "--engine", "261 six"})
                  .exit_code,
              0);
    const auto answered = tests::run({"clearance", other, "Twin", "--json"});
    const auto valves =
        QJsonDocument::fromJson(answered.output.toUtf8()).object()["valves"].toArray();
    ASSERT_EQ(valves.size(), 12) << answered.complaints.toStdString();
    for (const QJsonValue& value : valves) {
        const QJsonObject valve = value.toObject();
        EXPECT_NEAR(valve["minimum_in"].toDouble(), shown.at(valve["valve"].toString()), 1e-12);
    }

    const QString account = person().account();
    std::printf("%s\n", qPrintable(account));
    RecordProperty("keystroke_level_model", account.toStdString());
    EXPECT_LT(person().seconds(), 15.0 * 60.0) << account.toStdString();
    EXPECT_GT(person().steps(), 400); // a program that does it by itself would not be this one
}

} // namespace
} // namespace rodway
